#include "cli/studio_file.h"

#include <fmt/format.h>
#include <spdlog/spdlog.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <csignal>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <iostream>

#include "cli/files.h"
#include "placer/base/words.h"
#include "placer/firing/calibration.h"
#include "placer/model/tower.h"
#include "placer/workbook/quantity.h"

namespace placer::cli {
namespace {

volatile std::sig_atomic_t stop_asked = 0;
void on_interrupt(int /*signal*/) { stop_asked = 1; }

[[noreturn]] void refuse(const std::string& option, const std::string& message) {
  throw InputError{TextPos{option}, message};
}

Length length_option(const std::string& option, const std::string& text, bool inches) {
  const workbook::LengthOrWhy read = workbook::read_length_or_why(text, inches);
  if (!read.length) refuse(option, read.complaint);
  if (read.length->mm() > 1000) {
    refuse(option, fmt::format("\"{}\" makes no sense here: up to 1000 mm can be", text));
  }
  return *read.length;
}

template <class Things>
std::size_t named(const std::string& option, const std::string& name, const Things& things,
                  const std::string& what) {
  std::vector<std::string> known;
  for (const auto& thing : things) known.push_back(thing.name);
  const auto found = std::ranges::find(known, name);
  if (found != known.end()) return static_cast<std::size_t>(found - known.begin());
  const auto near = nearest_word(name, known);
  refuse(option, fmt::format("the studio file has no {} called \"{}\"{}", what, name,
                             near ? fmt::format("; did you mean \"{}\"?", *near) : ""));
}

void keep_apart(const std::string& pair, Batch& batch) {
  const std::size_t comma = pair.find(',');
  if (comma == std::string::npos) {
    refuse("--apart", fmt::format("takes two glazes, as in \"shino,clear\", not \"{}\"", pair));
  }
  const std::size_t a = named("--apart", pair.substr(0, comma), batch.glazes, "glaze");
  const std::size_t b = named("--apart", pair.substr(comma + 1), batch.glazes, "glaze");
  if (a == b) {
    refuse("--apart", fmt::format("takes two glazes, and \"{}\" names one twice", pair));
  }
  for (PieceKind& piece : batch.pieces) {
    if (piece.glaze == static_cast<int>(a)) piece.wishes.apart.push_back(batch.glazes[b].name);
  }
}

loading::Effort effort_of(const Request& request) {
  if (request.effort == "quick") return loading::Effort::quick;
  if (request.effort == "thorough") return loading::Effort::thorough;
  return loading::Effort::normal;
}

struct LevelRange {
  std::string column;  ///< "" = every column
  int from = 1, to = 1;
};

LevelRange range_of(const std::string& text) {
  LevelRange range;
  std::string_view rest = text;
  if (const std::size_t colon = rest.rfind(':'); colon != std::string_view::npos) {
    range.column = rest.substr(0, colon);
    rest.remove_prefix(colon + 1);
  }
  const auto number = [&](std::string_view digits) {
    int value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc{} || end != digits.data() + digits.size() || value < 1) {
      refuse("--keep", fmt::format("takes levels such as 1-2, not \"{}\"", text));
    }
    return value;
  };
  const std::size_t dash = rest.find('-');
  range.from = number(rest.substr(0, dash));
  range.to = dash == std::string_view::npos ? range.from : number(rest.substr(dash + 1));
  if (range.to < range.from) {
    refuse("--keep", fmt::format("takes levels from the bottom up, such as 1-2, not \"{}\"", text));
  }
  return range;
}

/// Of a load with a bridge: only what has all that lies under it kept too.
void keep_whole_towers(const Kiln& kiln, const KilnLoad& load, std::vector<Level>& kept) {
  if (!has_bridge(load)) return;
  const auto among = [&](const Level& level) {
    return std::any_of(kept.begin(), kept.end(), [&](const Level& one) {
      return one.column == level.column && one.level == level.level;
    });
  };
  const auto bare = [&](const Level& level) {
    const std::vector<int> columns = columns_of(kiln, level);
    return std::any_of(load.levels.begin(), load.levels.end(), [&](const Level& under) {
      return under.level < level.level && !among(under) &&
             std::any_of(columns.begin(), columns.end(),
                         [&](int column) { return lies_in(kiln, under, column); });
    });
  };
  for (auto one = std::find_if(kept.begin(), kept.end(), bare); one != kept.end();
       one = std::find_if(kept.begin(), kept.end(), bare)) {
    kept.erase(one);
  }
}

/// The levels already set are those of the plan as it was, before this run's wishes.
std::vector<Level> kept_levels(const Request& request, const StudioFile& studio) {
  if (request.keep.empty()) return {};
  const LevelRange range = range_of(request.keep);
  loading::Options options;
  options.effort = effort_of(request);
  const Batch& batch = studio.result.studio->batch;
  const bool bridge = std::any_of(batch.kiln.bridges.begin(), batch.kiln.bridges.end(),
                                  [&](const Bridge& one) { return one.name == range.column; });
  if (!range.column.empty() && !bridge) named("--keep", range.column, batch.kiln.columns, "column");
  const LoadPlan before = loading::plan(batch, options);
  std::vector<Level> kept;
  if (before.firings.empty()) refuse("--keep", "nothing can be set, so there is nothing to keep");
  for (const Level& level : before.firings.front().levels) {
    if (!range.column.empty() && range.column != place_name(batch.kiln, level)) continue;
    if (level.level >= range.from && level.level <= range.to) kept.push_back(level);
  }
  keep_whole_towers(batch.kiln, before.firings.front(), kept);
  if (kept.empty()) {
    refuse(
        "--keep",
        range.column.empty()
            ? fmt::format("no column of the first load has a level {}", range.from)
            : fmt::format("the first load has no level {} in {} whose shelves below are kept too",
                          range.from, range.column));
  }
  return kept;
}

void show_progress(double done) {
  std::cerr << fmt::format("\rplanning {:3.0f} %", done * 100) << std::flush;
  if (done >= 1) std::cerr << "\r              \r" << std::flush;
}

}  // namespace

