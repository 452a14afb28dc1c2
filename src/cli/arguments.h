/// @file arguments.h
/// Arguments become a Request. One table of commands and options makes the parsing, the help, the
/// man page and the shell completions.
#pragma once

#include <memory>
#include <string>
#include <variant>

#include "cli/request.h"

namespace placer::cli {

/// What to do with a command line: carry out a request, or print and leave.
struct PrintAndLeave {
  std::string text;  ///< to stdout when status is done, else to stderr
  ExitStatus status = ExitStatus::done;
};
std::variant<Request, PrintAndLeave> understand(int argc, const char* const* argv);

/// "man", "bash", "zsh" or "fish": written from the same table as the help; "readme": the chapter
/// of the README on the words of the studio file.
/// @throws std::invalid_argument for another word.
std::string written_for(const std::string& what);

}  // namespace placer::cli
