// Writes every text report of every sample studio into a folder, for the readers from outside:
// report_samples FOLDER
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "placer/report/report.h"
#include "report/odd_samples.h"

namespace {

using namespace placer;

void write(const std::filesystem::path& path, const std::string& bytes) {
  std::ofstream out{path, std::ios::binary};
  out << bytes;
  if (!out.flush()) throw std::runtime_error{"cannot write " + path.string()};
}

firing::ConeTable cone_table() {
  firing::ConeTable table;
  table.source = "invented figures for the test";
  table.cones = {{"6",
                  firing::ConeKind::self_supporting,
                  {{{15}, {1185}, true}, {{60}, {1222}, false}, {{150}, {1243}, false}}},
                 {"06", firing::ConeKind::self_supporting, {{{60}, {998}, false}}},
                 {"6", firing::ConeKind::large, {{{60}, {1225}, false}}}};
  table.superseded = {{"6", {1222}}};
  table.seger = {{"6", Temperature{1200}, std::nullopt, Temperature{1210}}};
  return table;
}

void write_cones(const std::filesystem::path& folder) {
  const firing::ConeTable table = cone_table();
  write(folder / "six.cone.json", report::cone_json(table, table.cones[0], {60}));
  write(folder / "o-six.cone.json", report::cone_json(table, table.cones[1], {100}));
  const auto kind = firing::ConeKind::self_supporting;
  write(folder / "at.cone.json", report::cones_at_json(table, kind, {1225}, {60}));
  write(folder / "cold.cone.json", report::cones_at_json(table, kind, {500}, {60}));
}

void write_findings(const std::filesystem::path& folder) {
  const std::vector<Finding> findings{
      {Severity::mistake, "word", "no such word \"hieght\"", {"studio.yaml", 8, 38, 44}, "height"},
      {Severity::look, "snug", "10 mm to the wall", {"", 0, 0, 0}, std::nullopt}};
  write(folder / "two.check.json", report::findings_json(findings));
  write(folder / "none.check.json", report::findings_json({}));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "report_samples FOLDER\n";
    return 2;
  }
  const std::filesystem::path folder = argv[1];
  std::filesystem::create_directories(folder);
  for (const support::SheetSample& sample : support::text_samples()) {
    const report::Subject subject = sample.subject();
    write(folder / (sample.name + ".html"), report::sheets_html(subject));
    write(folder / (sample.name + ".load.json"), report::plan_json(subject));
    write(folder / (sample.name + ".firing.json"), report::firings_json(subject));
    write(folder / (sample.name + "-alone.firing.json"), report::firing_json(sample.forecasts[0]));
    write(folder / (sample.name + ".csv"), report::plan_csv(subject));
    write(folder / (sample.name + ".ics"), report::diary_ics(subject));
    write(folder / (sample.name + ".load.txt"), report::plan_text(subject));
    write(folder / (sample.name + ".firing.txt"), report::firings_text(subject));
  }
  write_cones(folder);
  write_findings(folder);
  for (const std::string& name : report::answer_schemas()) {
    write(folder / (name + ".schema.json"), report::answer_schema(name));
  }
  return 0;
}
