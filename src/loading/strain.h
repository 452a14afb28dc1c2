/// @file strain.h
/// What the shelves bear between their posts, and what stands too near to where the fire passes.
#pragma once

#include <string>
#include <vector>

#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

/// The longest way from one post of a shelf to the next round it, mm; 0 with fewer than three.
double span_of(const std::vector<PlacedPost>& posts);

/// Stress in the middle of a strip of shelf that bears an even load: 0.75 w (s / d)^2.
/// @param load of ware and shelf together, Pa. @return MPa
/// @source beam formula for a simply supported strip, M = w s^2 / 8, section d^2 / 6; from memory
double stress(double load_pa, double span_mm, double thick_mm);

/// One sentence for each kind of shelf that is strained more than is usual, the worst case of it.
std::vector<std::string> strained_shelves(const Batch& batch, const LoadPlan& plan);

/// One sentence for each flue, burner or bag wall that pieces crowd.
std::vector<std::string> crowded_fire(const Batch& batch, const LoadPlan& plan);

}  // namespace placer::loading
