/// @file request.h
/// What the command line asks for, and how the program ends.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace placer::cli {

/// 0 done; 1 done, but it needs you (pieces left out, something to look at with --strict);
/// 2 could not run (the file, the arguments or the disk); 3 our fault; 130 interrupted.
enum class ExitStatus { done = 0, needs_you = 1, could_not_run = 2, our_fault = 3, stopped = 130 };

/// One command line, understood. Fields of other commands keep their defaults.
struct Request {
  std::string command;
  std::string file = "studio.yaml";  ///< "-" is standard input

  bool json = false;
  bool quiet = false;
  bool verbose = false;
  bool strict = false;    ///< check: something to look at ends with 1
  bool how_read = false;  ///< check: show how each quantity was understood
  bool dry_run = false;
  bool write = false;           ///< tidy: write the changes
  std::string colour = "auto";  ///< auto, always or never

  // load, firing, print
  std::string effort = "normal";
  std::string air, gap;             ///< rules for this run only
  std::vector<std::string> first;   ///< pieces that must go
  std::vector<std::string> apart;   ///< glazes that may not share a shelf
  std::vector<std::string> broken;  ///< pieces, each named once for every one that broke
  std::string keep;                 ///< "1-2": levels already set
  std::optional<std::string> paper;
  std::filesystem::path out = "sheets";
  bool diary = false;  ///< firing: the calendar instead

  // cone
  std::string cone;
  std::string temperature, rate, kind = "self-supporting";

  // reached
  std::string log;
  std::string aim;  ///< the cone aimed at, when no studio file says it
  bool fahrenheit = false;
  std::string studio, firing;  ///< the plan to set beside it

  // probe (with temperature)
  std::string millivolts, carbon_monoxide;

  // shelf: a question without a file
  std::string piece_size, handle, shelf_size, piece_gap;

  std::string about;   ///< why, words: what to explain
  std::string answer;  ///< words: the schema of this answer instead
};

}  // namespace placer::cli
