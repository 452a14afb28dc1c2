/// load, firing and print: the commands that make a plan.
#include <fmt/format.h>

#include <iostream>

#include "cli/commands.h"
#include "cli/files.h"
#include "cli/studio_file.h"

namespace placer::cli {
namespace {

ExitStatus status_of(const job::Outcome& outcome) {
  if (interrupted()) return ExitStatus::stopped;
  const bool needs_you = !outcome.plan.left_out.empty() || has_mistakes(outcome.findings);
  return needs_you ? ExitStatus::needs_you : ExitStatus::done;
}

/// Missing letters are told once, on standard error.
void tell_missing(const std::vector<std::string>& glyphs) {
  if (glyphs.empty()) return;
  std::cerr << fmt::format("These letters have no font on this computer and print as boxes: {}\n",
                           fmt::join(glyphs, " "));
}

std::vector<NewFile> sheets(const Request& request, const report::Subject& subject) {
  report::PaperOptions paper;
  if (request.paper == "a4") paper.paper = report::Paper::a4;
  if (request.paper == "letter") paper.paper = report::Paper::letter;
  std::vector<std::string> missing;
  paper.missing_glyphs = &missing;
  const std::filesystem::path& out = request.out;
  std::vector<NewFile> files{
      {out / "sheets.pdf", report::sheets_pdf(subject, paper)},
      {out / "sheets.html", report::sheets_html(subject)},
      {out / "plan.json", report::plan_json(subject)},
      {out / "plan.csv", report::plan_csv(subject)},
  };
  std::string diary = report::diary_ics(subject);
  if (!diary.empty()) files.push_back({out / "firing.ics", std::move(diary)});
  paper.missing_glyphs = nullptr;
  for (report::File& page : report::sheets_svg(subject, paper)) {
    files.push_back({out / "svg" / page.name, std::move(page.bytes)});
  }
  tell_missing(missing);
  return files;
}

}  // namespace

ExitStatus load(const Request& request) {
  const StudioFile studio = open_sound_studio(request);
  const job::Outcome outcome = plan(request, studio);
  const report::Subject subject = subject_of(studio, outcome);
  std::cout << (request.json ? report::plan_json(subject)
                             : report::plan_text(subject) + "\nNext: placer print\n");
  return status_of(outcome);
}

ExitStatus firing(const Request& request) {
  const StudioFile studio = open_sound_studio(request);
  const job::Outcome outcome = plan(request, studio);
  const report::Subject subject = subject_of(studio, outcome);
  if (request.diary) {
    const std::string diary = report::diary_ics(subject);
    if (diary.empty()) {
      std::cerr << "placer: no firing has a start time, so there is nothing for a calendar; add "
                   "one to the file, as in  start: tomorrow 6:30\n";
      return ExitStatus::could_not_run;
    }
    std::cout << diary;
    return status_of(outcome);
  }
  if (request.json) {
    std::cout << report::firings_json(subject);
    return status_of(outcome);
  }
  std::cout << report::firings_text(subject);
  return status_of(outcome);
}

ExitStatus print(const Request& request) {
  const StudioFile studio = open_sound_studio(request);
  if (!request.dry_run) expect_folder(request.out);
  const job::Outcome outcome = plan(request, studio);
  const report::Subject subject = subject_of(studio, outcome);
  const std::vector<NewFile> files = sheets(request, subject);
  if (!request.dry_run) {
    write_all(files);
    // Pages of a larger load before this one would be carried to the kiln by mistake.
    remove_leftovers(files, request.out / "svg", "firing-", ".svg");
    remove_leftovers(files, request.out / "svg", "all-loads", ".svg");
    remove_leftovers(files, request.out, "firing.ics", "");
  }
  if (!request.quiet) {
    std::cout << report::plan_text(subject);
    std::cout << (request.dry_run ? "\nWould write:\n" : "\nWritten:\n");
  }
  for (const NewFile& file : files) {
    if (file.path.parent_path() == request.out) std::cout << "  " << file.path.string() << "\n";
  }
  if (!request.quiet) {
    std::cout << fmt::format("  {} (every page as a picture)\n", (request.out / "svg").string());
    std::cout << "Print sheets.pdf at actual size; the bar on each page is 40 mm.\n";
  }
  return status_of(outcome);
}

}  // namespace placer::cli
