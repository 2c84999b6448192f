// "Save a copy with values".
#include "send.hpp"
