/// @file studio_file.h
/// The first steps that most commands share: read the studio file, tell what is wrong, plan.
#pragma once

#include <string>

#include "cli/request.h"
#include "cli/telling.h"
#include "placer/job/job.h"
#include "placer/report/report.h"
#include "placer/workbook/studio.h"

namespace placer::cli {

struct StudioFile {
  std::string name;  ///< as messages call it
  std::string text;
  workbook::Library library;
  workbook::StudioResult result;
};

/// @throws std::system_error, or InputError when a file of schedules/ is not as it must be.
StudioFile open_studio(const Request& request);

/// The same, for commands that need a sound file: tells every finding on standard error.
/// @throws InputError with the findings when there is a mistake (already told).
struct Told {};  ///< thrown after the findings were told: end with could_not_run
StudioFile open_sound_studio(const Request& request);

/// What this run asks for on top of the file: --air, --gap, --first, --apart.
/// @throws InputError naming the option that cannot be.
void apply_wishes(const Request& request, workbook::Studio& studio);

/// Plans with --effort and --keep; Ctrl-C takes the best plan so far, a terminal sees progress.
job::Outcome plan(const Request& request, const StudioFile& studio);

report::Subject subject_of(const StudioFile& studio, const job::Outcome& outcome);

/// Seconds since 1970: SOURCE_DATE_EPOCH, or the clock.
long long now();

/// True after Ctrl-C.
bool interrupted();

}  // namespace placer::cli
