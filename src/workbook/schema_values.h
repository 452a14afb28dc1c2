/// @file schema_values.h
/// JSON Schema of the values that words take. Internal to workbook/.
///
/// Where a value may be of several types, each keyword judges its own type only ("pattern" texts,
/// "minimum" numbers, "items" lists). So one schema does for all of them, and an editor has one
/// message to show; ways beside each other are kept for blocks.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "workbook/vocabulary.h"

namespace placer::workbook {

/// A keyword and its value in JSON.
using SchemaEntry = std::pair<std::string, std::string>;
using SchemaEntries = std::vector<SchemaEntry>;

/// The keyword "type" for one or several types.
SchemaEntry type(const std::vector<std::string>& types);
/// Text that the expression fits as a whole, blanks at its ends left out.
SchemaEntries matching(const std::string& expression);
/// Under what name the words of a place are defined.
std::string definition_name(std::string_view place);
/// What a word takes, lists and blocks included.
SchemaEntries value_of(const VocabularyRow& row);

}  // namespace placer::workbook
