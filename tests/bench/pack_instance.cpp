// pack_instance FILE.json [--effort quick|normal|thorough] [--threads N] [--seed N]
//               [--json OUT] [--svg OUT]: packs one instance and writes the places.
#include <cstdio>
#include <exception>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>

#include "instance.h"

using namespace placer;

namespace {

void write_file(const std::string& path, const std::string& text) {
  std::ofstream out{path, std::ios::binary};
  if (!(out << text).flush()) throw std::runtime_error{"cannot write " + path};
}

int run(int count, char** words) {
  std::string file;
  std::map<std::string, std::string> given;
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    if (word.rfind("--", 0) != 0) {
      file = word;
    } else if (i + 1 < count) {
      given[word] = words[++i];
    }
  }
  if (file.empty()) throw std::runtime_error{"which instance? pack_instance FILE.json"};
  packing::Options options;
  const std::map<std::string, packing::Effort> efforts{{"quick", packing::Effort::quick},
                                                       {"normal", packing::Effort::normal},
                                                       {"glance", packing::Effort::glance},
                                                       {"thorough", packing::Effort::thorough}};
  if (given.contains("--effort")) options.effort = efforts.at(given["--effort"]);
  if (given.contains("--threads")) options.threads = std::stoi(given["--threads"]);
  if (given.contains("--seed")) options.seed = std::stoull(given["--seed"]);
  const bench::Instance instance = bench::read_instance(file);
  const bench::Answer answer = bench::solve(instance, options);
  double least = 1e300;
  for (const packing::Packing& bin : answer.bins) least = std::min(least, bin.least_gap);
  std::printf(
      "%s: %d pieces, %.2f %%, %zu regions, at most %d, clearance to spare %.3g mm, %.2f s%s\n",
      instance.name.c_str(), answer.placed, answer.area_percent, answer.bins.size(),
      answer.upper_bound, least, answer.seconds,
      answer.bins.size() == 1 ? (" " + answer.bins[0].pattern).c_str() : "");
  if (given.contains("--json")) write_file(given["--json"], bench::answer_json(instance, answer));
  if (given.contains("--svg")) write_file(given["--svg"], bench::picture_svg(instance, answer));
  return 0;
}

}  // namespace

int main(int count, char** words) {
  try {
    return run(count, words);
  } catch (const std::exception& e) {
    std::fprintf(stderr, "pack_instance: %s\n", e.what());
    return 2;
  }
}
