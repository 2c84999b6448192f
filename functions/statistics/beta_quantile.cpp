#include "statistics/beta_quantile.hpp"

#include <boost/math/constants/constants.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/policies/policy.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/tools/fraction.hpp>
#include <cmath>
#include <limits>
#include <utility>

namespace slipbark::statistics {

namespace {

/// Boost.Math otherwise works in long double, which costs several times as much, for digits that no cell shows.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

/// What Stirling's formula leaves of log gamma: log gamma(z) - (z - 1/2) log z + z - log(2 pi) / 2.
double beyond_stirling(double z) {
    constexpr double large = 12;  // where the terms of the series not taken are below 1E-16
    if (z < large) {
        return boost::math::lgamma(z, InDouble()) - (z - 0.5) * std::log(z) + z -
               boost::math::constants::log_root_two_pi<double>();
    }
    const double square = 1 / (z * z);
    double sum = 0;
    for (const double term : {-691.0 / 360360, 1.0 / 1188, -1.0 / 1680, 1.0 / 1260, -1.0 / 360, 1.0 / 12}) {
        sum = sum * square + term;
    }
    return sum / z;
}

/// The terms of DiDonato & Morris's continued fraction for x^a y^b / B(a, b) over I_x(a, b), y = 1 - x.
class Fraction {
  public:
    using result_type = std::pair<double, double>;

    Fraction(double a, double b, double x, double y) : a_(a), b_(b), x_(x), y_(y) {}

    result_type operator()() {
        const double place = a_ + 2 * m_;
        const double part = m_ * (b_ - m_) * x_ / (place - 1);
        const double numerator = (a_ + m_ - 1) * (a_ + b_ + m_ - 1) * x_ / (place - 1) * part;
        const double denominator = m_ + part + (a_ + m_) * (a_ * y_ - b_ * x_ + 1 + m_ * (2 - x_)) / (place + 1);
        m_ += 1;
        return {numerator, denominator};
    }

  private:
    double a_;
    double b_;
    double x_;
    double y_;
    double m_ = 0;
};

/// The distribution of the log odds t of Beta(a, b), as seen from the log odds of its mean. Its density
/// x^a (1 - x)^b / B(a, b) is log-concave, and so is its integral.
class LogOdds {
  public:
    LogOdds(double a, double b)
        : a_(a),
          b_(b),
          share_(a < b ? a / (a + b) : b / (a + b)),
          height_(std::log(share_ * std::fmax(a, b) / boost::math::constants::two_pi<double>()) / 2 +
                  beyond_stirling(a + b) - beyond_stirling(a) - beyond_stirling(b)) {}

    [[nodiscard]] double mean() const { return std::log(a_ / b_); }

    /// Where Wilson & Hilferty put the quantile: the cube root of (x / a) / ((1 - x) / b) as if it were normal. Far out
    /// in the tail of a small a, where there is no such root, the first term of I_x's power series.
    [[nodiscard]] double guess(double tail) const {
        const double z = boost::math::quantile(boost::math::normal_distribution<double, InDouble>(), tail);
        const double of_a = 1 / (9 * a_);
        const double of_b = 1 / (9 * b_);
        const double rest = (1 - of_a) * (1 - of_a) - z * z * of_a;
        const double spread = of_a * (1 - of_b) * (1 - of_b) + of_b * rest;
        if (rest > 0) return 3 * std::log(rest / ((1 - of_a) * (1 - of_b) - z * std::sqrt(spread)));
        const double log_y = std::log(b_ / (a_ + b_));
        return (std::log(tail) + std::log(a_) + b_ * log_y - height_) / a_ + log_y;
    }

    /// From a place nearer to where the logarithm of the distribution is `wanted`. Whether it is there.
    bool step(double& away, double wanted) const {
        const double odds = std::exp(mean() + away);
        const double y = 1 / (1 + odds);
        const double x = odds * y;
        // rise: of the logarithm; bend and twist: its second and third derivative over the first.
        Fraction fraction(a_, b_, x, y);
        const double rise = boost::math::tools::continued_fraction_b(fraction, std::numeric_limits<double>::epsilon());
        const double bend = (a_ < b_ ? a_ - (a_ + b_) * x : (a_ + b_) * y - b_) - rise;
        const double twist = bend * (bend - rise) - (a_ + b_) * x * y;
        const double newton = (wanted - log_density(away) + std::log(rise)) / rise;
        const double more = 1 - newton * (bend / 2 - newton * (bend * bend / 2 - twist / 6));
        // Newton's steps on a concave function cannot fail; a series that runs away from them is not followed.
        away += newton * (more > 0.5 && more < 2 ? more : 1);
        // What is still missing goes with the fourth power of this.
        constexpr double there = 1e-4;
        return std::abs(newton) * (std::abs(bend) + rise) < there;
    }

  private:
    /// Followed from the mean on the side of the smaller of a and b, so that nothing large cancels.
    [[nodiscard]] double log_density(double away) const {
        const double smaller = a_ < b_ ? a_ : b_;
        const double up = a_ < b_ ? away : -away;
        return height_ + smaller * up - (a_ + b_) * std::log1p(share_ * std::expm1(up));
    }

    double a_;
    double b_;
    double share_;   ///< mean of x or of 1 - x, the smaller
    double height_;  ///< the logarithm of the density at the mean
};

}  // namespace

double beta_quantile_log_odds(double a, double b, double tail) {
    if (a == 1) return std::log(std::expm1(-std::log1p(-tail) / b));
    if (b == 1) return -std::log(std::expm1(-std::log(tail) / a));
    const LogOdds distribution(a, b);
    const double wanted = std::log(tail);
    double away = distribution.guess(tail);
    constexpr int enough = 50;  // two or three are usual
    for (int round = 0; round < enough && !distribution.step(away, wanted);) ++round;
    return distribution.mean() + away;
}

}  // namespace slipbark::statistics
