#include "workbook/library.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <system_error>

#include "placer/base/words.h"
#include "workbook/broken_text.h"

namespace placer::workbook {
namespace {

std::string whole_file(const std::filesystem::path& path) {
  std::ifstream stream{path, std::ios::binary};
  if (!stream) throw std::system_error{errno, std::generic_category(), path.string()};
  std::string text{std::istreambuf_iterator<char>{stream}, std::istreambuf_iterator<char>{}};
  if (stream.bad()) throw std::system_error{errno, std::generic_category(), path.string()};
  return text;
}

std::vector<std::filesystem::path> yaml_files(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator{folder}) {
    if (entry.path().extension() == ".yaml") files.push_back(entry.path());
  }
  std::ranges::sort(files);
  return files;
}

}  // namespace

bool words_are_known(const Node& node, std::string_view what, const std::vector<std::string>& known,
                     const std::vector<std::string>& needed, Desk& desk) {
  if (node.kind != Node::Kind::map) {
    desk.mistake("kind", node.where,
                 fmt::format("{} is described by words here, each with a \":\"", what));
    return false;
  }
  for (const auto& [key, value] : node.entries) {
    if (std::ranges::find(known, key.text) != known.end()) continue;
    desk.mistake("word", key.where,
                 fmt::format("no such word \"{}\" for {}: the words here are {}",
                             shortened(key.text), what, listed(known)),
                 nearest_word(key.text, known));
  }
  for (const std::string& word : needed) {
    const Node* value = node.find(word);
    if (value != nullptr && value->kind != Node::Kind::empty) continue;
    desk.mistake("missing", node.where, fmt::format("\"{}\" is missing for {}", word, what));
  }
  return true;
}

const std::vector<Node>& items_of(const Node& map, std::string_view key, Desk& desk) {
  static const std::vector<Node> none;
  const Node* node = map.find(key);
  if (node == nullptr) return none;
  if (node->kind == Node::Kind::list) return node->items;
  desk.mistake("kind", node->where, fmt::format("\"{}\" takes a list", key));
  return none;
}

std::string text_of(const Node& map, std::string_view key) {
  const Node* value = map.find(key);
  return value == nullptr ? std::string{} : std::string{trimmed(value->text)};
}

Library read_library(const std::filesystem::path& schedules_folder) {
  Library library;
  std::vector<Finding> findings;
  bool cones = false;
  for (const auto& path : yaml_files(schedules_folder)) {
    Desk desk;
    desk.file = path.string();
    const Tree tree = read_tree(whole_file(path), desk.file);
    desk.findings = tree.findings;
    if (has_mistakes(tree.findings)) {
      // nothing more can be said about it
    } else if (path.stem() == "cones") {
      library.cones = read_cone_table(tree.root, desk);
      cones = true;
    } else {
      library.profiles.push_back(read_profile(tree.root, path.stem().string(), desk));
    }
    findings.insert(findings.end(), desk.findings.begin(), desk.findings.end());
  }
  if (!cones && !has_mistakes(findings)) {
    findings.push_back({Severity::mistake, "missing", "the table of cones is missing here",
                        TextPos{(schedules_folder / "cones.yaml").string(), 0, 0, 0},
                        std::nullopt});
  }
  if (has_mistakes(findings)) throw InputError{std::move(findings)};
  return library;
}

}  // namespace placer::workbook
