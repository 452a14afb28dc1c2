/// @file block.h
/// One block of words of the file ("a piece", "the kiln") and its values, each read by what the
/// vocabulary says that its word takes. Internal to workbook/.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "placer/base/units.h"
#include "placer/geometry/shape.h"
#include "placer/workbook/studio.h"
#include "workbook/measure.h"
#include "workbook/tree.h"
#include "workbook/vocabulary.h"

namespace placer::workbook {

/// A word at `where` of which only `word` can be meant.
struct Mend {
  TextPos where;
  std::string word;
  std::string reason;
};

/// The desk at which one file is read: what its bare numbers mean, and what was found so far.
struct Desk {
  std::string file;
  UsualUnits units;
  std::vector<Finding> findings;
  std::vector<Reading> readings;
  std::vector<Mend> mends;

  void mistake(std::string code, const TextPos& where, std::string message,
               std::optional<std::string> suggestion = std::nullopt);
  void look(std::string code, const TextPos& where, std::string message,
            std::optional<std::string> suggestion = std::nullopt);
};

/// A name and where it stands.
struct Named {
  std::string text;
  TextPos where;
};

/// "line 12" for a place in the same file.
std::string line_of(const TextPos& where);
/// "a", "a or b", "a, b or c".
std::string listed(const std::vector<std::string>& words);
/// No other known word is as near to `word` as `near`.
bool only_near(const std::string& word, const std::string& near,
               const std::vector<std::string>& known);

class Block {
 public:
  /// Tells words that the place does not know, words with nothing behind them, words that it needs
  /// and misses, and a node that is no block at all. Desk and node must outlive it.
  Block(const Node& node, std::string_view place, Desk& desk);

  bool readable() const { return node_.kind == Node::Kind::map; }
  bool has(std::string_view key) const { return find(key) != nullptr; }
  /// Some unknown word was probably meant to be this one: it is not missing as well.
  bool meant(std::string_view key) const;
  /// The word is there with nothing behind it.
  bool given_empty(std::string_view key) const;
  /// The value of a word; nullptr when the word is not there or has nothing behind it.
  const Node* find(std::string_view key) const;
  /// Of the value, or of the block's beginning.
  TextPos where(std::string_view key) const;
  TextPos where() const { return node_.where; }
  /// Of the block's name, or its beginning: what to point at when something is missing.
  TextPos where_named() const;
  /// Of the word itself.
  TextPos where_word(std::string_view key) const;

  // Each is empty when the word is not there or its value was told as a mistake.
  std::optional<Length> length(std::string_view key);
  std::optional<Mass> mass(std::string_view key);
  std::optional<Temperature> temperature(std::string_view key);
  std::optional<Hours> duration(std::string_view key);
  std::optional<Power> power(std::string_view key);
  std::optional<double> percent(std::string_view key);  ///< as a fraction
  std::optional<double> angle(std::string_view key);    ///< degrees
  std::optional<int> count(std::string_view key);
  std::optional<bool> yes_no(std::string_view key);
  std::optional<std::string> text(std::string_view key);
  std::optional<std::size_t> choice(std::string_view key);  ///< index into the row's choices
  std::optional<Pair> pair(std::string_view key);
  std::optional<Point> point(std::string_view key);
  std::vector<Point> points(std::string_view key);
  std::vector<double> angles(std::string_view key);
  std::vector<Named> names(std::string_view key);  ///< one name or a list
  /// A list, or one block taken for a list of one; other things are told.
  std::vector<const Node*> blocks(std::string_view key);

  Desk& desk() const { return desk_; }
  std::string_view place() const { return place_; }

 private:
  const VocabularyRow& row(std::string_view key) const;
  const Node* scalar(std::string_view key);
  std::optional<double> quantity(std::string_view key, Measure measure);
  void tell_unknown(const Node& key);
  void note_mend(const Node& key, const std::string& word, const std::string& reason);
  std::optional<std::string> broken_number(const Node& key) const;
  void tell_empty(const std::string& key, const TextPos& where);
  void tell_missing();

  const Node& node_;
  std::string_view place_;
  Desk& desk_;
  std::vector<std::string> meant_;
};

/// A value alone, by its row: used for items of lists.
std::optional<double> read_scalar(const Node& node, Measure measure, const VocabularyRow& row,
                                  Desk& desk);
/// A length with or without a "-" before it.
std::optional<double> read_signed_length(const Node& node, const VocabularyRow& row, Desk& desk);
std::optional<Point> read_point(const Node& node, const VocabularyRow& row, Desk& desk);
std::optional<double> read_angle(const Node& node, const VocabularyRow& row, Desk& desk);
constexpr int kMostLetters = 120;  ///< of a name
/// A name: some text, at most kMostLetters long.
std::optional<std::string> read_name(const Node& node, std::string_view what, Desk& desk);
/// A whole number of the row's range.
std::optional<int> read_count(const Node& node, const VocabularyRow& row, Desk& desk);

}  // namespace placer::workbook
