/// @file dissolve.h
/// A load with one shelf less.
#pragma once

#include "loading/job.h"
#include "loading/setting.h"

namespace placer::loading {

/// Takes a shelf away (any but a kept one, or only top ones where heights matter) where all that
/// stands on it finds room on the other shelves of the load, again and again. Kept levels stay as
/// they are.
void dissolve_shelves(const Job& job, const Kept& kept, KilnLoad& load);

}  // namespace placer::loading
