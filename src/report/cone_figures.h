/// @file cone_figures.h
/// The figures that stand beside a cone in the table: other kinds of the same name, and series
/// that must not be mixed up with it.
#pragma once

#include <string>
#include <vector>

#include "placer/firing/cone.h"

namespace placer::report {

/// Cones of the same name and another kind, in the table's order.
std::vector<const firing::Cone*> other_kinds(const firing::ConeTable& table,
                                             const firing::Cone& cone);
const firing::ConeTable::Seger* seger_of(const firing::ConeTable& table, const std::string& name);
const firing::ConeTable::Superseded* superseded_of(const firing::ConeTable& table,
                                                   const std::string& name);

}  // namespace placer::report
