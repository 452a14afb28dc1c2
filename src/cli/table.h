/// @file table.h
/// The one table of commands and options. Help, man page, completions and the parser read it.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "cli/request.h"

namespace placer::cli {

struct OptionRow {
  std::string names;    ///< "-o,--out"
  std::string takes;    ///< "DIR"; "" for a plain switch
  std::string meaning;  ///< one line
  std::variant<bool Request::*, std::string Request::*, std::vector<std::string> Request::*,
               std::filesystem::path Request::*, std::optional<std::string> Request::*>
      into;
  std::vector<std::string> choices;  ///< the only words allowed; empty = any
};

struct CommandRow {
  std::string name;
  std::string meaning;                ///< one line
  std::vector<std::string> examples;  ///< whole command lines
  std::vector<OptionRow> options;     ///< plain arguments have names without dashes
};

const std::vector<CommandRow>& commands();
const std::vector<OptionRow>& options_everywhere();  ///< --quiet, --verbose, --color

}  // namespace placer::cli
