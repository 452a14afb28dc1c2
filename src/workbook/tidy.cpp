#include "placer/workbook/tidy.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <iterator>

#include "workbook/draft.h"
#include "workbook/lines.h"
#include "workbook/tree.h"

namespace placer::workbook {
namespace {

constexpr std::string_view kMark = "\xEF\xBB\xBF";

/// The byte of a line and column of the text as it is on disk.
std::size_t byte_at(const Lines& lines, int line, int column) {
  const std::string_view whole = lines.line(line - 1);
  std::size_t byte = 0;
  for (int seen = 0; byte < whole.size(); ++byte) {
    const bool begins = (static_cast<unsigned char>(whole[byte]) & 0xC0U) != 0x80U;
    if (begins && ++seen == column) break;
  }
  return lines.start(line - 1) + byte;
}

/// A file that ends its lines in "\r" alone counts them otherwise than we do: left as it is.
bool odd_line_ends(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n')) return true;
  }
  return false;
}

/// "studio: 1" in front of the first word, when it is missing.
std::optional<Edit> first_line(const Node& root, std::string_view text, const Lines& lines) {
  if (root.kind != Node::Kind::map || root.find("studio") != nullptr || root.entries.empty()) {
    return std::nullopt;
  }
  const TextPos where = root.entries.front().first.where;
  if (where.column != 1) return std::nullopt;
  const std::size_t byte = byte_at(lines, where.line, 1);
  const bool windows = text.find("\r\n") != std::string_view::npos;
  return Edit{byte,  byte,
              "",    windows ? "studio: 1\r\n" : "studio: 1\n",
              where, "the first word of the file says which way of writing it is"};
}

std::vector<Edit> words_to_mend(const Node& root, std::string_view text, const Lines& lines,
                                const std::string& file) {
  const Library nothing_known;
  Draft draft = empty_draft(nothing_known, 0);
  draft.desk.file = file;
  read_parts(root, draft);
  std::vector<Edit> edits;
  for (const Mend& mend : draft.desk.mends) {
    const std::size_t begin = byte_at(lines, mend.where.line, mend.where.column);
    const std::size_t end = byte_at(lines, mend.where.line, mend.where.end_column);
    edits.push_back({begin, end, std::string{text.substr(begin, end - begin)}, mend.word,
                     mend.where, mend.reason});
  }
  return edits;
}

bool adds_a_line(const Edit& edit) { return edit.old_text.empty(); }

}  // namespace

std::vector<Edit> edits_for(std::string_view given, const std::string& file) {
  std::vector<Edit> edits;
  const std::size_t skipped = given.starts_with(kMark) ? kMark.size() : 0;
  const std::string_view text = given.substr(skipped);
  const Tree tree = read_tree(given, file);
  if (has_mistakes(tree.findings) || odd_line_ends(text)) return edits;
  const Lines lines{text};
  if (auto line = first_line(tree.root, text, lines)) edits.push_back(std::move(*line));
  std::ranges::move(words_to_mend(tree.root, text, lines, file), std::back_inserter(edits));
  std::ranges::stable_sort(edits, {}, &Edit::begin);
  const auto same = [](const Edit& a, const Edit& b) {
    return a.begin == b.begin && a.end == b.end;
  };
  edits.erase(std::unique(edits.begin(), edits.end(), same), edits.end());
  for (Edit& edit : edits) {
    edit.begin += skipped;
    edit.end += skipped;
  }
  return edits;
}

std::string with_edits(std::string_view text, const std::vector<Edit>& edits) {
  std::string out;
  std::size_t done = 0;
  for (const Edit& edit : edits) {
    out += text.substr(done, edit.begin - done);
    out += edit.new_text;
    done = edit.end;
  }
  out += text.substr(std::min(done, text.size()));
  return out;
}

Tidied tidy(std::string_view text, const std::string& file) {
  Tidied tidied{std::string{text}, {}};
  std::vector<Edit> told;
  // A word mended can show what stands below it. The line in front comes last: until then the
  // lines are those of the file as it is.
  for (bool lines_kept = true; lines_kept;) {
    std::vector<Edit> edits = edits_for(tidied.text, file);
    lines_kept = std::ranges::any_of(edits, std::not_fn(adds_a_line));
    if (lines_kept) std::erase_if(edits, adds_a_line);
    tidied.text = with_edits(tidied.text, edits);
    std::ranges::move(edits, std::back_inserter(told));
  }
  std::ranges::stable_sort(told, {}, [](const Edit& edit) {
    return std::pair{edit.where.line, adds_a_line(edit) ? 0 : edit.where.column};
  });
  for (const Edit& edit : told) {
    const std::string place = fmt::format("{}:{}: ", file, edit.where.line);
    tidied.changes.push_back(place + (adds_a_line(edit)
                                          ? "studio: 1 put in front"
                                          : fmt::format("{} -> {}", edit.old_text, edit.new_text)));
  }
  return tidied;
}

}  // namespace placer::workbook
