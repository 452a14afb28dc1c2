#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "workbook/broken_text.h"
#include "workbook/library.h"

namespace placer::workbook {
namespace {

using firing::ConeKind;

constexpr std::array kKinds = {ConeKind::self_supporting, ConeKind::self_supporting_iron_free,
                               ConeKind::large, ConeKind::large_iron_free, ConeKind::small};

/// One cell: "586 ABD" is 586 °C, seen in the sources A, B and D; M is memory; "-" is no value.
struct Cell {
  std::optional<Temperature> value;
  bool from_memory = false;
};

class ConeFile {
 public:
  ConeFile(const Node& root, Desk& desk) : desk_{desk} {
    const bool readable =
        words_are_known(root, "the table of cones",
                        {"cones", "about", "source", "sources", "tables", "seger", "superseded"},
                        {"cones", "source", "sources", "tables"}, desk);
    if (!readable) return;
    table_.source = text_of(root, "source");
    read_letters(root.find("sources"));
    for (const Node& node : items_of(root, "tables", desk_)) read_kind(node);
    if (const Node* node = root.find("seger")) read_seger(*node);
    if (const Node* node = root.find("superseded")) read_superseded(*node);
  }

  firing::ConeTable take() { return std::move(table_); }

 private:
  const std::vector<NodeEntry>& rows(const Node& map) {
    static const std::vector<NodeEntry> none;
    const Node* node = map.find("rows");
    if (node == nullptr) return none;
    if (node->kind == Node::Kind::map) return node->entries;
    desk_.mistake("kind", node->where, "\"rows\" takes cones, each with its cells: \"6\": [...]");
    return none;
  }

  void read_letters(const Node* sources) {
    if (sources == nullptr) return;
    if (sources->kind != Node::Kind::map) {
      desk_.mistake("kind", sources->where, "\"sources\" takes letters, each with its source");
      return;
    }
    for (const auto& [letter, what] : sources->entries) {
      if (letter.text.size() == 1 && what.kind == Node::Kind::scalar) {
        letters_ += letter.text;
      } else {
        desk_.mistake("kind", letter.where, "a source is one letter and its words");
      }
    }
  }

  Cell read_cell(const Node& node) {
    const std::string_view text = trimmed(node.text);
    if (node.kind == Node::Kind::scalar && text == "-") return {};
    const std::size_t blank = text.find(' ');
    const auto number = plain_decimal(text.substr(0, blank));
    const std::string_view letters =
        blank == std::string_view::npos ? "" : trimmed(text.substr(blank));
    const bool known =
        !letters.empty() && letters.find_first_not_of(letters_) == std::string_view::npos;
    if (node.kind != Node::Kind::scalar || !number || !known || *number < 500 || *number > 2100) {
      desk_.mistake("number", node.where,
                    fmt::format("\"{}\" is no cell: a temperature in C and the letters of its "
                                "sources, for example 1222 DF, or \"-\"",
                                shortened(node.text)));
      return {};
    }
    return {Temperature{*number}, letters.find('M') != std::string_view::npos};
  }

  std::vector<Cell> read_cells(const Node& node, std::size_t wanted) {
    std::vector<Cell> cells;
    if (node.kind != Node::Kind::list || node.items.size() != wanted) {
      desk_.mistake("kind", node.where, fmt::format("{} cells in brackets are needed", wanted));
    } else {
      for (const Node& item : node.items) cells.push_back(read_cell(item));
    }
    cells.resize(wanted);
    return cells;
  }

  std::vector<Ramp> read_rates(const Node& node) {
    std::vector<Ramp> rates;
    for (const Node& item : items_of(node, "rates", desk_)) {
      const auto read = read_quantity(item.text, Measure::rate, desk_.units);
      const double rate = read.quantity ? read.quantity->value : 0;
      if (rate <= 0 || rate > 1000 || (!rates.empty() && rate <= rates.back().kelvin_per_hour)) {
        desk_.mistake("number", item.where, "rates rise, in C/h, for example [15, 60, 150]");
      } else {
        rates.push_back({rate});
      }
    }
    return rates;
  }

  void read_kind(const Node& node) {
    if (!words_are_known(node, "a table of cones", {"kind", "rates", "rows"},
                         {"kind", "rates", "rows"}, desk_)) {
      return;
    }
    const std::string kind = text_of(node, "kind");
    const auto found =
        std::ranges::find_if(kKinds, [&](ConeKind k) { return to_string(k) == kind; });
    const std::vector<Ramp> rates = read_rates(node);
    if (found == kKinds.end()) {
      desk_.mistake("choice", node.where, fmt::format("no such kind of cone: \"{}\"", kind));
      return;
    }
    const Node* kind_rates = node.find("rates");
    if (kind_rates == nullptr || rates.size() != kind_rates->items.size()) return;
    const std::size_t before = table_.cones.size();
    for (const auto& [name, cells] : rows(node)) add_cone(name, cells, *found, rates);
    tell_disorder(before, node);
  }

  void add_cone(const Node& name, const Node& cells, ConeKind kind,
                const std::vector<Ramp>& rates) {
    firing::Cone cone{name.text, kind, {}};
    const std::vector<Cell> read = read_cells(cells, rates.size());
    for (std::size_t i = 0; i < rates.size(); ++i) {
      if (read[i].value) cone.points.push_back({rates[i], *read[i].value, read[i].from_memory});
    }
    const bool rises = std::ranges::is_sorted(
        cone.points, {}, [](const firing::ConePoint& p) { return p.bends_at; });
    if (!rises) desk_.mistake("range", cells.where, "a faster rate needs a higher temperature");
    if (cone.points.empty()) {
      desk_.mistake("empty", cells.where, "a cone needs one temperature at least");
    } else {
      table_.cones.push_back(std::move(cone));
    }
  }

  /// Cones are listed from the coolest to the hottest.
  void tell_disorder(std::size_t from, const Node& node) {
    for (std::size_t i = from + 1; i < table_.cones.size(); ++i) {
      const firing::ConePoint& cooler = table_.cones[i - 1].points.back();
      const firing::ConePoint& hotter = table_.cones[i].points.back();
      if (cooler.rate != hotter.rate || cooler.bends_at < hotter.bends_at) continue;
      desk_.mistake("range", node.where,
                    fmt::format("cone {} must be hotter than cone {} before it",
                                table_.cones[i].name, table_.cones[i - 1].name));
    }
  }

  void read_seger(const Node& node) {
    if (!words_are_known(node, "the Seger series", {"columns", "rows", "source"}, {"rows"},
                         desk_)) {
      return;
    }
    for (const auto& [name, cells] : rows(node)) {
      const std::vector<Cell> read = read_cells(cells, 3);
      table_.seger.push_back({name.text, read[0].value, read[1].value, read[2].value});
    }
  }

  void read_superseded(const Node& node) {
    if (!words_are_known(node, "the superseded chart", {"rows", "source"}, {"rows"}, desk_)) {
      return;
    }
    for (const auto& [name, cell] : rows(node)) {
      if (const Cell read = read_cell(cell); read.value) {
        table_.superseded.push_back({name.text, *read.value});
      }
    }
  }

  Desk& desk_;
  firing::ConeTable table_;
  std::string letters_;
};

}  // namespace

firing::ConeTable read_cone_table(const Node& root, Desk& desk) {
  return ConeFile{root, desk}.take();
}

}  // namespace placer::workbook
