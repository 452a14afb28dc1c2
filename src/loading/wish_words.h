/// @file wish_words.h
/// Wishes said as the studio file says them, with their place in it.
#pragma once

#include <string>

#include "placer/model/batch.h"

namespace placer::loading {

/// "line 12", or "line 3 of pieces.csv" when that is another file than the kiln's; "" unknown.
std::string line_words(const Batch& batch, const TextPos& where);
/// `"where: high" (line 12)`; without the line when it is not known.
std::string wish_words(const Batch& batch, const std::string& asked, const TextPos& where);
/// "Bottle (line 41)".
std::string piece_words(const Batch& batch, const PieceKind& piece);

/// As written after "where:" and "side:", and as said of a place.
const char* word(Zone zone);
const char* word(Side side);
const char* place_words(Zone zone);
const char* place_words(Side side);

/// Why a kind can not stand in that third of the chamber at all; "" when it can.
std::string out_of_zone(const Batch& batch, Length height, Zone zone);
/// Why a piece can not stand at that place on any shelf: what is in the way.
std::string in_the_way(const Batch& batch, const PieceKind& piece, int load);

}  // namespace placer::loading
