/// @file patterns.h
/// All that is to be set spread over shelves that go well together: which sorts share a shelf is
/// chosen for all shelves at once, by prices, before any kiln is thought of.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "loading/tiers.h"

namespace placer::loading {

/// Shelves in their columns, as few and low as can be found. A linear program over the fillings
/// known so far tells what a piece of each sort is worth just now; shelves filled for the most of
/// that worth are new fillings, until none gains (Gilmore and Gomory 1961). The fillings used most
/// are then taken in turn.
/// @param height_share of a shelf's cost that is for the height it takes of its column; the rest is
/// for the shelf itself. 0..1.
/// @param fewer_than loads are wanted, and care costs: when a glance shows no hope of that, the
/// answer is empty. 0: whatever it takes.
/// Empty when some piece finds no shelf, or when `stop` says so. Only for jobs of which
/// any_level_will_do.
std::vector<Tier> tiers_by_patterns(const Job& job, const std::vector<int>& left,
                                    const Recipe& recipe, std::optional<double> height_share,
                                    const std::function<bool()>& stop = nullptr,
                                    int fewer_than = 0);

}  // namespace placer::loading
