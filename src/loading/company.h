/// @file company.h
/// Who may stand with whom, and where on a shelf.
#pragma once

#include "loading/job.h"

namespace placer::loading {

/// True when a glaze of one wishes to be apart from a glaze of the other, in a glaze firing.
bool apart(const Job& job, const Sort& a, const Sort& b);

/// Keeps pieces whose place is on the other side of the chamber's middle out of the ground.
/// A piece's place is its origin: the half plane that its whole ground must leave is on the safe
/// side of that.
void add_far_half(const Batch& batch, Side side, Region& ground);

}  // namespace placer::loading
