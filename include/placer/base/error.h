/// @file error.h
/// Places in text files and what can be wrong there.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace placer {

/// A place in a text file, as an editor shows it: line and column count from 1 (in characters,
/// not bytes), 0 = unknown. The word there ends just before `end_column`.
struct TextPos {
  std::string file;
  int line = 0;
  int column = 0;
  int end_column = 0;
};

/// "ware.yaml:12:9", "ware.yaml:12" or "ware.yaml", whichever parts are known.
std::string to_string(const TextPos& pos);

enum class Severity {
  mistake,  ///< must be mended before anything can be planned
  look,     ///< planned all the same; a person should look at it
};

/// One thing to tell the potter about a file or a plan. `message` is one sentence in plain words:
/// the value given, and what would be right.
struct Finding {
  Severity severity = Severity::mistake;
  std::string code;  ///< one lower-case everyday word or two joined by '-'; `placer why CODE`
  std::string message;
  TextPos where;                          ///< line 0 when it is about the plan as a whole
  std::optional<std::string> suggestion;  ///< the near word or the line to write instead
};

/// True when any finding must be mended.
bool has_mistakes(const std::vector<Finding>& findings);

/// A file that cannot be used at all: every finding of it, in file order, at least one mistake.
class InputError : public std::runtime_error {
 public:
  explicit InputError(std::vector<Finding> findings);
  InputError(const TextPos& where, std::string_view message);
  const std::vector<Finding>& findings() const { return findings_; }

 private:
  std::vector<Finding> findings_;
};

}  // namespace placer
