#include <fmt/format.h>

#include <algorithm>

#include "placer/model/tower.h"
#include "placer/report/report.h"
#include "report/words.h"

namespace placer::report {
namespace {

/// One cell as RFC 4180 writes it. A cell that a spreadsheet would take for a formula begins with
/// an apostrophe, so that a piece called "=1+1" stays a name.
std::string cell(std::string_view text) {
  std::string safe{text};
  const std::size_t first = safe.find_first_not_of(" \t\r\n");
  if (first != std::string::npos &&
      std::string_view{"=+-@"}.find(safe[first]) != std::string_view::npos) {
    safe.insert(0, 1, '\'');
  } else if (!safe.empty() && (safe.front() == '\t' || safe.front() == '\r')) {
    safe.insert(0, 1, '\'');
  }
  if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
  std::string quoted = "\"";
  for (const char c : safe) quoted += c == '"' ? "\"\"" : std::string(1, c);
  return quoted + "\"";
}

/// Numbers never need the apostrophe: -3.5 is a number for a spreadsheet too.
std::string number_cell(double value, int digits) {
  std::string text = fmt::format("{:.{}f}", value, digits);
  if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

std::string row(const std::vector<std::string>& cells) {
  std::string text;
  for (std::size_t i = 0; i < cells.size(); ++i) text += (i > 0 ? "," : "") + cells[i];
  return text + "\r\n";
}

/// Lengths are in the unit that the potter reads: a tenth of a mm, or a thousandth of an inch.
std::string length_cell(const Subject& subject, double mm) {
  return subject.inches ? number_cell(mm / 25.4, 3) : number_cell(mm, 1);
}

std::string heading(const Subject& subject) {
  const std::string unit = subject.inches ? " (in)" : " (mm)";
  return row({"plan", "firing", "column", "shelf from the bottom", "number", "piece",
              "pieces in the stack", "glaze", "x" + unit, "y" + unit, "turn (degrees)",
              "height" + unit, "mass (kg)", "shelf top above the floor" + unit,
              "left out because"});
}

std::string piece_row(const Subject& subject, std::size_t firing, const Level& level,
                      const PlacedPiece& piece) {
  const PieceKind& kind = subject.batch.pieces.at(static_cast<std::size_t>(piece.piece));
  return row({cell(subject.plan.name), cell(firing_name(subject, firing)),
              cell(place_name(subject.batch.kiln, level)), std::to_string(level.level),
              std::to_string(piece.number), cell(kind.name), std::to_string(kinds_of(piece).size()),
              cell(glaze_name(subject, piece)), length_cell(subject, piece.place.at.x),
              length_cell(subject, piece.place.at.y), number_cell(piece.place.turn_deg, 1),
              length_cell(subject, piece.height.mm()), number_cell(piece.mass.kg(), 3),
              length_cell(subject, level.shelf_top.mm()), ""});
}

std::string left_out_rows(const Subject& subject) {
  std::string text;
  for (const LeftOut& out : subject.plan.left_out) {
    const PieceKind& kind = subject.batch.pieces.at(static_cast<std::size_t>(out.piece));
    const Load& load = subject.batch.loads.at(static_cast<std::size_t>(out.load));
    const std::string glaze =
        kind.glaze ? subject.batch.glazes.at(static_cast<std::size_t>(*kind.glaze)).name
                   : "no glaze";
    for (int i = 0; i < out.count; ++i) {
      text += row({cell(subject.plan.name), cell(load.name), "", "", "", cell(kind.name), "1",
                   cell(glaze), "", "", "", "", "", "", cell(out.reason)});
    }
  }
  return text;
}

}  // namespace

std::string plan_csv(const Subject& subject) {
  std::string text = heading(subject);
  for (std::size_t i = 0; i < subject.plan.firings.size(); ++i) {
    for (const Level& level : subject.plan.firings[i].levels) {
      for (const PlacedPiece& piece : level.pieces) text += piece_row(subject, i, level, piece);
    }
  }
  text += left_out_rows(subject);
  // Spreadsheets take a file without this mark for the computer's old 8-bit letters.
  const bool plain_ascii = std::all_of(text.begin(), text.end(),
                                       [](char c) { return static_cast<unsigned char>(c) < 0x80; });
  return plain_ascii ? text : "\xEF\xBB\xBF" + text;
}

}  // namespace placer::report
