// pack_table [--effort quick|normal|thorough]... [--every N] [--no-peer] [--instances FOLDER]
//
// All instances (with a folder of others: those alone), the record tables and thousands of pieces:
// this project's counts beside rows, hexagonal rows of the circle round a piece, a general-purpose
// packer where one is installed, and the recorded baselines.
#include <sys/resource.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <exception>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "instance.h"
#include "peer.h"

using namespace placer;
using packing::Effort;

namespace {

struct Wanted {
  std::vector<Effort> efforts;
  int every = 25;  ///< of the record tables' rows
  bool peer = true;
  std::string folder;  ///< of instances other than the known ones
};

/// Thorough searches of the record tables are long, and never find fewer than normal ones.
constexpr int kThoroughEvery = 10;

const std::string kData = std::string{PLACER_TEST_DATA} + "/packing/";

std::string word(Effort effort) {
  return effort == Effort::quick ? "quick" : effort == Effort::normal ? "normal" : "thorough";
}

/// Lines of a table without its comments, split at the commas.
std::vector<std::vector<std::string>> lines_of(const std::string& file) {
  std::vector<std::vector<std::string>> lines;
  std::ifstream in{kData + file};
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '#') continue;
    std::vector<std::string> cells;
    std::istringstream words{line};
    for (std::string cell; std::getline(words, cell, ',');) cells.push_back(cell);
    lines.push_back(cells);
  }
  return lines;
}

double asked_for(const bench::Instance& instance, const bench::Answer& answer) {
  if (instance.objective == "count") return answer.placed;
  return instance.objective == "area" ? answer.area_percent
                                      : static_cast<double>(answer.bins.size());
}

/// Straight rows of the piece itself, and of the circle round it.
std::string rows_of(const bench::Instance& instance, bool round) {
  if (instance.objective != "count") return "";
  packing::Problem problem = instance.problem;
  if (round) {
    const double r = reach(problem.items[0].shape);
    problem.items[0].shape = Footprint{{Disc{{0, 0}, r}}, {}};
  }
  return std::to_string(packing::in_rows(problem).places.size());
}

void print_instances(const Wanted& wanted) {
  std::map<std::string, std::vector<std::string>> baselines;
  for (const auto& line : lines_of("baselines.csv")) baselines[line[0]] = line;
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator{
           wanted.folder.empty() ? kData + "instances" : wanted.folder}) {
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  if (!wanted.peer) std::printf("(the peer was not asked)\n");
  if (wanted.peer && !bench::has_peer()) {
    std::printf(
        "(no general-purpose packer to compare with is installed: libnest2d-dev, "
        "libpolyclipping-dev, libnlopt-cxx-dev)\n");
  }
  std::printf(
      "rows, circle, peer (libnest2d in its default setting) and the efforts: run now. "
      "general, lab: recorded earlier.\n");
  std::printf("%-34s %6s %6s %6s %8s %7s %6s", "instance", "rows", "circle", "peer", "general",
              "lab", "limit");
  for (const Effort effort : wanted.efforts)
    std::printf(" | %9s %6s %7s", word(effort).c_str(), "target", "s");
  std::printf("\n");
  for (const auto& file : files) {
    const bench::Instance instance = bench::read_instance(file.string());
    std::vector<std::string> base;
    if (wanted.folder.empty()) base = baselines[instance.name.substr(0, 3)];
    base.resize(9);
    const auto peer = wanted.peer ? bench::peer_answer(instance) : std::nullopt;
    const std::string rows = rows_of(instance, false);
    std::printf("%-34s %6s %6s %6s %8s %7s %6s", instance.name.c_str(),
                rows.empty() ? base[1].c_str() : rows.c_str(), rows_of(instance, true).c_str(),
                peer ? std::to_string(*peer).substr(0, 5).c_str() : "-", base[3].c_str(),
                base[4].c_str(), base[5].c_str());
    for (const Effort effort : wanted.efforts) {
      packing::Options options;
      options.effort = effort;
      const bench::Answer answer = bench::solve(instance, options);
      const std::size_t column = effort == Effort::quick ? 6 : effort == Effort::normal ? 7 : 8;
      std::printf(" | %9.*f %6s %7.2f", instance.objective == "area" ? 2 : 0,
                  asked_for(instance, answer), base[column].c_str(), answer.seconds);
      std::fflush(stdout);
    }
    std::printf("\n");
  }
}

