#include "cli/arguments.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <stdexcept>

#include "cli/table.h"
#include "placer/base/words.h"

namespace placer::cli {
namespace {

constexpr const char* kShortHelp =
    "placer: plan a kiln load and its firing from one text file.\n"
    "\n"
    "  placer begin          write a small studio file to start from\n"
    "  placer check          say what is wrong in it, all at once\n"
    "  placer print          plan, and write the sheets to carry to the kiln\n"
    "\n"
    "More: load, firing (the plan and the schedule on the screen), cone, reached,\n"
    "shelf (questions without a file), why, words (explanations), tidy.\n"
    "placer COMMAND --help tells all about one of them.\n";

bool is_plain(const OptionRow& row) { return !row.names.starts_with('-'); }

void add_option(CLI::App& app, const OptionRow& row, Request& request) {
  CLI::Option* option = std::visit(
      [&](auto member) -> CLI::Option* {
        auto& target = request.*member;
        if constexpr (std::is_same_v<std::remove_cvref_t<decltype(target)>, bool>) {
          return app.add_flag(row.names, target, row.meaning);
        } else {
          return app.add_option(row.names, target, row.meaning);
        }
      },
      row.into);
  if (!row.choices.empty()) option->check(CLI::IsMember(row.choices));
  if (!row.takes.empty()) option->type_name(is_plain(row) ? "" : row.takes);
}

std::string help_of(const CommandRow& command) {
  std::string text = fmt::format("placer {}: {}\n\n", command.name, command.meaning);
  for (const std::string& example : command.examples) text += "  " + example + "\n";
  text += "\n";
  const auto line = [&](const OptionRow& row) {
    std::string left = row.names;
    if (!is_plain(row) && !row.takes.empty()) left += " " + row.takes;
    std::string meaning = row.meaning;
    if (!row.choices.empty()) meaning += fmt::format(": {}", fmt::join(row.choices, ", "));
    text += fmt::format("  {:<20} {}\n", left, meaning);
  };
  for (const OptionRow& row : command.options) line(row);
  for (const OptionRow& row : options_everywhere()) line(row);
  text += fmt::format("  {:<20} {}\n", "--help", "this text");
  text += "\nEnds with 0 when done, 1 when done but it needs you, 2 when it could not run.\n";
  return text;
}

std::string all_help() {
  std::string text = kShortHelp;
  text += "\n";
  for (const CommandRow& command : commands()) {
    text += fmt::format("  {:<9} {}\n", command.name, command.meaning);
  }
  return text + "\nplacer --version prints the version.\n";
}

/// "--paper" for "--papre": the nearest of all words that could have stood there.
std::string did_you_mean(int argc, const char* const* argv) {
  std::vector<std::string> known{"--help", "--version"};
  for (const CommandRow& command : commands()) {
    known.push_back(command.name);
    for (const OptionRow& row : command.options) {
      if (!is_plain(row)) known.push_back(row.names.substr(row.names.find("--")));
    }
  }
  for (int i = 1; i < argc; ++i) {
    const std::string word{argv[i]};
    if (i > 1 && !word.starts_with("--")) continue;
    if (std::ranges::find(known, word) != known.end()) continue;
    if (const auto near = nearest_word(word, known)) {
      return fmt::format("\nDid you mean \"{}\"?", *near);
    }
  }
  return {};
}

PrintAndLeave not_understood(const CLI::ParseError& error, int argc, const char* const* argv) {
  std::string text = fmt::format("placer: {}{}\nplacer --help shows the commands.\n", error.what(),
                                 did_you_mean(argc, argv));
  return {text, ExitStatus::could_not_run};
}

/// What follows from what was given, and what cannot be meant.
std::optional<PrintAndLeave> settle(Request& request) {
  // A firing is named within a studio file: without one it is the usual file.
  if (request.command == "reached" && !request.firing.empty() && request.studio.empty()) {
    request.studio = request.file;
  }
  const std::string out = request.out.string();
  if (request.command != "print") return std::nullopt;
  if (out.find_first_not_of(' ') == std::string::npos) {
    return PrintAndLeave{"placer: --out is empty: name a folder, as in  placer print -o tuesday\n",
                         ExitStatus::could_not_run};
  }
  if (out.starts_with('-')) {
    return PrintAndLeave{
        fmt::format("placer: --out takes a folder, not \"{0}\"; one that is called "
                    "so is written ./{0}\n",
                    out),
        ExitStatus::could_not_run};
  }
  return std::nullopt;
}

PrintAndLeave written(const std::string& what) {
  try {
    return {written_for(what), ExitStatus::done};
  } catch (const std::invalid_argument& error) {
    return {fmt::format("placer: {}\n", error.what()), ExitStatus::could_not_run};
  }
}

}  // namespace

std::variant<Request, PrintAndLeave> understand(int argc, const char* const* argv) {
  if (argc <= 1) return PrintAndLeave{kShortHelp, ExitStatus::done};
  Request request;
  CLI::App app{"placer"};
  app.set_help_flag("");
  bool help = false;
  bool version = false;
  std::string write_for;
  app.add_flag("-h,--help", help);
  app.add_flag("--version", version);
  app.add_option("--write-for", write_for);  // man page and completions, for the package
  for (const OptionRow& row : options_everywhere()) add_option(app, row, request);
  for (const CommandRow& command : commands()) {
    CLI::App* sub = app.add_subcommand(command.name, command.meaning);
    sub->set_help_flag("");
    sub->add_flag("-h,--help", help);
    for (const OptionRow& row : command.options) add_option(*sub, row, request);
    for (const OptionRow& row : options_everywhere()) add_option(*sub, row, request);
    sub->final_callback([&request, name = command.name] { request.command = name; });
  }
  app.require_subcommand(0, 1);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return not_understood(error, argc, argv);
  }
  if (version) return PrintAndLeave{"placer " PLACER_VERSION "\n", ExitStatus::done};
  if (!write_for.empty()) return written(write_for);
  for (const CommandRow& command : commands()) {
    if (help && request.command == command.name) return PrintAndLeave{help_of(command)};
  }
  if (help) return PrintAndLeave{all_help(), ExitStatus::done};
  if (request.command.empty()) return PrintAndLeave{kShortHelp, ExitStatus::could_not_run};
  if (auto refused = settle(request)) return *std::move(refused);
  return request;
}

}  // namespace placer::cli
