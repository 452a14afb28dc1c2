/// @file reasons.h
/// Why a piece was left out, in a potter's words, the same wherever it is shown.
#pragma once

#include <optional>
#include <string>

#include "loading/job.h"
#include "placer/model/load_plan.h"

namespace placer::loading {

struct Reason {
  std::string code;
  std::string words;
};

/// Whether one of the sort fits on the lowest shelf there, no more room over it than it needs, or
/// on one over something that is kept clear. Levels and zones wished for don't count.
bool fits_at_some_height(const Job& job, const Site& site, const Sort& sort);

/// Kilograms to 10 g: "6.35 kg".
std::string weight(double kg);

/// The limit that no piece may go over: "2 kg on a shelf".
std::string lowest_limit(const Kiln& kiln);

/// The lowest surface that a site's shelf can have; nullopt when no posts carry it.
std::optional<Length> lowest_top(const Job& job, const Site& site);

/// Why not even one can be set in an empty kiln; nullopt when one can.
std::optional<Reason> hopeless(const Job& job, const Sort& sort);

/// Why what could be set alone was not set in any firing.
Reason unplaced(const Job& job, const Sort& sort);

/// Adds `count` of a sort (its lids too) to what is left out.
void leave_out(const Job& job, int sort, int count, const Reason& reason, LoadPlan& plan);

}  // namespace placer::loading
