/// @file studio.h
/// The one door for YAML: a studio file becomes checked values, or every mistake in it.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "placer/base/error.h"
#include "placer/firing/forecast.h"
#include "placer/firing/schedule.h"
#include "placer/model/batch.h"

namespace placer::workbook {

/// How one quantity was understood, for `check -v`: `height: 9 1/2` -> "241.3 mm".
struct Reading {
  TextPos where;
  std::string key, given, understood;
};

/// A studio file, read and checked.
struct Studio {
  std::string file;   ///< as named by the user
  std::string title;  ///< the studio's own name, "" if it gives none
  Batch batch;
  firing::KilnBuild kiln_build;
  std::vector<firing::Wish> firings;        ///< one for each of batch.loads, same order
  std::string zone;                         ///< IANA time zone; "" = the machine's
  bool inches = false, fahrenheit = false;  ///< how the potter likes to read
  std::vector<Reading> readings;
};

/// Cone tables and profiles that a studio file may name.
struct Library {
  firing::ConeTable cones;
  std::vector<firing::Profile> profiles;  ///< by name
};

/// @throws InputError with every finding when a file of the folder is not as it must be;
///   std::system_error when it cannot be read.
Library read_library(const std::filesystem::path& schedules_folder);

struct StudioResult {
  std::optional<Studio> studio;   ///< none when there is a mistake
  std::vector<Finding> findings;  ///< mistakes and looks, in file order
  bool inches = false;            ///< how the potter likes to read, mistakes or not
};

/// @param text the whole file, UTF-8 (a BOM is allowed).
/// @param now for "tomorrow 6:30": seconds since 1970-01-01 UTC.
StudioResult read_studio(std::string_view text, const std::string& file, const Library& library,
                         long long now);

/// The finding as a person reads it on a terminal: message, line, caret, suggestion.
/// @param text the file it is about (for the excerpt); may be empty.
std::string show(const Finding& finding, std::string_view text, bool colour);

/// A small studio that works as it is, every line explained: what `placer begin` writes.
std::string first_studio();

/// Every word a place of the file may hold, for `placer words`: "", "kiln", "piece", "shelf", ...
struct Word {
  std::string key;
  std::string takes;  ///< "a length", "round, half round, ...", ...
  std::string meaning;
  std::string example;  ///< one line of YAML
  bool needed = false;
};
struct WordList {
  std::string place;  ///< "piece"
  std::string about;
  std::vector<Word> words;
};
const std::vector<WordList>& word_lists();

/// JSON Schema (draft-07) of the studio file, from the same table as word_lists().
std::string studio_schema();

}  // namespace placer::workbook
