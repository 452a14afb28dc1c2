#include "workbook/tree.h"

#include <catch2/catch.hpp>
using namespace placer;
using namespace placer::workbook;

TEST_CASE("a sound text becomes a tree with places") {
  const Tree tree = read_tree("studio: 1\npieces:\n  - {name: Mug, cone: 06}\n", "s.yaml");
  REQUIRE(tree.findings.empty());
  const Node* pieces = tree.root.find("pieces");
  REQUIRE(pieces != nullptr);
  REQUIRE(pieces->items.size() == 1);
  const Node* cone = pieces->items[0].find("cone");
  REQUIRE(cone != nullptr);
  CHECK(cone->text == "06");
  CHECK(cone->where.line == 3);
  CHECK(cone->where.column == 23);
  CHECK(cone->where.end_column == 25);
}
