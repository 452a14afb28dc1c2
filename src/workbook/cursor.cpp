#include "workbook/cursor.h"

#include <array>
#include <charconv>

#include "workbook/measure.h"

namespace placer::workbook {
namespace {

struct Vulgar {
  std::string_view sign;
  double value;
};
constexpr std::array kVulgar = {Vulgar{"½", 0.5},   Vulgar{"¼", 0.25},   Vulgar{"¾", 0.75},
                                Vulgar{"⅛", 0.125}, Vulgar{"⅜", 0.375},  Vulgar{"⅝", 0.625},
                                Vulgar{"⅞", 0.875}, Vulgar{"⅓", 1. / 3}, Vulgar{"⅔", 2. / 3}};

bool digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

void Cursor::skip_blanks() {
  while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
}

bool Cursor::take(std::string_view what) {
  if (!rest_.starts_with(what)) return false;
  rest_.remove_prefix(what.size());
  return true;
}

std::optional<double> Cursor::number() {
  if (const auto part = vulgar()) return part;
  const auto first = decimal();
  if (!first) return std::nullopt;
  if (!whole_) return first;
  if (const auto below = slash()) return *first / *below;
  const std::string_view before = rest_;
  if (!rest_.empty() && (rest_.front() == ' ' || rest_.front() == '-')) rest_.remove_prefix(1);
  if (const auto part = vulgar()) return *first + *part;
  if (const auto above = decimal(); above && whole_) {
    if (const auto below = slash()) return *first + *above / *below;
  }
  rest_ = before;
  return first;
}

std::string_view Cursor::unit() {
  std::size_t i = 0;
  while (i < rest_.size() && !digit(rest_[i]) && rest_[i] != '.') ++i;
  std::string_view word = rest_.substr(0, i);
  rest_.remove_prefix(i);
  return trimmed(word);
}

std::optional<double> Cursor::vulgar() {
  for (const Vulgar& one : kVulgar) {
    if (take(one.sign)) return one.value;
  }
  return std::nullopt;
}

std::optional<double> Cursor::decimal() {
  std::size_t i = 0;
  while (i < rest_.size() && digit(rest_[i])) ++i;
  whole_ = i > 0;
  std::size_t end = i;
  if (i + 1 < rest_.size() && rest_[i] == '.' && digit(rest_[i + 1])) {
    end = i + 1;
    while (end < rest_.size() && digit(rest_[end])) ++end;
    whole_ = false;
  }
  if (end == 0 || end > 40) return std::nullopt;
  double value = 0;
  std::from_chars(rest_.data(), rest_.data() + end, value);
  rest_.remove_prefix(end);
  return value;
}

std::optional<double> Cursor::slash() {
  const std::string_view before = rest_;
  if (take("/")) {
    const auto below = decimal();
    if (below && whole_ && *below > 0) return below;
  }
  rest_ = before;
  return std::nullopt;
}

}  // namespace placer::workbook
