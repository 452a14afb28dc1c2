/// @file report.h
/// What a person or the next program gets to see. Each writer returns the bytes; nobody here
/// writes files. The same input gives the same bytes.
#pragma once

#include <string>
#include <vector>

#include "placer/firing/cone.h"
#include "placer/firing/forecast.h"
#include "placer/firing/log.h"
#include "placer/model/batch.h"
#include "placer/model/load_plan.h"

namespace placer::report {

/// Everything a report may show. References must outlive the call.
struct Subject {
  const Batch& batch;
  const LoadPlan& plan;
  const std::vector<firing::Forecast>& forecasts;  ///< one for each of plan.firings
  std::string studio;                              ///< title
  std::string zone;       ///< IANA time zone for clock times; "" = the machine's
  bool inches = false;    ///< show inches beside mm
  long long made_at = 0;  ///< seconds since 1970 UTC: the date in the files
};

/// Inches and pounds in place of mm and kg alone, °F before °C, when `inches`: "1209 °F (654 °C)",
/// "8 1/2 in (216 mm)", "3 1/8 x 1 3/16 in (80 x 30 mm)", "5.5 lb (2.5 kg)"; else unchanged, as is
/// what stands between quotation marks.
std::string in_own_units(const std::string& words, bool inches);
/// The sentences of a plan in the units that the studio reads, and with the names of its sheets:
/// "glaze, shelf 5", not "glaze load 1, middle, shelf 5"; inches before mm, pounds before kg.
void put_as_read(const Batch& batch, bool inches, LoadPlan& plan);
/// One such sentence.
std::string as_read(const Subject& subject, const std::string& words);
/// The sentences of a firing: °F before °C, and the lengths in them likewise.
void put_as_read(bool fahrenheit, firing::Forecast& forecast);

enum class Paper { both, a4, letter };  ///< both: 279 x 210 mm prints unscaled on either

struct PaperOptions {
  Paper paper = Paper::both;
  std::vector<std::string>* missing_glyphs = nullptr;  ///< told what could not be drawn
};

/// All sheets of all firings in one PDF: batch sheet, then for each firing its first page, a page a
/// shelf, its firing sheet. @throws std::runtime_error if the drawing library fails.
std::string sheets_pdf(const Subject& subject, const PaperOptions& options = {});
/// The pages of the same as single SVG files, with real text: {name, bytes}.
struct File {
  std::string name;
  std::string bytes;
};
std::vector<File> sheets_svg(const Subject& subject, const PaperOptions& options = {});
/// One self-contained page for the phone.
std::string sheets_html(const Subject& subject);

std::string plan_json(const Subject& subject);
std::string firing_json(const firing::Forecast& forecast);
std::string findings_json(const std::vector<Finding>& findings);
std::string plan_csv(const Subject& subject);
/// The things to do as a calendar (RFC 5545); "" when no firing has a start time.
std::string diary_ics(const Subject& subject);

std::string plan_text(const Subject& subject);  ///< what `placer load` prints
std::string firing_text(const firing::Forecast& forecast, const std::string& zone,
                        bool fahrenheit_first = false);

/// All firings of the plan one after another, each under its name.
std::string firings_text(const Subject& subject);
/// The first firing's answer, with all of them under "firings".
std::string firings_json(const Subject& subject);

/// When a cone bends at a rate: its own kind first, the other kinds, the superseded and the Seger
/// figures of that name beside it, each called what it is.
/// @throws std::invalid_argument if the rate is not positive and finite.
std::string cone_text(const firing::ConeTable& table, const firing::Cone& cone, Ramp rate);
std::string cone_json(const firing::ConeTable& table, const firing::Cone& cone, Ramp rate);
/// Which cone a plain ramp to a temperature brings down, and those near it, the nearest first.
std::string cones_at_text(const firing::ConeTable& table, firing::ConeKind kind, Temperature top,
                          Ramp rate);
std::string cones_at_json(const firing::ConeTable& table, firing::ConeKind kind, Temperature top,
                          Ramp rate);

/// What `placer reached` prints: how the log was read, and what the kiln did.
std::string log_text(const firing::FiringLog& log, const firing::Judged& judged);
std::string log_json(const firing::FiringLog& log, const firing::Judged& judged);
/// What millivolts of a zirconia probe mean at a temperature.
/// @throws std::invalid_argument outside -50 to 1400 mV.
std::string probe_text(double millivolts, Temperature at);
std::string probe_json(double millivolts, Temperature at);

/// JSON Schemas (draft 2020-12) of the JSON answers above, as shipped in the program.
std::vector<std::string> answer_schemas();  ///< "check", "cone", "firing", "load"
/// @throws std::invalid_argument if there is no such answer, naming those that there are.
std::string answer_schema(const std::string& answer);

}  // namespace placer::report
