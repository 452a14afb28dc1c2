#include "workbook/other_words.h"

#include <algorithm>
#include <array>

#include "workbook/measure.h"

namespace placer::workbook {
namespace {

struct OtherWord {
  std::string_view place, other, own;
};

constexpr std::array kOtherWords = {
    OtherWord{"piece", "diameter", "across"},
    OtherWord{"piece", "dia", "across"},
    OtherWord{"piece", "diam", "across"},
    OtherWord{"piece", "ø", "across"},
    OtherWord{"piece", "round", "across"},
    OtherWord{"piece", "rectangle", "size"},
    OtherWord{"piece", "number", "count"},
    OtherWord{"piece", "quantity", "count"},
    OtherWord{"piece", "qty", "count"},
    OtherWord{"piece", "how many", "count"},
    OtherWord{"piece", "pieces", "count"},
    OtherWord{"piece", "have", "count"},
    OtherWord{"piece", "tall", "height"},
    OtherWord{"piece", "piece", "name"},
    OtherWord{"piece", "item", "name"},
    OtherWord{"piece", "what", "name"},
    OtherWord{"piece", "mass", "weight"},
    OtherWord{"piece", "thick", "wall"},
    OtherWord{"piece", "thickness", "wall"},
    OtherWord{"piece", "firings", "firing"},
    OtherWord{"piece", "stage", "measured"},
    OtherWord{"piece", "body", "clay"},
    OtherWord{"piece", "zone", "where"},
    OtherWord{"piece", "lid", "lid of"},
    OtherWord{"kiln", "shape", "inside"},
    OtherWord{"kiln", "chamber", "inside"},
    OtherWord{"kiln", "round", "inside"},
    OtherWord{"kiln", "size", "inside"},
    OtherWord{"kiln", "depth", "height"},
    OtherWord{"kiln", "deep", "height"},
    OtherWord{"kiln", "fuel", "heat"},
    OtherWord{"kiln", "opens", "loads from"},
    OtherWord{"kiln", "walls", "wall"},
    OtherWord{"shelf", "thickness", "thick"},
    OtherWord{"shelf", "count", "have"},
    OtherWord{"shelf", "number", "have"},
    OtherWord{"shelf", "shape", "size"},
    OtherWord{"shelf", "round", "size"},
    OtherWord{"post", "count", "have"},
    OtherWord{"post", "number", "have"},
    OtherWord{"post", "tall", "height"},
    OtherWord{"post", "size", "foot"},
    OtherWord{"firing", "type", "kind"},
    OtherWord{"firing", "temperature", "top"},
    OtherWord{"firing", "schedule", "profile"},
    OtherWord{"firing", "end", "finish"},
    OtherWord{"firing", "hold", "soak"},
    OtherWord{"firing", "segments", "most steps"},
    OtherWord{"clay", "shrinkage", "dry to fired"},
    OtherWord{"clay", "drying", "wet to dry"},
    OtherWord{"", "title", "name"},
    OtherWord{"", "oven", "kiln"},
    OtherWord{"", "fire", "firing"},
    OtherWord{"", "burn", "firing"},
    OtherWord{"", "boards", "shelves"},
    OtherWord{"", "shelfs", "shelves"},
    OtherWord{"", "ware", "pieces"},
    OtherWord{"", "pots", "pieces"},
    OtherWord{"", "stilts", "posts"},
    OtherWord{"", "props", "posts"},
    OtherWord{"wall", "thickness", "thick"},
    OtherWord{"handle", "width", "wide"},
    OtherWord{"room", "between", "gap"},
    OtherWord{"room", "above", "air"},
};

}  // namespace

std::optional<std::string> own_word(std::string_view place, std::string_view other) {
  const std::string word = lower_case(other);
  const auto found = std::ranges::find_if(
      kOtherWords, [&](const OtherWord& one) { return one.place == place && one.other == word; });
  if (found == kOtherWords.end()) return std::nullopt;
  return std::string{found->own};
}

}  // namespace placer::workbook
