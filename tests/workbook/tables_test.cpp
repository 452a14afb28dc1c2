#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cstdlib>

#include "placer/workbook/explain.h"
#include "placer/workbook/pieces_csv.h"
#include "support.h"

using namespace placer;
using namespace placer::workbook;
using namespace placer::workbook::testing;

namespace {

/// A table of pieces with unlike sizes and the heading "name;count;across;height".
std::string table_of(int pieces) {
  std::string text = "name;count;across;height\n";
  for (int i = 0; i < pieces; ++i) {
    text += fmt::format("Cup {};{};{},5;{}\n", i, 1 + i % 9, 60 + i % 40, 70 + i % 50);
  }
  return text;
}

}  // namespace

TEST_CASE("every doubtful table of pieces is answered as the file beside it says") {
  const auto files = files_of(PLACER_TEST_DATA "/broken_tables", ".csv");
  REQUIRE(files.size() >= 25);
  for (const auto& path : files) {
    INFO(path.filename());
    const std::string text = whole_file(path);
    const CsvPieces read = read_pieces_csv(text, path.filename().string());
    std::string shown;
    for (const Finding& finding : read.findings) {
      shown += show(finding, text, false);
      CHECK(explain(finding.code).has_value());
    }
    CHECK_FALSE(shown.empty());
    CHECK(read.yaml.empty() == has_mistakes(read.findings));
    auto expected = path;
    expected.replace_extension(".expected");
    if (std::getenv("UPDATE_GOLDEN") != nullptr) std::ofstream{expected, std::ios::binary} << shown;
    CHECK(shown == whole_file(expected));
  }
}

TEST_CASE("a table may have 100,000 pieces and no more") {
  const CsvPieces most = read_pieces_csv(table_of(100'000), "p.csv");
  CHECK(most.findings.empty());
  CHECK(most.rows == 100'000);
  CHECK(most.first_rows.front() == "{name: \"Cup 0\", count: 1, across: 60.5, height: 70}");
  const CsvPieces more = read_pieces_csv(table_of(100'001), "p.csv");
  REQUIRE(more.findings.size() == 1);
  CHECK(more.findings.front().where.line == 100'002);
  CHECK(more.yaml.empty());
}

TEST_CASE("what spreadsheets leave behind is no mistake") {
  const CsvPieces plain = read_pieces_csv("name,across,height\nMug,84,100\n", "p.csv");
  REQUIRE(plain.findings.empty());
  const std::string text = GENERATE("name,across,height,,\nMug,84,100,,\n,,,,\n",  // empty columns
                                    "name,across,height\nMug,84,100,,,\n,,\n",     // empty ends
                                    "sep=;\r\nname;across;height\r\nMug;84;100\r\n",
                                    "\n\nname,across,height\n\nMug,84,100\n\n\n");
  INFO(text);
  const CsvPieces read = read_pieces_csv(text, "p.csv");
  CHECK(read.findings.empty());
  CHECK(read.yaml == plain.yaml);
}