/// Rows of a record table of shelves: shelf, piece, gap, edge gap, count.
void print_records(const std::string& file, bool round, Effort effort, int every) {
  int asked = 0;
  int equal = 0;
  int above = 0;
  int behind = 0;
  const std::clock_t start = std::clock();
  const auto lines = lines_of(file);
  for (std::size_t i = 1; i < lines.size(); i += static_cast<std::size_t>(every)) {
    std::vector<double> v;
    for (std::size_t k = 0; k < 5; ++k) v.push_back(std::stod(lines[i][k]));
    if (v[4] > 60) continue;
    packing::Problem problem;
    if (round) problem.region.round = Disc{{0, 0}, v[0] / 2};
    if (!round) problem.region.outline = rectangle(v[0], v[0]);
    packing::Item item;
    item.shape.discs.push_back({{0, 0}, v[1] / 2});
    item.count = 1000;
    problem.items.push_back(item);
    problem.gap = v[2];
    problem.edge_gap = v[3];
    packing::Options options;
    options.effort = effort;
    const auto got = static_cast<double>(packing::most_pieces(problem, options).places.size());
    ++asked;
    equal += got == v[4] ? 1 : 0;
    if (got > v[4]) {
      ++above;
      std::printf(
          "  ABOVE THE RECORD: %.0f where %.0f is known: shelf %g, piece %g, gap %g, edge %g\n",
          got, v[4], v[0], v[1], v[2], v[3]);
    }
    if (got < v[4]) behind += static_cast<int>(v[4] - got);
  }
  std::printf(
      "%-28s %-8s %d shelves of up to 60 pieces: %d equal to the record, %d above, "
      "%d pieces behind in all; %.2f s a shelf\n",
      file.c_str(), word(effort).c_str(), asked, equal, above, behind,
      static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC / std::max(asked, 1));
  std::fflush(stdout);
}

/// About 400 equal discs: circles of radius 1 in a circle of the record's ratio for N = 386.
void print_large(Effort effort) {
  for (const auto& line : lines_of("records/circles_in_circle.csv")) {
    if (line[0] != "386") continue;
    packing::Problem problem;
    problem.region.round = Disc{{0, 0}, std::stod(line[2]) * 20 * (1 + 1e-9)};
    packing::Item item;
    item.shape.discs.push_back({{0, 0}, 20});
    item.count = 1000;
    problem.items.push_back(item);
    packing::Options options;
    options.effort = effort;
    const std::clock_t start = std::clock();
    const auto got = packing::most_pieces(problem, options).places.size();
    std::printf("386 discs in a circle        %-8s %zu, %.2f s\n", word(effort).c_str(), got,
                static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    std::fflush(stdout);
  }
}

/// The household of P11 five and fifty times over, at the normal effort.
void print_thousands() {
  bench::Instance instance =
      bench::read_instance(kData + "instances/P11_round590_household200_posts3.json");
  double before = 0;
  for (const int times : {5, 10}) {
    int pieces = 0;
    for (packing::Item& item : instance.problem.items) pieces += item.count *= times;
    const bench::Answer answer = bench::solve(instance, {});
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    std::printf("%d mixed pieces, normal: %d set on %zu shelves (at least %d), %.1f s, %ld MB",
                pieces, answer.placed, answer.bins.size(), answer.upper_bound, answer.seconds,
                usage.ru_maxrss / 1024);
    if (before > 0) std::printf(", growth exponent %.2f", std::log10(answer.seconds / before));
    std::printf("\n");
    std::fflush(stdout);
    before = answer.seconds;
  }
}

Wanted wanted_by(int count, char** words) {
  Wanted wanted;
  for (int i = 1; i < count; ++i) {
    const std::string said = words[i];
    if (said == "--no-peer") wanted.peer = false;
    if (said == "--instances" && i + 1 < count) wanted.folder = words[++i];
    if (said == "--every" && i + 1 < count) wanted.every = std::max(1, std::stoi(words[++i]));
    if (said != "--effort" || i + 1 >= count) continue;
    const std::string effort = words[++i];
    wanted.efforts.push_back(effort == "quick"    ? Effort::quick
                             : effort == "normal" ? Effort::normal
                                                  : Effort::thorough);
  }
  if (wanted.efforts.empty()) {
    wanted.efforts = {Effort::quick, Effort::normal, Effort::thorough};
  }
  return wanted;
}

}  // namespace

int main(int count, char** words) {
  try {
    const Wanted wanted = wanted_by(count, words);
    print_instances(wanted);
    if (!wanted.folder.empty()) return 0;
    for (const Effort effort : wanted.efforts) {
      const int every = wanted.every * (effort == Effort::thorough ? kThoroughEvery : 1);
      print_records("records/mugs_on_round_shelf.csv", true, effort, every);
      print_records("records/mugs_on_square_shelf.csv", false, effort, every);
      print_large(effort);
    }
    print_thousands();
  } catch (const std::exception& e) {
    std::fprintf(stderr, "pack_table: %s\n", e.what());
    return 2;
  }
}
