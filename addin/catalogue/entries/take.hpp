// How the answers of take stand in cells.
#pragma once

#include "catalogue/columns.hpp"
#include "slipbark/take.hpp"

namespace slipbark::catalogue {

template <>
inline constexpr auto columns_of<take::BlockTake> = columns(&take::BlockTake::take, &take::BlockTake::low,
                                                            &take::BlockTake::high, &take::BlockTake::design_effect,
                                                            &take::BlockTake::trees, &take::BlockTake::grafts);

template <>
inline constexpr auto columns_of<take::TakeDifference> = columns(&take::TakeDifference::difference,
                                                                 &take::TakeDifference::low,
                                                                 &take::TakeDifference::high, &take::TakeDifference::p);

template <>
inline constexpr auto columns_of<take::GroupTake> = columns(&take::GroupTake::group, &take::GroupTake::grafted,
                                                            &take::GroupTake::live, &take::GroupTake::take,
                                                            &take::GroupTake::low, &take::GroupTake::high,
                                                            &take::GroupTake::steadied_take);

template <>
inline constexpr auto columns_of<take::PooledTake> = columns(&take::PooledTake::group, &take::PooledTake::grafted,
                                                             &take::PooledTake::live, &take::PooledTake::take,
                                                             &take::PooledTake::pooled_take, &take::PooledTake::low,
                                                             &take::PooledTake::high);

template <>
inline constexpr auto columns_of<take::NextTake> = columns(&take::NextTake::take, &take::NextTake::low,
                                                           &take::NextTake::high, &take::NextTake::groups);

template <>
inline constexpr auto columns_of<take::TreeToRegraft> = columns(&take::TreeToRegraft::row, &take::TreeToRegraft::tree,
                                                                &take::TreeToRegraft::live,
                                                                &take::TreeToRegraft::missing,
                                                                &take::TreeToRegraft::grafts);

template <>
inline constexpr auto columns_of<take::GraftLife> = columns(&take::GraftLife::share, &take::GraftLife::low,
                                                            &take::GraftLife::high);

}  // namespace slipbark::catalogue
