#include "workbook/broken_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "workbook/encoding.h"
#include "workbook/lines.h"

namespace placer::workbook {
namespace {

/// A bracket or quote that is still open at the end of the text.
struct Unclosed {
  char what = 0;
  std::size_t byte = 0;
};

bool begins_comment(std::string_view text, std::size_t i) {
  return text[i] == '#' && (i == 0 || text[i - 1] == ' ' || text[i - 1] == '\n');
}

/// The innermost bracket that is never closed. Brackets count where YAML counts them: outside
/// quotes and remarks.
std::optional<Unclosed> innermost_unclosed(std::string_view text) {
  std::vector<Unclosed> open;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool fresh = i == 0 || std::string_view{" \n[{,:"}.find(text[i - 1]) != std::string::npos;
    if (begins_comment(text, i)) {
      i = std::min(text.find('\n', i), text.size());
    } else if ((c == '"' || c == '\'') && fresh) {
      const std::size_t length = quoted_length(text, i);
      if (length == 0 || i + length > text.size()) return Unclosed{c, i};
      i += length - 1;
    } else if ((c == '[' || c == '{') && (fresh || !open.empty())) {
      open.push_back({c, i});
    } else if ((c == ']' || c == '}') && !open.empty()) {
      open.pop_back();
    }
  }
  if (open.empty()) return std::nullopt;
  return open.back();
}

struct Wording {
  std::string_view complaint;  ///< how it begins
  std::string_view code;
  std::string_view message;
};

constexpr std::array kWordings = {
    Wording{"end of map not found", "indent",
            "this line does not go with the lines above: look at its indentation, and that each "
            "word has a \":\" and a space after it"},
    Wording{"end of sequence not found", "indent",
            "this line does not go with the list above: look at its indentation, and that each "
            "item begins with \"- \""},
    Wording{"illegal flow end", "bracket", "this bracket closes nothing that is open"},
    Wording{"illegal map value", "colon",
            "a second \":\" in one line: put the value in quotes, or begin a new line"},
    Wording{"illegal map key", "colon", "no word can stand here: look at the line above"},
    Wording{"illegal block entry", "dash",
            "a list item \"- \" cannot stand here: begin a new line under its word"},
    Wording{"unknown token", "quotes", "a value that begins with this character must be in quotes"},
    Wording{"unknown escape character", "quotes",
            "a \"\\\" within double quotes has a meaning of its own: use single quotes"},
    Wording{"illegal EOF in scalar", "quotes", "this quote is never closed"},
    Wording{"illegal document indicator", "quotes", "a quote is not closed before this line"},
    Wording{"illegal tab", "tab", "a tab indents this line: use spaces"},
    Wording{"the referenced anchor", "alias", "a value that begins with \"*\" must be in quotes"},
    Wording{"alias not found", "alias", "a value that begins with \"*\" must be in quotes"},
    Wording{"anchor not found", "alias", "a value that begins with \"&\" must be in quotes"},
    Wording{"illegal character found while scanning alias", "alias",
            "a value that begins with \"*\" must be in quotes"},
    Wording{"illegal character found while scanning anchor", "alias",
            "a value that begins with \"&\" must be in quotes"},
};

/// The "#" that hides the end of the line in which a bracket opens.
std::optional<std::size_t> hiding_hash(std::string_view text, std::size_t from) {
  const std::size_t end = std::min(text.find('\n', from), text.size());
  for (std::size_t i = from; i + 1 < end; ++i) {
    if (text[i] == '#' && text[i - 1] == ' ' && text[i + 1] != ' ') return i;
  }
  return std::nullopt;
}

Finding unclosed_finding(const Unclosed& unclosed, std::string_view text, const std::string& file) {
  const auto hash = hiding_hash(text, unclosed.byte + 1);
  if (hash && (unclosed.what == '[' || unclosed.what == '{')) {
    return {Severity::mistake, "hash",
            fmt::format("everything from this \"#\" on is taken for a remark, so the \"{}\" before "
                        "it is never closed: put quotes round the value if the \"#\" belongs to it",
                        unclosed.what),
            Lines{text}.at(*hash, word_length(text, *hash), file), std::nullopt};
  }
  const bool bracket = unclosed.what == '[' || unclosed.what == '{';
  return {Severity::mistake, bracket ? "bracket" : "quotes",
          bracket ? fmt::format("this \"{}\" is never closed by a \"{}\"", unclosed.what,
                                unclosed.what == '[' ? ']' : '}')
                  : std::string{"this quote is never closed"},
          Lines{text}.at(unclosed.byte, 1, file), std::nullopt};
}

/// The character at a byte of a UTF-8 text.
char32_t character_at(std::string_view text, std::size_t i) {
  const auto lead = static_cast<unsigned char>(text[i]);
  const std::size_t length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  char32_t c = length == 1 ? lead : lead & (0x7FU >> length);
  for (std::size_t k = 1; k < length && i + k < text.size(); ++k) {
    c = (c << 6U) | (static_cast<unsigned char>(text[i + k]) & 0x3FU);
  }
  return c;
}

/// Controls, blanks of no width, and marks that turn the writing round. (Joiners stay: some scripts
/// and pictures need them.)
bool cannot_be_seen(char32_t c) {
  if (c == '\n' || c == '\r' || c == '\t') return false;
  return c < 0x20 || (c >= 0x7F && c <= 0x9F) || c == 0xAD || c == 0x200B || c == 0x2060 ||
         (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0xFEFF;
}

/// A line above the complaint that has no ": " at all, which is what the reader stumbled over.
std::optional<int> line_without_colon(const Lines& lines, int from) {
  for (int i = from - 1; i >= 0; --i) {
    const std::string_view line = lines.line(i);
    const std::size_t first = line.find_first_not_of(' ');
    if (first == std::string_view::npos || line[first] == '#') continue;
    const bool word = line.find(": ") == std::string_view::npos && !line.ends_with(':') &&
                      std::string_view{"-[]{}\"'"}.find(line[first]) == std::string_view::npos;
    return word ? std::optional{i} : std::nullopt;
  }
  return std::nullopt;
}

/// "kiln {" and "posts [": the word's ":" before a bracket was left out.
std::optional<Finding> colon_before_bracket(std::string_view text, std::size_t byte,
                                            const std::string& file) {
  const Lines lines{text};
  const int index = lines.line_of(byte);
  const std::string_view line = lines.line(index);
  const std::size_t bracket = line.find_first_of("{[");
  const std::size_t first = line.find_first_not_of(" -");
  if (bracket == std::string_view::npos || first >= bracket) return std::nullopt;
  if (line.substr(0, bracket).find(':') != std::string_view::npos) return std::nullopt;
  return Finding{Severity::mistake, "colon",
                 fmt::format("a \":\" is missing between the word and this \"{}\"", line[bracket]),
                 lines.at(lines.start(index) + bracket, 1, file), std::nullopt};
}

/// "'Potter's mug'": a word goes on right behind a single quote.
std::optional<Finding> quote_within(std::string_view text, std::size_t byte,
                                    const std::string& file) {
  const std::size_t quote = byte > 0 ? text.rfind('\'', byte) : std::string_view::npos;
  if (quote == std::string_view::npos || quote + 1 < byte) return std::nullopt;
  return Finding{
      Severity::mistake, "quotes",
      "the quote ends here and a word goes on: within single quotes a ' is written twice, "
      "or use double quotes",
      Lines{text}.at(quote, 1, file), std::nullopt};
}

/// "units mm, C" where "units: mm, C" was meant.
std::optional<Finding> missing_colon(std::string_view text, std::size_t byte,
                                     const std::string& file) {
  const Lines lines{text};
  const auto line = line_without_colon(lines, lines.line_of(byte));
  if (!line) return std::nullopt;
  const std::string_view whole = lines.line(*line);
  const std::size_t begin = lines.start(*line) + whole.find_first_not_of(' ');
  return Finding{Severity::mistake, "colon",
                 "a \":\" with a blank behind it is missing between the word and its value",
                 lines.at(begin, whole.size(), file), std::nullopt};
}

/// A tab before the first character of a line, or between a "-" and its item.
std::optional<std::size_t> indenting_tab(std::string_view line) {
  std::size_t i = 0;
  while (i < line.size() && (line[i] == ' ' || line[i] == '-')) ++i;
  if (i >= line.size() || line[i] != '\t') return std::nullopt;
  const std::size_t rest = line.find_first_not_of(" \t", i);
  if (rest == std::string_view::npos || line[rest] == '#') return std::nullopt;
  return i;
}

}  // namespace

std::string shortened(std::string_view text) {
  constexpr int kMost = 40;
  if (characters(text) <= kMost) return std::string{text};
  std::size_t bytes = 0;
  int count = 0;
  while (bytes < text.size()) {
    const bool begins = (static_cast<unsigned char>(text[bytes]) & 0xC0U) != 0x80U;
    if (begins && ++count > kMost) break;
    ++bytes;
  }
  return std::string{text.substr(0, bytes)} + "...";
}

std::size_t word_length(std::string_view text, std::size_t byte) {
  if (byte >= text.size()) return 1;
  const std::size_t end = text.find_first_of(" \t\n,]}", byte);
  return std::max<std::size_t>(1, std::min(end, text.size()) - byte);
}

std::size_t quoted_length(std::string_view text, std::size_t byte) {
  const char quote = text[byte];
  if (quote != '"' && quote != '\'') return word_length(text, byte);
  for (std::size_t i = byte + 1; i < text.size(); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
    } else if (text[i] == quote) {
      const bool doubled = quote == '\'' && i + 1 < text.size() && text[i + 1] == quote;
      if (!doubled) return i - byte + 1;
      ++i;
    }
  }
  return text.size() - byte + 1;  // one past the end: never closed
}

