#include "workbook/tree.h"

#include <catch2/catch.hpp>

#include "placer/base/random.h"
#include "support.h"

using namespace placer;
using namespace placer::workbook;
using namespace placer::workbook::testing;

namespace {

/// The code of the first finding, "" when there is none.
std::string first_code(const std::string& text) {
  const Tree tree = read_tree(text, "s.yaml");
  return tree.findings.empty() ? "" : tree.findings.front().code;
}

}  // namespace

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

TEST_CASE("values stay text as written") {
  const Tree tree = read_tree(
      "{a: 010, b: 0x10, c: yes, d: 9:30, e: 17 3/4 in, f: 6\", g: 5 x 4, h: '06', i: 1_000}", "s");
  REQUIRE(tree.findings.empty());
  CHECK(tree.root.find("a")->text == "010");
  CHECK(tree.root.find("b")->text == "0x10");
  CHECK(tree.root.find("c")->text == "yes");
  CHECK(tree.root.find("d")->text == "9:30");
  CHECK(tree.root.find("e")->text == "17 3/4 in");
  CHECK(tree.root.find("f")->text == "6\"");
  CHECK(tree.root.find("g")->text == "5 x 4");
  CHECK(tree.root.find("h")->text == "06");
  CHECK(tree.root.find("h")->quoted);
  CHECK_FALSE(tree.root.find("a")->quoted);
  CHECK(tree.root.find("i")->text == "1_000");
}

TEST_CASE("what the reader of YAML lets through in silence is told") {
  CHECK(first_code("- a\nb: 1\n") == "after-end");        // the second line would be dropped
  CHECK(first_code(",[") == "after-end");                 // would begin documents for ever
  CHECK(first_code("a: 1\na: 2\n") == "twice");           // both would be kept
  CHECK(first_code("a: 1\n---\nb: 2\n") == "second");     // the second would be dropped
  CHECK(first_code("a: 1\n...\nb: 2\n") == "after-end");  // likewise
  CHECK(first_code("a: &x 1\nb: *x\n") == "alias");
  CHECK(first_code("&x [*x]\n") == "alias");  // a tree within itself
  CHECK(first_code("a: !!int 1\n") == "mark");
  CHECK(first_code("? [a]\n: 1\n") == "word");
  CHECK(first_code("[a]: 1\n") == "word");
  CHECK(first_code("a: \xff\n") == "encoding");
  CHECK(first_code("a: \xc0\x80\n") == "encoding");      // a zero in too many bytes
  CHECK(first_code("a: \xed\xa0\x80\n") == "encoding");  // half of a pair
  CHECK(first_code("a: \xf4\x90\x80\x80\n") == "encoding");
  CHECK(first_code("a: \xe2\x82\n") == "encoding");  // cut short
  CHECK(first_code(std::string{"a: \0b\n", 6}) == "character");
  CHECK(first_code("a: \x04 b\n") == "character");  // would end the text for the reader
  CHECK(first_code("a:\n\tb: 1\n") == "tab");
  CHECK(first_code("- \ta: 1\n") == "tab");
  CHECK(first_code("a: b\n  c\n") == "two-lines");
}

TEST_CASE("what is well is let through") {
  CHECK(first_code("a: 1\t# a remark behind a tab\n").empty());
  CHECK(first_code("# a remark with a\ttab\na: 1\n").empty());
  CHECK(first_code("a: \"two\n  lines\"\n").empty());
  CHECK(first_code("a: >-\n  two\n  lines\n").empty());
  CHECK(first_code("a: \"*star\"\n").empty());
  CHECK(first_code("---\na: 1\n").empty());
  CHECK(first_code("a: 1\n...\n").empty());
  CHECK(first_code("\xEF\xBB\xBF"
                   "a: 1\n")
            .empty());
  CHECK(first_code("a: 1\r\nb: 2\r\n").empty());
  CHECK(first_code("a: mug # two\n").empty());
  CHECK(first_code("a: \"mug #2\"\n").empty());
  CHECK(first_code("").empty());
}

TEST_CASE("a hash that swallows a value is something to look at") {
  const Tree tree = read_tree("a: mug #2\n", "s.yaml");
  REQUIRE(tree.findings.size() == 1);
  CHECK(tree.findings[0].severity == Severity::look);
  CHECK(tree.findings[0].code == "hash");
  CHECK(tree.findings[0].suggestion == "\"mug #2\"");
  CHECK(tree.findings[0].where.column == 8);
}

TEST_CASE("columns count letters, not bytes, and a mark at the beginning counts for nothing") {
  const Tree tree = read_tree("\xEF\xBB\xBFname: Café, größer\nb: {c: é, d: x}\n", "s.yaml");
  REQUIRE(tree.findings.empty());
  CHECK(tree.root.find("name")->where.column == 7);
  CHECK(tree.root.find("name")->where.end_column == 19);
  CHECK(tree.root.find("b")->find("d")->where.column == 14);
}

TEST_CASE("an empty value is placed at its word, not at the next thing in the file") {
  const Tree tree = read_tree("a:\nb: ~\nc: {d: , e: 1}\n", "s.yaml");
  REQUIRE(tree.findings.empty());
  CHECK(tree.root.find("a")->kind == Node::Kind::empty);
  CHECK(tree.root.find("a")->where.line == 1);
  CHECK(tree.root.find("b")->where.column == 4);
  CHECK(tree.root.find("c")->find("d")->where.line == 3);
}

TEST_CASE("the places of quoted values hold their quotes") {
  const Tree tree = read_tree("a: \"x \\\" y\"\nb: 'it''s'\n", "s.yaml");
  REQUIRE(tree.findings.empty());
  CHECK(tree.root.find("a")->text == "x \" y");
  CHECK(tree.root.find("a")->where.end_column == 12);
  CHECK(tree.root.find("b")->text == "it's");
  CHECK(tree.root.find("b")->where.end_column == 11);
}

TEST_CASE("depth, number and size have limits") {
  CHECK(first_code(std::string(33, '[') + std::string(33, ']')) == "deep");
  CHECK(first_code(std::string(32, '[') + std::string(32, ']')).empty());
  CHECK(first_code(std::string(100'000, '[')) == "deep");
  CHECK(first_code(std::string(100'000, '{')) == "deep");
  std::string deep_block;
  for (int i = 0; i < 200; ++i)
    deep_block += std::string(static_cast<std::size_t>(i), ' ') + "a:\n";
  CHECK(first_code(deep_block) == "deep");
  std::string many = "a: [";
  for (int i = 0; i < 200'001; ++i) many += "1,";
  CHECK(first_code(many + "]\n") == "large");
  CHECK(first_code("a: \"" + std::string(4'000'000, 'x') + "\"\n") == "large");
}

TEST_CASE("nine lines that would unfold to millions are refused") {
  std::string bomb = "a: &a [x, x, x, x, x, x, x, x, x]\n";
  for (char c = 'b'; c < 'j'; ++c) {
    const std::string before(1, static_cast<char>(c - 1));
    bomb +=
        std::string(1, c) + ": &" + c + " [*" + before + ", *" + before + ", *" + before + "]\n";
  }
  CHECK(first_code(bomb) == "alias");
}
