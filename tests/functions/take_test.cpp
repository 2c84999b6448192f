#include "take.hpp"
