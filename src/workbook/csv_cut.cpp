#include "workbook/csv_rows.h"

namespace placer::workbook {
namespace {

class Cutter {
 public:
  Cutter(std::string_view text, char separator, const std::string& file)
      : text_{text}, separator_{separator}, file_{file} {}

  CsvTable cut() {
    begin_field();
    while (at_ < text_.size()) step();
    end_row();
    if (quoted_) table_.open_quote = field_.where;
    return std::move(table_);
  }

 private:
  void step() {
    const char c = text_[at_];
    if (quoted_) {
      inside_quotes(c);
    } else if (c == '"' && field_.text.empty() && !was_quoted_) {
      quoted_ = was_quoted_ = true;
      advance();
    } else if (c == separator_) {
      end_field();
      advance();
      begin_field();
    } else if (c == '\n' || c == '\r') {
      end_row();
      if (c == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n') ++at_;
      ++at_;
      new_line();
      begin_field();
    } else {
      if (was_quoted_ && c != ' ' && c != '\t' && !table_.after_quote) {
        table_.after_quote = TextPos{file_, line_, column_, column_ + 1};
      }
      field_.text += c;
      advance();
    }
  }

  void inside_quotes(char c) {
    const bool doubled = c == '"' && at_ + 1 < text_.size() && text_[at_ + 1] == '"';
    if (c == '"' && !doubled) {
      quoted_ = false;
      advance();
      return;
    }
    field_.text += c;
    if (doubled) advance();
    if (c == '\n') {
      ++at_;
      new_line();
    } else {
      advance();
    }
  }

  void advance() {
    const bool begins = (static_cast<unsigned char>(text_[at_]) & 0xC0U) != 0x80U;
    if (begins) ++column_;
    ++at_;
  }
  void new_line() {
    ++line_;
    column_ = 1;
  }

  void begin_field() {
    field_ = {"", {file_, line_, column_, column_}};
    was_quoted_ = false;
  }
  void end_field() {
    if (field_.where.line == line_) field_.where.end_column = column_;
    row_.push_back(std::move(field_));
    field_ = {};
  }
  void end_row() {
    const TextPos where = field_.where;
    end_field();
    row_.back().where = where;
    if (where.line == line_) row_.back().where.end_column = column_;
    const bool empty =
        row_.size() == 1 && row_.front().text.find_first_not_of(" \t") == std::string::npos;
    if (!empty) table_.rows.push_back(std::move(row_));
    row_.clear();
    if (quoted_) field_.where = where;
  }

  std::string_view text_;
  char separator_;
  const std::string& file_;
  CsvTable table_;
  std::vector<CsvField> row_;
  CsvField field_;
  std::size_t at_ = 0;
  int line_ = 1, column_ = 1;
  bool quoted_ = false, was_quoted_ = false;
};

}  // namespace

CsvTable cut(std::string_view text, char separator, const std::string& file) {
  return Cutter{text, separator, file}.cut();
}

}  // namespace placer::workbook
