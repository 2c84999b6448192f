// Seen before everything else where MinGW builds for Windows: what the office's headers want to know of a compiler
// whose builds of the office do not exist, in place of their typesizes.h, which is this machine's.
#pragma once

#define CONFIG_TYPESIZES_H
#define SAL_TYPES_ALIGNMENT2 2
#define SAL_TYPES_ALIGNMENT4 4
#define SAL_TYPES_ALIGNMENT8 8
#define SAL_TYPES_SIZEOFSHORT 2
#define SAL_TYPES_SIZEOFINT 4
#define SAL_TYPES_SIZEOFLONG 4
#define SAL_TYPES_SIZEOFLONGLONG 8
#define SAL_TYPES_SIZEOFPOINTER 8
// The branch of sal/types.h for GCC. Nothing of the values' headers hangs on it besides.
#define SAL_UNX
