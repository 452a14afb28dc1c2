/// begin, check, tidy, words and why: the commands about the studio file itself.
#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <iostream>
#include <system_error>

#include "cli/commands.h"
#include "cli/files.h"
#include "cli/studio_file.h"
#include "placer/base/words.h"
#include "placer/workbook/explain.h"
#include "placer/workbook/tidy.h"

namespace placer::cli {
namespace {

int count(const std::vector<Finding>& findings, Severity severity) {
  return static_cast<int>(std::ranges::count_if(
      findings, [severity](const Finding& f) { return f.severity == severity; }));
}

void tell_readings(const StudioFile& studio) {
  if (!studio.result.studio) return;
  std::string file = studio.name;
  for (const workbook::Reading& reading : studio.result.studio->readings) {
    if (reading.where.file != file) std::cout << (file = reading.where.file) << ":\n";
    std::cout << fmt::format("{:>12}  {:<20} {:<20} {}\n",
                             fmt::format("line {}", reading.where.line), reading.key, reading.given,
                             reading.understood);
  }
}

void list_words(const workbook::WordList& list) {
  std::cout << fmt::format("{}: {}\n\n", list.place.empty() ? "the file" : list.place, list.about);
  for (const workbook::Word& word : list.words) {
    std::cout << fmt::format("  {:<14} {}{}\n  {:<14} {}\n", word.key, word.takes,
                             word.needed ? " (needed)" : "", "", word.meaning);
    if (!word.example.empty()) std::cout << fmt::format("  {:<14} {}\n", "", word.example);
  }
}

std::optional<int> piece_called(const Batch& batch, const std::string& name) {
  for (std::size_t i = 0; i < batch.pieces.size(); ++i) {
    if (letters_apart(batch.pieces[i].name, name) == 0) return static_cast<int>(i);
  }
  std::vector<std::string> known;
  for (const PieceKind& piece : batch.pieces) known.push_back(piece.name);
  const auto near = nearest_word(name, known);
  if (!near) return std::nullopt;
  return static_cast<int>(std::ranges::find(known, *near) - known.begin());
}

}  // namespace

ExitStatus begin(const Request& request) {
  const std::filesystem::path file{request.file};
  const std::filesystem::path schema = file.parent_path() / "studio.schema.json";
  try {
    write_new({file, workbook::first_studio()});
  } catch (const std::system_error& error) {
    if (error.code().value() != EEXIST) throw;
    std::cerr << fmt::format("placer: {} is there already, and is left as it is.\n", request.file);
    return ExitStatus::could_not_run;
  }
  write_all({{schema, workbook::studio_schema()}});
  if (!request.quiet) {
    std::cout << fmt::format(
        "Wrote {} (and {}, which helps an editor to help you).\n"
        "Measure your kiln, change the numbers, then: placer check\n",
        file.string(), schema.string());
  }
  return ExitStatus::done;
}

ExitStatus check(const Request& request) {
  const StudioFile studio = open_studio(request);
  const std::vector<Finding>& findings = studio.result.findings;
  const int mistakes = count(findings, Severity::mistake);
  const int looks = count(findings, Severity::look);
  if (request.json) {
    std::cout << report::findings_json(findings);
  } else {
    tell(findings, studio.name, studio.text, request);
    if (request.how_read) tell_readings(studio);
    if (!request.quiet && mistakes + looks == 0) {
      std::cout << "All is well. Next: placer load\n";
    } else if (!request.quiet) {
      std::cout << fmt::format("{} to mend, {} to look at.   More: placer why {}\n", mistakes,
                               looks, findings.front().code);
    }
  }
  if (mistakes > 0) return ExitStatus::could_not_run;
  return request.strict && looks > 0 ? ExitStatus::needs_you : ExitStatus::done;
}

ExitStatus tidy(const Request& request) {
  const std::string text = read_whole(request.file);
  const workbook::Tidied tidied = workbook::tidy(text, request.file);
  for (const std::string& line : tidied.changes) std::cout << line << "\n";
  if (tidied.changes.empty()) {
    if (!request.quiet) std::cout << "Nothing to change.\n";
    return ExitStatus::done;
  }
  if (!request.write) {
    if (!request.quiet) std::cout << "placer tidy --write makes these changes.\n";
    return ExitStatus::done;
  }
  const std::string backup = request.file + ".before-tidy";
  write_all({{backup, text}, {request.file, tidied.text}});
  if (!request.quiet) {
    std::cout << fmt::format("Changed {}; as it was: {}\n", request.file, backup);
  }
  return ExitStatus::done;
}

ExitStatus words(const Request& request) {
  const auto& lists = workbook::word_lists();
  if (!request.answer.empty()) {
    std::cout << report::answer_schema(request.answer);
    return ExitStatus::done;
  }
  if (request.json) {
    std::cout << workbook::studio_schema();
    return ExitStatus::done;
  }
  std::vector<std::string> places;
  for (const workbook::WordList& list : lists) {
    if (list.place == request.about) {
      list_words(list);
      if (request.about.empty()) break;
      return ExitStatus::done;
    }
    places.push_back(list.place);
  }
  if (request.about.empty()) {
    std::cout << "\nMore:";
    for (const workbook::WordList& list : lists) {
      if (!list.place.empty()) std::cout << " placer words " << list.place << " ·";
    }
    std::cout << "\n";
    return ExitStatus::done;
  }
  const auto near = nearest_word(request.about, places);
  std::cerr << fmt::format("placer: no place in the file is called \"{}\"{}.\n", request.about,
                           near ? fmt::format("; did you mean \"{}\"?", *near) : "");
  return ExitStatus::could_not_run;
}

ExitStatus why(const Request& request) {
  if (request.about.empty()) {
    std::cerr << "placer: say what to explain: placer why \"Tall jug\"\n";
    return ExitStatus::could_not_run;
  }
  if (const auto explanation = workbook::explain(request.about)) {
    std::cout << *explanation << "\n";
    return ExitStatus::done;
  }
  const StudioFile studio = open_sound_studio(request);
  const Batch& batch = studio.result.studio->batch;
  const std::optional<int> piece = piece_called(batch, request.about);
  if (!piece) {
    std::cerr << fmt::format("placer: neither a piece nor a message is called \"{}\".\n",
                             request.about);
    return ExitStatus::could_not_run;
  }
  const job::Outcome outcome = plan(request, studio);
  for (const std::string& line : loading::why(batch, outcome.plan, *piece)) {
    std::cout << report::as_read(subject_of(studio, outcome), line) << "\n";
  }
  return ExitStatus::done;
}

}  // namespace placer::cli