std::optional<Finding> unseen_character(std::string_view text, const std::string& file) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool begins = (static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U;
    const char32_t c = begins ? character_at(text, i) : U'a';
    if (!cannot_be_seen(c)) continue;
    return Finding{Severity::mistake, "character",
                   fmt::format("a character that cannot be seen ({}) stands here: delete it and "
                               "type the word again",
                               c < 0x80 ? fmt::format("number {}", static_cast<unsigned>(c))
                                        : fmt::format("U+{:04X}", static_cast<unsigned>(c))),
                   Lines{text.substr(0, i)}.at(i, 1, file), std::nullopt};
  }
  return std::nullopt;
}

std::vector<Finding> broken_characters(std::string_view text, const std::string& file) {
  std::vector<Finding> findings;
  const Lines lines{text};
  const auto tell = [&](std::string code, std::size_t byte, std::string message) {
    findings.push_back({Severity::mistake, std::move(code), std::move(message),
                        lines.at(byte, 1, file), std::nullopt});
  };
  if (auto wrong = wrong_encoding(text, file, kStudioFile)) return {*std::move(wrong)};
  if (auto unseen = unseen_character(text, file)) return {*std::move(unseen)};
  for (int i = 0; i < lines.count(); ++i) {
    if (const auto tab = indenting_tab(lines.line(i))) {
      tell("tab", lines.start(i) + *tab, "a tab indents this line: use spaces");
    }
  }
  return findings;
}

