/// @file support.h
/// Reading studio texts in tests.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "placer/workbook/studio.h"

namespace placer::workbook::testing {

/// Wednesday 25 November 2026, 08:00 UTC.
constexpr long long kNow = 1795593600;

inline const Library& library() {
  static const Library shipped = read_library(PLACER_ROOT "/schedules");
  return shipped;
}

inline std::string whole_file(const std::filesystem::path& path) {
  std::ifstream stream{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{stream}, {}};
}

inline StudioResult read(const std::string& text, const std::string& file = "studio.yaml") {
  return read_studio(text, file, library(), kNow);
}

/// All findings as a person sees them.
inline std::string shown(const StudioResult& result, const std::string& text) {
  std::string all;
  for (const Finding& finding : result.findings) all += show(finding, text, false);
  return all;
}

/// The codes of all findings, with blanks between.
inline std::string codes(const StudioResult& result) {
  std::string all;
  for (const Finding& finding : result.findings) all += (all.empty() ? "" : " ") + finding.code;
  return all;
}

inline std::vector<std::filesystem::path> files_of(const std::string& folder,
                                                   const std::string& ending) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator{folder}) {
    if (entry.path().extension() == ending) files.push_back(entry.path());
  }
  std::ranges::sort(files);
  return files;
}

/// A studio of one mug, with the text of the piece, the kiln or the firing put in.
inline std::string studio_with(const std::string& piece, const std::string& kiln = "",
                               const std::string& more = "") {
  return "studio: 1\nzone: UTC\nkiln: {inside: round 580, height: 680" +
         (kiln.empty() ? "" : ", " + kiln) +
         "}\nshelves: [{size: half round 520, thick: 18, have: 6}]\n"
         "posts: [{height: 150, have: 12}]\n" +
         more + "pieces: [{name: Mug, " + piece + "}]\nfiring: {kind: glaze, cone: 6}\n";
}

}  // namespace placer::workbook::testing
