// Which words of a block are known, and what is told of the others.
#include <fmt/format.h>

#include <algorithm>

#include "placer/base/words.h"
#include "workbook/block.h"
#include "workbook/broken_text.h"
#include "workbook/other_words.h"

namespace placer::workbook {
bool only_near(const std::string& word, const std::string& near,
               const std::vector<std::string>& known) {
  const int apart = letters_apart(lower_case(word), near);
  return std::ranges::none_of(known, [&](const std::string& other) {
    return other != near && letters_apart(lower_case(word), other) <= apart;
  });
}

Block::Block(const Node& node, std::string_view place, Desk& desk)
    : node_{node}, place_{place}, desk_{desk} {
  if (!readable()) {
    const auto words = words_of(place);
    desk.mistake(
        "kind", node.where,
        fmt::format("{} is described by words here, each with a \":\", for example "
                    "\"{}: {}\"",
                    spoken(place), words.front(), find_word(place, words.front())->example));
    return;
  }
  for (const auto& [key, value] : node.entries) {
    if (find_word(place, key.text) == nullptr) {
      tell_unknown(key);
    } else if (value.kind == Node::Kind::empty) {
      tell_empty(key.text, value.where);
    } else if (value.kind == Node::Kind::list && value.items.empty()) {
      tell_empty(key.text, value.where);
    }
  }
  tell_missing();
}

void Block::tell_unknown(const Node& key) {
  const auto known = words_of(place_);
  auto near = own_word(place_, key.text);
  const bool same_thing = near.has_value();
  if (!near) near = nearest_word(key.text, known);
  if (near) meant_.push_back(*near);
  if (key.text.empty()) {
    desk_.mistake("word", key.where, "a word is missing before this \":\"");
    return;
  }
  if (const auto number = broken_number(key)) {
    desk_.mistake(
        "number", key.where,
        fmt::format("\"{}\" stands alone behind a comma: a decimal takes a point", key.text),
        number);
    return;
  }
  std::string message =
      fmt::format("no such word \"{}\" for {}", shortened(key.text), spoken(place_));
  if (!near) {
    std::vector<std::string> others;
    for (const PlaceRow& other : places()) {
      if (find_word(other.place, key.text) != nullptr) others.emplace_back(other.spoken);
    }
    if (!others.empty()) message += "; it belongs to " + listed(others);
    if (known.size() <= 8) message += ": the words here are " + listed(known);
  }
  const bool only = near && (same_thing || only_near(key.text, *near, known));
  if (only && !key.quoted) note_mend(key, *near, message);
  desk_.mistake("word", key.where, std::move(message), near);
}

/// Of two words that both mean the same one, neither can be mended without a person.
void Block::note_mend(const Node& key, const std::string& word, const std::string& reason) {
  if (has(word)) return;
  const auto same = [&](const std::string& other) { return other == word; };
  if (std::ranges::count_if(meant_, same) == 1) {
    desk_.mends.push_back({key.where, word, reason});
    return;
  }
  std::erase_if(desk_.mends, [&](const Mend& mend) {
    return mend.word == word && std::ranges::any_of(node_.entries, [&](const NodeEntry& entry) {
             return entry.first.where.line == mend.where.line &&
                    entry.first.where.column == mend.where.column;
           });
  });
}

/// `height: 10,5 cm` in braces is height: 10 and a word "5 cm".
std::optional<std::string> Block::broken_number(const Node& key) const {
  const auto at =
      std::ranges::find_if(node_.entries, [&](const auto& entry) { return &entry.first == &key; });
  if (at == node_.entries.begin() || at == node_.entries.end()) return std::nullopt;
  const std::string& before = std::prev(at)->second.text;
  const bool digits = key.text.find_first_of("0123456789") == 0 && !before.empty() &&
                      before.find_first_not_of("0123456789") == std::string::npos;
  if (!digits || at->second.kind != Node::Kind::empty) return std::nullopt;
  return before + "." + key.text;
}

void Block::tell_empty(const std::string& key, const TextPos& where) {
  desk_.mistake(
      "empty", where,
      fmt::format("\"{}\" is empty: write for example  {}: {}", key, key, row(key).example));
}

void Block::tell_missing() {
  for (const VocabularyRow& word : vocabulary()) {
    if (word.place != place_ || !word.needed || node_.find(word.key) != nullptr) continue;
    if (meant(word.key)) continue;
    desk_.mistake("missing", where_named(),
                  fmt::format("\"{}\" is missing for {}: add  {}: {}", word.key, spoken(place_),
                              word.key, word.example));
  }
}

bool Block::meant(std::string_view key) const {
  return std::ranges::find(meant_, key) != meant_.end();
}

}  // namespace placer::workbook
