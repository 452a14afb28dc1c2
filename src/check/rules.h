/// @file rules.h
/// The rules of a load, by subject. Each adds its findings.
#pragma once

#include <string>
#include <vector>

#include "check/view.h"
#include "placer/base/error.h"

namespace placer::check {

using Findings = std::vector<Finding>;

/// Adds a mistake about the plan.
void add(Findings& findings, std::string code, std::string message);

/// A length that is too short and the one asked, with as many decimals as tell them apart.
struct TwoLengths {
  std::string is, asked;  ///< with unit
};
TwoLengths two_lengths(double is_mm, double asked_mm);

// Of the plan as a whole. When the first finds anything, the others can't be asked.
void check_sound(const Batch& batch, const LoadPlan& plan, Findings& findings);
void check_rounds(const Batch& batch, const LoadPlan& plan, Findings& findings);
void check_counts(const Batch& batch, const LoadPlan& plan, Findings& findings);
void check_furniture(const Batch& batch, const LoadPlan& plan, Findings& findings);
void check_claims(const Batch& batch, const LoadPlan& plan, Findings& findings);
void check_wishes_across(const Batch& batch, const LoadPlan& plan, Findings& findings);

// Of one load.
void check_levels(const View& view, Findings& findings);
void check_masses(const View& view, Findings& findings);
void check_posts(const View& view, Findings& findings);
void check_shelves(const View& view, Findings& findings);
void check_stacks(const View& view, Findings& findings);
void check_pieces(const View& view, Findings& findings);
void check_heights(const View& view, Findings& findings);
void check_cones(const View& view, Findings& findings);
void check_wishes(const View& view, const LoadPlan& plan, Findings& findings);

}  // namespace placer::check
