/// @file library.h
/// The files of schedules/: cone tables and profiles. Internal to workbook/.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "placer/workbook/studio.h"
#include "workbook/block.h"
#include "workbook/tree.h"

namespace placer::workbook {

/// Both tell every mistake at the desk; what they return then is partial.
firing::ConeTable read_cone_table(const Node& root, Desk& desk);
firing::Profile read_profile(const Node& root, const std::string& name, Desk& desk);

/// Tells a node that is no map, words not among `known` and words of `needed` that are missing.
/// @return whether it is a map
bool words_are_known(const Node& node, std::string_view what, const std::vector<std::string>& known,
                     const std::vector<std::string>& needed, Desk& desk);

/// The text of a word; "" when it is missing or no single value.
std::string text_of(const Node& map, std::string_view key);

/// The items of a word that takes a list; none when it is missing or, told, something else.
const std::vector<Node>& items_of(const Node& map, std::string_view key, Desk& desk);

}  // namespace placer::workbook
