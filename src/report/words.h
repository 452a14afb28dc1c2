/// @file words.h
/// Numbers and names as a potter reads them; the same on every sheet, page and screen.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "placer/report/report.h"

namespace placer::report {

/// "138 mm", "17.5 mm" (to the nearest half); for who reads inches "5 7/16 in (138 mm)".
std::string length_text(Length length, bool inches = false);
/// "5 7/16 in": to the nearest sixteenth.
std::string inches_text(Length length);
/// As length_text() without the other unit: "138 mm" or "5 7/16 in".
std::string one_length_text(Length length, bool inches);
/// "1285 °C / 2345 °F"; where Fahrenheit is read first, "2345 °F / 1285 °C".
std::string both_degrees(Temperature temperature, bool fahrenheit_first = false);
std::string celsius_text(Temperature temperature);     ///< "1285 °C"
std::string fahrenheit_text(Temperature temperature);  ///< "2345 °F"
/// "150 °C/h"; "as fast as it goes" when it is infinite.
std::string rate_text(Ramp rate);
/// "7 h 50", "2 h", "45 min", "0 min": to the nearest minute.
std::string hours_text(Hours hours);
/// "6.9 kg"; for who reads inches and pounds "15.2 lb (6.9 kg)".
std::string kilos_text(Mass mass, bool pounds = false);
/// "1 piece", "12 pieces".
std::string count_text(int count, std::string_view one);
/// The first letter large, if it is a Latin one.
std::string capitalised(std::string words);
/// "a", "a and b", "a, b and c".
std::string joined(const std::vector<std::string>& parts);

/// Columns that the words take on a terminal: wide letters (茶) take two, accents none.
int columns(std::string_view words);
/// The words with spaces after them up to `width` columns.
std::string padded(std::string_view words, int width);
/// The words on lines of at most `width` columns, broken at spaces.
std::vector<std::string> wrapped_lines(std::string_view words, int width);

/// "glaze", or "glaze, load 2 of 3" when that firing takes several loads of the kiln.
std::string firing_name(const Subject& subject, std::size_t firing);
/// "shelf 3", or "left, shelf 3" when the kiln has several columns; of a bridge "across, shelf 3".
std::string shelf_name(const Subject& subject, const Level& level);
/// The number of the highest shelf in a column, or across it; 0 when it has none.
int shelves_in_column(const Batch& batch, const KilnLoad& load, int column);
/// Likewise of the column, or the columns, that a level lies in.
int shelves_with(const Batch& batch, const KilnLoad& load, const Level& level);
/// "lay it when left, shelf 2 and right, shelf 2 are set": of a bridge; "" of others.
std::string when_to_lay(const Subject& subject, const KilnLoad& load, const Level& level);
/// "3 of 100 + 13 mm", "2 of 150 mm and 1 of 100 + 50 mm", "3 of 4 + 1/2 in"; "" when there are
/// none.
std::string posts_text(const Subject& subject, const std::vector<PlacedPost>& posts);
/// Pieces on a level or in a load, those inside stacks and lids too.
int pieces_on(const Level& level);
int pieces_in(const KilnLoad& load);
Mass mass_on(const Level& level);
/// True when no shelf stands over it in its column.
bool open_above(const KilnLoad& load, const Level& level);
/// Name of what stands there: "Mug", "Mug, stack of 3", "Teapot with Lid".
std::string piece_name(const Subject& subject, const PlacedPiece& piece);
/// "shino", or "no glaze".
std::string glaze_name(const Subject& subject, const PlacedPiece& piece);

}  // namespace placer::report
