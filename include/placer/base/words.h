/// @file words.h
/// Near words: what somebody probably meant to type.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace placer {

/// Fewest letters to insert, drop, change or swap with the next one to turn `a` into `b`.
/// @source F. Damerau, "A technique for computer detection and correction of spelling errors",
///   CACM 7 (1964); restricted form (no letter moved twice)
int letters_apart(std::string_view a, std::string_view b);

/// The known word nearest to `word`, if it is near: at most a third of its letters apart (at least
/// one, at most three), capitals ignored. The first of equals.
std::optional<std::string> nearest_word(std::string_view word, std::span<const std::string> known);

}  // namespace placer