long long now() {
  if (const char* epoch = std::getenv("SOURCE_DATE_EPOCH")) {
    long long value = 0;
    const std::string_view text{epoch};
    if (std::from_chars(text.data(), text.data() + text.size(), value).ec == std::errc{}) {
      return value;
    }
  }
  return std::time(nullptr);
}

bool interrupted() { return stop_asked != 0; }

StudioFile open_studio(const Request& request) {
  StudioFile studio;
  studio.library = workbook::read_library(schedules_folder());
  studio.text = read_whole(request.file);
  studio.name = request.file == "-" ? "standard input" : request.file;
  studio.result = workbook::read_studio(studio.text, studio.name, studio.library, now());
  for (Finding& finding : studio.result.findings)
    finding.message = report::in_own_units(finding.message, studio.result.inches);
  return studio;
}

namespace {

/// A past firing that the studio file names teaches what the kiln loses and stores.
void learn_from_past(const Request& request, workbook::Studio& studio) {
  firing::KilnBuild& kiln = studio.kiln_build;
  if (kiln.past_log.empty()) return;
  const std::filesystem::path beside = std::filesystem::path{request.file}.parent_path();
  const std::string text = read_whole((beside / kiln.past_log).string());
  firing::LogOptions options;
  options.zone = studio.zone;
  if (studio.fahrenheit) options.scale = firing::Scale::fahrenheit;
  const firing::FiringLog log = firing::read_log(text, kiln.past_log, options);
  if (has_mistakes(log.findings)) {
    tell(log.findings, text, request);
    throw Told{};
  }
  const firing::Calibrated past = job::learn(studio, log);
  tell(past.findings, text, request);
  kiln.learnt = past.learnt;
  kiln.learnt->from = kiln.past_log;
}

}  // namespace

