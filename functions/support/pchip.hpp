// The monotone piecewise cubic through given points: no overshoot, so a share of a crop never exceeds what its
// neighbours in the table say and never falls below 0.
//
// The slopes at the inner points are the weighted harmonic means of Fritsch & Butland, those at the ends the
// three-point formula limited to keep the shape: the PCHIP of SLATEC, MATLAB and scipy.
// boost::math::interpolators::pchip takes the plain secants at the ends, refuses fewer than four points and prepares
// every interval, where one value needs one.
//
// source  Fritsch & Carlson (1980) SIAM J Numer Anal 17:238-246; Fritsch & Butland (1984) SIAM J Sci Stat Comput
//         5:300-304; Moler, Numerical Computing with MATLAB, section 3.4 (end slopes; from memory)
#pragma once

#include <cstddef>
#include <span>

namespace slipbark::pchip {

/// Slope of the curve at the point `knot` (counted from 0). x strictly rising and finite, y finite, equally many of
/// both and at least two: the caller has seen to that.
double slope(std::span<const double> x, std::span<const double> y, std::size_t knot);

/// Height of the curve at `at`; before the first point that point's y, after the last that one's. Looks at no more than
/// the four points around `at`. Points as for slope().
double value(std::span<const double> x, std::span<const double> y, double at);

}  // namespace slipbark::pchip
