/// @file log.h
/// A firing that was written down: time, temperature, perhaps probe millivolts and notes, as CSV.
///
/// Read whatever a notebook or a logger writes: `;`, tab or `,` between the columns, decimal comma
/// or point, a BOM, a heading or none, °C or °F, elapsed time or clock time (over midnight and over
/// a night on which the clocks change), dates or none. Rows that cannot be used are named with
/// their line and left out; the rest is judged.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "placer/base/error.h"
#include "placer/firing/forecast.h"
#include "placer/firing/heat_work.h"
#include "placer/firing/probe.h"

namespace placer::firing {

enum class Scale { celsius, fahrenheit };

struct LogOptions {
  std::optional<Scale> scale;  ///< when the file does not say; °C if unset
  std::string zone;            ///< of clock times with a date; "" = the machine's
};

struct LogRow {
  double hours = 0;  ///< since the first row
  double celsius = 0;
  float millivolts = 0;  ///< of the probe; NaN = none
};

struct LogNote {
  Hours at{0};
  std::string text;
};

/// A stretch without rows, or a step that no kiln makes.
struct Break {
  enum class What { gap, jump, clock_change } what = What::gap;
  Hours from{0}, to{0};
  Temperature before, after;
};

struct FiringLog {
  std::vector<LogRow> rows;  ///< by rising time
  std::vector<LogNote> notes;
  std::vector<Break> breaks;
  std::vector<Finding> findings;  ///< rows left out (the first twenty by line), how it was read
  std::size_t left_out = 0;       ///< rows that could not be used
  std::optional<long long> starts_at;  ///< UTC, when the file has dates
  Scale scale = Scale::celsius;
  std::string understood;  ///< "columns by ';', decimal comma, clock time, °F"
  bool has_probe = false;

  History history() const;
};

/// Never throws for what the text holds; a text without two usable rows has a mistake among its
/// findings.
FiringLog read_log(std::string_view text, const std::string& file, const LogOptions& options = {});

/// What is asked of a log.
struct LogQuestion {
  ConeKind cone_kind = ConeKind::self_supporting;
  std::string cone;                ///< aimed at; "" = not told
  const Forecast* plan = nullptr;  ///< planned firing, if there is one
};

struct Hold {
  Hours from{0}, to{0};
  Temperature at;
};

struct ReductionSpell {
  Hours from{0}, to{0};
  Temperature begins, ends;
  double carbon_monoxide = 0;  ///< mean percent
  Strength strength = Strength::light;
};

/// One planned temperature: when it was planned and when it was reached.
struct Against {
  std::string stage;
  Temperature at;
  Hours planned{0};
  std::optional<Hours> real;  ///< none = not reached in this log
};

/// For a log that stops on the way up.
struct Outlook {
  Ramp rate;           ///< over the last hour
  Temperature needed;  ///< at that rate, for the cone
  Hours left{0};       ///< until then; + or - `band`
  Hours band{0};
  std::optional<Ramp> rate_to_be_on_time;  ///< that would end when the plan ends
  std::string advice;
};

struct Judged {
  Verdict verdict;
  std::vector<Hold> holds;
  std::vector<Hold> stalls;  ///< stood still, or crept, while the climb was not over
  std::vector<ReductionSpell> reduction;
  std::vector<Against> against;
  std::optional<Hours> late;  ///< at the top, against the plan
  std::optional<Outlook> outlook;
  bool finished = false;  ///< it fell by 30 °C or more from its top
  std::vector<Finding> findings;
  std::vector<std::string> words;  ///< all of it, in plain sentences
};

/// @throws std::invalid_argument for a log of fewer than two rows or an unknown cone kind.
Judged judge_log(const FiringLog& log, const ConeTable& cones, const LogQuestion& question = {});

}  // namespace placer::firing
