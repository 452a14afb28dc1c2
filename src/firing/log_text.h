/// @file log_text.h
/// A log's bytes as text: byte order marks, two-byte letters, and what may be shown of a row that
/// nobody can read. Internal to firing.
#pragma once

#include <string>
#include <string_view>

namespace placer::firing {

/// The text without its byte order mark; two-byte letters (UTF-16, as spreadsheets write them) as
/// UTF-8. Keeps a view into the bytes when nothing had to be changed.
class PlainText {
 public:
  explicit PlainText(std::string_view bytes);
  PlainText(const PlainText&) = delete;
  PlainText& operator=(const PlainText&) = delete;
  std::string_view view() const { return view_; }
  /// Pictures, archives and the like: many bytes that no text has.
  bool is_text() const { return text_; }

 private:
  std::string changed_;
  std::string_view view_;
  bool text_ = true;
};

/// At most `most` letters of it, with whatever a terminal could stumble over shown as a dot.
std::string printable(std::string_view raw, std::size_t most);

/// "# made by hand", "// ...": a line that is not meant as a row.
bool is_comment(std::string_view line);

/// The lines after the first `keep` in opposite order: some loggers write the newest first.
std::string turned_round(std::string_view text, std::size_t keep);

}  // namespace placer::firing
