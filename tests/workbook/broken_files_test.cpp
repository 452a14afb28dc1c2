#include <catch2/catch.hpp>
#include <cstdlib>

#include "placer/workbook/explain.h"
#include "support.h"

using namespace placer;
using namespace placer::workbook;
using namespace placer::workbook::testing;

namespace {

const std::string kFolder = PLACER_TEST_DATA "/broken";

void compare_or_renew(std::filesystem::path path, const std::string& got) {
  path.replace_extension(".expected");
  if (std::getenv("UPDATE_GOLDEN") != nullptr) {
    std::ofstream{path, std::ios::binary} << got;
  }
  CHECK(got == whole_file(path));
}

}  // namespace

TEST_CASE("every broken studio file is answered as the file beside it says") {
  const auto files = files_of(kFolder, ".yaml");
  REQUIRE(files.size() >= 100);
  for (const auto& path : files) {
    INFO(path.filename());
    const std::string text = whole_file(path);
    const StudioResult result = read(text, path.filename().string());
    CHECK_FALSE(result.findings.empty());
    CHECK(result.studio.has_value() == !has_mistakes(result.findings));
    compare_or_renew(path, shown(result, text));
  }
}

TEST_CASE("after each broken file the next correct one works") {
  const std::string correct = first_studio();
  for (const auto& path : files_of(kFolder, ".yaml")) {
    INFO(path.filename());
    read(whole_file(path), path.filename().string());
    CHECK(read(correct).findings.empty());
  }
}

TEST_CASE("every code that a broken file brings out has a longer explanation") {
  for (const auto& path : files_of(kFolder, ".yaml")) {
    for (const Finding& finding : read(whole_file(path)).findings) {
      INFO(path.filename() << ": " << finding.code);
      CHECK(explain(finding.code).has_value());
    }
  }
}

TEST_CASE("messages avoid the words of programmers") {
  for (const auto& path : files_of(kFolder, ".yaml")) {
    for (const Finding& finding : read(whole_file(path)).findings) {
      INFO(finding.message);
      for (const char* word : {"invalid", "parse", "token", "schema", "syntax", "YAML", "null"}) {
        CHECK(finding.message.find(word) == std::string::npos);
      }
    }
  }
}

TEST_CASE("findings come in file order and point at a word of the line") {
  for (const auto& path : files_of(kFolder, ".yaml")) {
    INFO(path.filename());
    const StudioResult result = read(whole_file(path));
    int line = 0;
    for (const Finding& finding : result.findings) {
      CHECK(finding.where.line >= line);
      CHECK(finding.where.column >= 1);
      CHECK(finding.where.end_column >= finding.where.column);
      line = finding.where.line;
    }
  }
}
