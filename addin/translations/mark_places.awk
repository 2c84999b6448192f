# Marks each text of a .pot that has places, {1}, as one of python-brace-format, so that msgfmt --check tells of a
# translation that lacks a place; drops the date, so that the same texts make the same file; and leaves room for the
# language's rule of plurals.
BEGIN { RS = ""; ORS = "\n\n" }
{
    sub(/"POT-Creation-Date:[^"]*"\n/, "")
    if (NR == 1 && !/Plural-Forms/) $0 = $0 "\n\"Plural-Forms: nplurals=INTEGER; plural=EXPRESSION;\\n\""
    rest = $0
    places = gsub(/[{][0-9]+[}]/, "", rest)
    if (places > 0 && rest !~ /[{}]/) sub(/msgid "/, "#, python-brace-format\nmsgid \"")
    print
}
