/// @file library.h
/// The cone tables and profiles of schedules/, read once for all runs.
#pragma once

#include "placer/workbook/studio.h"

namespace placer::fuzz {

inline const workbook::Library& library() {
  static const workbook::Library read = workbook::read_library(PLACER_ROOT "/schedules");
  return read;
}

}  // namespace placer::fuzz
