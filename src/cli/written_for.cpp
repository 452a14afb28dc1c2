/// The man page and the shell completions, from the table of commands.
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "cli/arguments.h"
#include "cli/table.h"
#include "placer/workbook/studio.h"

namespace placer::cli {
namespace {

bool is_plain(const OptionRow& row) { return !row.names.starts_with('-'); }

std::string long_name(const OptionRow& row) { return row.names.substr(row.names.find("--")); }

std::vector<std::string> dashed(const CommandRow& command) {
  std::vector<std::string> names;
  for (const auto& rows : {command.options, options_everywhere()}) {
    for (const OptionRow& row : rows) {
      if (!is_plain(row)) names.push_back(long_name(row));
    }
  }
  names.emplace_back("--help");
  return names;
}

std::string roff(std::string text) {
  std::string out;
  for (const char c : text) {
    if (c == '-')
      out += "\\-";
    else if (c == '\\')
      out += "\\e";
    else
      out += c;
  }
  return out.starts_with('.') || out.starts_with('\'') ? "\\&" + out : out;
}

std::string man_option(const OptionRow& row) {
  std::string meaning = row.meaning;
  if (!row.choices.empty()) meaning += fmt::format(": {}", fmt::join(row.choices, ", "));
  std::string name = roff(row.names);
  std::replace(name.begin(), name.end(), ',', '|');
  const std::string takes = is_plain(row) || row.takes.empty() ? "" : " " + row.takes;
  return fmt::format(".TP\n.B {}{}\n{}\n", name, roff(takes), roff(meaning));
}

std::string man_command(const CommandRow& command) {
  std::string text = fmt::format(".SS placer {}\n{}.\n", command.name, roff(command.meaning));
  for (const OptionRow& row : command.options) text += man_option(row);
  text += ".PP\n.EX\n";
  for (const std::string& example : command.examples) text += roff(example) + "\n";
  return text + ".EE\n";
}

std::string man_page() {
  std::string text = fmt::format(
      ".TH PLACER 1 \"\" \"placer {}\" \"User Commands\"\n.SH NAME\n"
      "placer \\- plan a kiln load and its firing from one text file\n"
      ".SH SYNOPSIS\n.B placer\n.I command\n.RI [ file ]\n.RI [ options ]\n"
      ".SH DESCRIPTION\n"
      "Reads a studio file (pieces, kiln, shelves, posts, firing) and plans which piece goes in\n"
      "which firing, on which shelf and where, builds the schedule to the cone, and writes the\n"
      "sheets to carry to the kiln. It advises; the kiln's own controls decide.\n"
      ".SH COMMANDS\n",
      PLACER_VERSION);
  for (const CommandRow& command : commands()) text += man_command(command);
  text += ".SH OPTIONS OF EVERY COMMAND\n";
  for (const OptionRow& row : options_everywhere()) text += man_option(row);
  text += ".TP\n.B \\-\\-help\nthe command's own page\n";
  text +=
      ".SH EXIT STATUS\n.TP\n.B 0\ndone\n.TP\n.B 1\ndone, but it needs you: pieces are left out, "
      "or \\-\\-strict found something\nto look at\n.TP\n.B 2\ncould not run: a mistake in the "
      "file or the arguments, or the disk. Nothing was changed\n.TP\n.B 3\na fault of placer's "
      "own\n.TP\n.B 130\ninterrupted\n"
      ".SH ENVIRONMENT\n.TP\n.B NO_COLOR\nno colour in messages\n.TP\n.B SOURCE_DATE_EPOCH\n"
      "the date to print, as seconds since 1970, in place of the clock's\n.TP\n.B TZ\n"
      "the time zone of clock times when the studio file names none\n"
      ".SH FILES\n.TP\n.I studio.yaml\nthe studio file; placer begin writes one to start from\n";
  return text;
}

std::string bash() {
  std::string names;
  std::string cases;
  std::string choices;
  for (const CommandRow& command : commands()) {
    names += (names.empty() ? "" : " ") + command.name;
    cases +=
        fmt::format("    {}) words=\"{}\" ;;\n", command.name, fmt::join(dashed(command), " "));
    for (const OptionRow& row : command.options) {
      if (row.choices.empty()) continue;
      choices += fmt::format("    {}:{}) words=\"{}\" ;;\n", command.name, long_name(row),
                             fmt::join(row.choices, " "));
    }
  }
  return fmt::format(
      "# bash completion for placer\n"
      "_placer() {{\n"
      "  local word=\"${{COMP_WORDS[COMP_CWORD]}}\" before=\"${{COMP_WORDS[COMP_CWORD-1]}}\" "
      "words=\"\"\n"
      "  COMPREPLY=()\n"
      "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      "    COMPREPLY=($(compgen -W \"{} --help --version\" -- \"$word\"))\n    return\n  fi\n"
      "  case \"${{COMP_WORDS[1]}}:$before\" in\n{}  esac\n"
      "  if [ -n \"$words\" ]; then\n    COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n"
      "    return\n  fi\n"
      "  case \"${{COMP_WORDS[1]}}\" in\n{}  esac\n"
      "  case \"$word\" in\n    -*) COMPREPLY=($(compgen -W \"$words\" -- \"$word\")) ;;\n"
      "    *) COMPREPLY=($(compgen -f -- \"$word\")) ;;\n  esac\n}}\n"
      "complete -o filenames -F _placer placer\n",
      names, choices, cases);
}

std::string quoted(std::string text) {
  std::string out;
  for (const char c : text) out += c == '\'' ? std::string{"'\\''"} : std::string(1, c);
  return "'" + out + "'";
}

std::string zsh_option(const OptionRow& row) {
  std::string meaning = row.meaning;
  std::erase_if(meaning, [](char c) { return c == '[' || c == ']' || c == ':'; });
  std::string spec = long_name(row) + "[" + meaning + "]";
  if (!row.choices.empty())
    spec += fmt::format(":word:({})", fmt::join(row.choices, " "));
  else if (!row.takes.empty())
    spec += row.takes == "DIR" ? ":folder:_files -/" : ":value:";
  return quoted(spec);
}

std::string zsh() {
  std::string names;
  std::string cases;
  for (const CommandRow& command : commands()) {
    names += "    " + quoted(command.name + ":" + command.meaning) + "\n";
    cases += fmt::format("    {}) _arguments", command.name);
    for (const auto& rows : {command.options, options_everywhere()}) {
      for (const OptionRow& row : rows) {
        if (!is_plain(row)) cases += " " + zsh_option(row);
      }
    }
    cases += " '*:file:_files' ;;\n";
  }
  return fmt::format(
      "#compdef placer\n_placer() {{\n  local -a names\n  names=(\n{}  )\n"
      "  if (( CURRENT == 2 )); then\n    _describe command names\n    return\n  fi\n"
      "  local command=$words[2]\n  shift words\n  (( CURRENT-- ))\n  case $command in\n{}  "
      "esac\n}}\n_placer \"$@\"\n",
      names, cases);
}

std::string fish() {
  std::string text = "# fish completion for placer\n";
  for (const CommandRow& command : commands()) {
    text += fmt::format("complete -c placer -n __fish_use_subcommand -f -a {} -d {}\n",
                        command.name, quoted(command.meaning));
    for (const auto& rows : {command.options, options_everywhere()}) {
      for (const OptionRow& row : rows) {
        if (is_plain(row)) continue;
        text += fmt::format("complete -c placer -n '__fish_seen_subcommand_from {}' -l {} -d {}",
                            command.name, long_name(row).substr(2), quoted(row.meaning));
        if (!row.takes.empty()) text += " -r";
        if (!row.choices.empty()) text += fmt::format(" -f -a '{}'", fmt::join(row.choices, " "));
        text += "\n";
      }
    }
  }
  return text;
}

std::string escaped(std::string text) {
  std::string out;
  for (const char c : text) out += c == '|' ? std::string{"\\|"} : std::string(1, c);
  return out;
}

/// The README's chapter on the studio file: a table a place.
std::string words_as_markdown() {
  std::string text;
  for (const workbook::WordList& list : workbook::word_lists()) {
    text += fmt::format("### {}\n\n{}\n\n| word | takes | meaning | example |\n|---|---|---|---|\n",
                        list.place.empty() ? "The file" : list.place, list.about);
    for (const workbook::Word& word : list.words) {
      text += fmt::format("| `{}`{} | {} | {} | {} |\n", word.key, word.needed ? " (needed)" : "",
                          escaped(word.takes), escaped(word.meaning),
                          word.example.empty() ? "" : "`" + escaped(word.example) + "`");
    }
    text += "\n";
  }
  return text;
}

}  // namespace

std::string written_for(const std::string& what) {
  if (what == "man") return man_page();
  if (what == "bash") return bash();
  if (what == "zsh") return zsh();
  if (what == "fish") return fish();
  if (what == "readme") return words_as_markdown();
  throw std::invalid_argument{"--write-for takes man, bash, zsh, fish or readme, not \"" + what +
                              "\""};
}

}  // namespace placer::cli