Finding explain_break(std::string_view complaint, std::size_t byte, std::string_view text,
                      const std::string& file) {
  const auto wording = std::ranges::find_if(
      kWordings, [&](const Wording& w) { return complaint.starts_with(w.complaint); });
  const bool closed_wrongly =
      wording != kWordings.end() && (wording->code == "bracket" || wording->code == "tab");
  if (const auto unclosed = innermost_unclosed(text); unclosed && !closed_wrongly) {
    return unclosed_finding(*unclosed, text, file);
  }
  byte = std::min(byte, text.size());
  if (complaint.starts_with("illegal map value")) {
    if (auto finding = colon_before_bracket(text, byte, file)) return *std::move(finding);
    if (auto finding = missing_colon(text, byte, file)) return *std::move(finding);
  }
  if (wording == kWordings.end()) {
    if (auto finding = quote_within(text, byte, file)) return *std::move(finding);
  }
  const TextPos where = Lines{text}.at(byte, word_length(text, byte), file);
  if (wording == kWordings.end()) {
    return {Severity::mistake, "unreadable",
            "this cannot be read: look at \":\", \"-\", quotes and brackets here and just above",
            where, std::nullopt};
  }
  return {Severity::mistake, std::string{wording->code}, std::string{wording->message}, where,
          std::nullopt};
}

}  // namespace placer::workbook
