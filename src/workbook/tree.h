/// @file tree.h
/// A YAML text as a small tree with positions. Internal to workbook/: no other module sees YAML.
///
/// Read through yaml-cpp's event handler, because its node tree accepts in silence what a potter
/// must be told: repeated keys, a second document, stray text after the end, aliases.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "placer/base/error.h"

namespace placer::workbook {

struct NodeEntry;

struct Node {
  enum class Kind { empty, scalar, list, map };
  Kind kind = Kind::empty;
  std::string text;                ///< of a scalar, as written: "06" stays "06"
  bool quoted = false;             ///< a quoted scalar
  bool joined = false;             ///< "12,5" in braces, where the comma would end the value
  TextPos where;                   ///< of its first character, end_column after its last (scalars)
  std::vector<Node> items;         ///< of a list
  std::vector<NodeEntry> entries;  ///< of a map, in file order

  const Node* find(std::string_view key) const;  ///< of a map; nullptr if it is not there
};

/// A word of a map, a scalar, and its value.
struct NodeEntry {
  Node first, second;
};

struct Tree {
  Node root;
  std::vector<Finding> findings;  ///< empty when the text is sound; else root may be partial
};

/// Limits: 32 levels deep, 200,000 nodes, 4 MB. Findings: not UTF-8, tab, broken YAML, repeated
/// key, anchor or alias, second document, text after the end, too deep, too large, "#" that
/// swallows the rest of a plain value.
Tree read_tree(std::string_view text, const std::string& file);

}  // namespace placer::workbook
