// How many sticks of budwood 3200 grafts need: 3200 x 1.15 over 4 scions from a stick of 9 buds.

#include <iostream>
#include <slipbark/budwood.hpp>

int main() { std::cout << slipbark::budwood::sticks(3200, 2, 9, 0.15) << "\n"; }
