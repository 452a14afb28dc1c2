/// @file batch_words.h
/// What there is to say of all loads together: on paper and on the page.
#pragma once

#include <string>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// "40 Mug, 18 Cereal bowl": pieces by kind in a load, in the order of the studio file.
std::string contents_words(const Subject& subject, const KilnLoad& load);
/// Top, start, heat off and opening of a firing; "" when it has no forecast.
std::string times_words(const Subject& subject, std::size_t firing);

/// One row of the table of furniture: what, needed, owned, to get.
struct FurnitureRow {
  std::string what, needed, owned, get;
};

std::vector<FurnitureRow> furniture_rows(const Subject& subject);

/// Days by the calendar, when every start is known, and one straight after another.
std::string days_words(const Subject& subject);
/// "3 loads of the kiln: 2 might have been possible, 3 were found."
std::string loads_words(const Subject& subject);

}  // namespace placer::report
