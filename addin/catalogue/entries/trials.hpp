// How the answers of trials stand in cells.
#pragma once

#include "catalogue/columns.hpp"
#include "slipbark/trials.hpp"

namespace slipbark::catalogue {

template <>
inline constexpr auto columns_of<trials::StopCounting> = columns(&trials::StopCounting::verdict,
                                                                 &trials::StopCounting::poor_to,
                                                                 &trials::StopCounting::good_from);

template <>
inline constexpr auto columns_of<trials::FactorEffect> = columns(&trials::FactorEffect::factor,
                                                                 &trials::FactorEffect::odds_ratio,
                                                                 &trials::FactorEffect::low,
                                                                 &trials::FactorEffect::high, &trials::FactorEffect::p,
                                                                 &trials::FactorEffect::dispersion);

}  // namespace slipbark::catalogue
