/// @file check.h
/// Every rule of a load, derived again from the batch and the plan, without the packer.
#pragma once

#include <vector>

#include "placer/base/error.h"
#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer::check {

/// All broken rules of the plan, each as a mistake with numbers in its message; empty = it holds.
/// Rules: every piece counted once per firing it needs; nothing nearer than the gap; pieces on
/// their shelf, clear of posts, keep-outs and walls; shelves inside the chamber, clear of walls,
/// keep-outs and each other; posts on their shelf and under the next, in line through the column,
/// of one height a level, and no more in use than owned; levels tall enough with the air asked;
/// nothing under the lid's room; a pack of cones for each spy hole or the reason why not, clear of
/// all else and in sight where the plan says so; stacks as their kind allows; wishes that the plan
/// says it grants.
/// A length counts as short when it is short by more than 1e-6 mm.
std::vector<Finding> check_plan(const Batch& batch, const LoadPlan& plan);

}  // namespace placer::check