StudioFile open_sound_studio(const Request& request) {
  StudioFile studio = open_studio(request);
  tell(studio.result.findings, studio.name, studio.text, request);
  if (!studio.result.studio) throw Told{};
  apply_wishes(request, *studio.result.studio);
  learn_from_past(request, *studio.result.studio);
  return studio;
}

void apply_wishes(const Request& request, workbook::Studio& studio) {
  Batch& batch = studio.batch;
  if (!request.air.empty()) {
    const Length air = length_option("--air", request.air, studio.inches);
    batch.rules.glaze.air = air;
    batch.rules.bisque.air = air;
  }
  if (!request.gap.empty()) {
    const Length gap = length_option("--gap", request.gap, studio.inches);
    for (Clearances* rules : {&batch.rules.glaze, &batch.rules.bisque}) {
      rules->gap = gap;
      rules->runny_gap = std::max(gap, rules->runny_gap);
    }
  }
  for (const std::string& name : request.first) {
    batch.pieces[named("--first", name, batch.pieces, "piece")].wishes.must_go = true;
  }
  for (const std::string& pair : request.apart) keep_apart(pair, batch);
  for (const std::string& name : request.broken) {
    PieceKind& piece = batch.pieces[named("--broken", name, batch.pieces, "piece")];
    if (piece.count == 0) {
      refuse("--broken", fmt::format("the studio file has no more of \"{}\" than that", name));
    }
    --piece.count;
  }
}

namespace {

/// The plan as the file has it, then without what broke: nothing else moves.
LoadPlan plan_without_broken(const Request& request, Batch batch, const loading::Options& options) {
  std::vector<int> broken;
  for (const std::string& name : request.broken) {
    broken.push_back(static_cast<int>(named("--broken", name, batch.pieces, "piece")));
    ++batch.pieces[static_cast<std::size_t>(broken.back())].count;
  }
  LoadPlan plan = loading::plan(batch, options);
  for (const int kind : broken) {
    --batch.pieces[static_cast<std::size_t>(kind)].count;
    plan = loading::without_broken(batch, plan, kind, 1);
  }
  return plan;
}

}  // namespace

job::Outcome plan(const Request& request, const StudioFile& studio) {
  std::signal(SIGINT, on_interrupt);
  loading::Options options;
  options.effort = effort_of(request);
  options.keep = kept_levels(request, studio);
  options.stop = [] { return interrupted(); };
  if (!request.quiet && ::isatty(STDERR_FILENO) == 1) options.progress = show_progress;
  const workbook::Studio& sound = *studio.result.studio;
  job::Outcome outcome = request.broken.empty()
                             ? job::run(sound, studio.library, options)
                             : job::run_plan(sound, studio.library,
                                             plan_without_broken(request, sound.batch, options));
  report::put_as_read(sound.batch, sound.inches, outcome.plan);
  for (firing::Forecast& forecast : outcome.forecasts) {
    report::put_as_read(sound.inches, forecast);
  }
  for (Finding& finding : outcome.findings) {
    finding.message = report::as_read(subject_of(studio, outcome), finding.message);
  }
  tell(outcome.findings, studio.name, studio.text, request);
  return outcome;
}

report::Subject subject_of(const StudioFile& studio, const job::Outcome& outcome) {
  const workbook::Studio& sound = *studio.result.studio;
  long long made_at = 0;
  if (std::getenv("SOURCE_DATE_EPOCH") != nullptr) made_at = now();
  for (const firing::Forecast& forecast : outcome.forecasts) {
    if (made_at != 0) break;
    made_at = forecast.schedule.wish.starts_at.value_or(0);
  }
  return {sound.batch,  outcome.plan, outcome.forecasts, sound.title, sound.zone,
          sound.inches, made_at};
}

}  // namespace placer::cli
