#include "workbook/tree.h"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <map>
#include <sstream>

#include "workbook/broken_text.h"
#include "workbook/lines.h"

namespace placer::workbook {
namespace {

constexpr int kMostLevels = 32;
constexpr int kMostNodes = 200'000;
constexpr std::size_t kMostBytes = 4'000'000;

/// Thrown to leave the reader when a limit is passed; the finding is already made.
struct Enough {};

/// Takes the reader's events and grows the tree from them.
class Grower : public YAML::EventHandler {
 public:
  Grower(std::string_view text, const std::string& file, std::vector<Finding>& findings)
      : text_{text}, file_{file}, lines_{text}, findings_{findings} {}

  Node take_root() { return std::move(root_); }
  int documents() const { return documents_; }
  const YAML::Mark& last_start() const { return last_start_; }

  void OnDocumentStart(const YAML::Mark& mark) override {
    ++documents_;
    last_start_ = mark;
    if (documents_ > 1) throw Enough{};
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    refuse_anchor(mark, anchor);
    Node node;
    node.where = place_of_nothing(mark);
    add(std::move(node));
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    tell("alias", mark,
         "\"*\" stands for something written elsewhere, and this file has no such "
         "short forms: write it out here, or put quotes round it");
    add(node_at(mark));
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    refuse_anchor(mark, anchor);
    refuse_tag(mark, tag);
    Node node = node_at(mark);
    node.kind = Node::Kind::scalar;
    node.text = value;
    measure_scalar(mark, node);
    add(std::move(node));
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(mark, tag, anchor, Node::Kind::list);
  }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(mark, tag, anchor, Node::Kind::map);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapEnd() override { close(); }

 private:
  /// A list or map that is still open, and the key that waits for its value.
  struct Open {
    Node node;
    std::optional<Node> key;
    std::map<std::string, int> lines_of_keys;
  };

  std::size_t byte_of(const YAML::Mark& mark) const {
    return std::min(static_cast<std::size_t>(std::max(mark.pos, 0)), text_.size());
  }
  char at(std::size_t byte) const { return byte < text_.size() ? text_[byte] : '\0'; }

  void tell(std::string code, const YAML::Mark& mark, std::string message,
            Severity severity = Severity::mistake) {
    const std::size_t byte = byte_of(mark);
    findings_.push_back({severity, std::move(code), std::move(message),
                         lines_.at(byte, word_length(text_, byte), file_), std::nullopt});
  }

  Node node_at(const YAML::Mark& mark) const {
    Node node;
    node.where = lines_.at(byte_of(mark), 1, file_);
    return node;
  }

  /// An empty value is reported at the next thing in the file: it belongs after its key instead.
  TextPos place_of_nothing(const YAML::Mark& mark) const {
    const std::size_t byte = byte_of(mark);
    const std::size_t length = word_length(text_, byte);
    const std::string_view word = text_.substr(byte, length);
    if (word == "~" || word == "null" || word == "Null" || word == "NULL") {
      return lines_.at(byte, length, file_);
    }
    if (!open_.empty() && open_.back().key) return open_.back().key->where;
    return lines_.at(byte, 1, file_);
  }

  void refuse_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) {
    if (anchor == 0) return;
    tell("alias", mark,
         "\"&\" gives a name for use elsewhere, and this file has no such short "
         "forms: leave it out, or put quotes round the value");
  }

  void refuse_tag(const YAML::Mark& mark, const std::string& tag) {
    const bool usual = tag.empty() || tag == "?" || tag == "!";
    if (usual && at(byte_of(mark)) != '!') return;
    tell("mark", mark, "a word that begins with \"!\" must be in quotes");
  }

  /// Where a scalar ends, whether it is quoted, and what went missing round it.
  void measure_scalar(const YAML::Mark& mark, Node& node) {
    const std::size_t byte = byte_of(mark);
    const char first = at(byte);
    node.quoted = first == '"' || first == '\'' || first == '|' || first == '>';
    if (node.quoted) {
      node.where = lines_.at(byte, quoted_length(text_, byte), file_);
      return;
    }
    if (text_.compare(byte, node.text.size(), node.text) != 0) {
      if (at(byte) != '&' && at(byte) != '!') refuse_two_lines(byte, node);
      return;
    }
    node.where = lines_.at(byte, node.text.size(), file_);
    warn_of_hash(byte + node.text.size(), node);
  }

  void refuse_two_lines(std::size_t byte, Node& node) {
    const int line = lines_.line_of(byte);
    const std::string_view whole = lines_.line(line);
    node.where = lines_.at(byte, whole.size() - (byte - lines_.start(line)), file_);
    findings_.push_back({Severity::mistake, "two-lines",
                         fmt::format("this runs on into the next line and reads \"{}\": is a \":\" "
                                     "or a \"-\" missing below? (a long text needs quotes)",
                                     shortened(node.text)),
                         node.where, std::nullopt});
  }

  /// `mug #2` is "mug" and a comment.
  void warn_of_hash(std::size_t end, const Node& node) {
    std::size_t i = end;
    while (at(i) == ' ' || at(i) == '\t') ++i;
    if (i == end || at(i) != '#') return;
    const char next = at(i + 1);
    if (next == ' ' || next == '\0' || next == '\n' || next == '\r' || next == '#') return;
    const std::size_t length = word_length(text_, i);
    findings_.push_back({Severity::look, "hash",
                         fmt::format("\"{0}\" is taken for a remark, so this reads \"{1}\": put "
                                     "quotes round it if \"{0}\" belongs to it, or a space after "
                                     "the \"#\" if it is a remark",
                                     text_.substr(i, length), shortened(node.text)),
                         lines_.at(i, length, file_),
                         fmt::format("\"{} {}\"", node.text, text_.substr(i, length))});
  }

  void open(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
            Node::Kind kind) {
    refuse_anchor(mark, anchor);
    refuse_tag(mark, tag);
    if (open_.size() >= kMostLevels) {
      tell("deep", mark, fmt::format("lists within lists go {} deep at most", kMostLevels));
      throw Enough{};
    }
    Node node = node_at(mark);
    node.kind = kind;
    open_.push_back({std::move(node), std::nullopt, {}});
  }

  void close() {
    Node node = std::move(open_.back().node);
    open_.pop_back();
    add(std::move(node));
  }

  void add(Node&& node) {
    if (++nodes_ > kMostNodes) {
      findings_.push_back({Severity::mistake, "large",
                           fmt::format("this file says more than {} things: split it", kMostNodes),
                           node.where, std::nullopt});
      throw Enough{};
    }
    if (open_.empty()) {
      root_ = std::move(node);
    } else if (open_.back().node.kind == Node::Kind::list) {
      open_.back().node.items.push_back(std::move(node));
    } else if (!open_.back().key) {
      take_key(std::move(node));
    } else {
      add_entry(open_.back(), std::move(node));
    }
  }

  /// `height: 68,5 cm` in braces is height: 68 and a word "5 cm": is the word the rest of a number?
  static bool goes_on_a_number(const Open& map, const Node& key) {
    if (key.quoted || key.text.find_first_of("0123456789") != 0 || map.node.entries.empty()) {
      return false;
    }
    const Node& before = map.node.entries.back().second;
    return before.kind == Node::Kind::scalar && !before.quoted && !before.text.empty() &&
           before.text.find_first_not_of("0123456789") == std::string::npos &&
           before.where.line == key.where.line && before.where.end_column + 1 == key.where.column;
  }

  static void add_entry(Open& map, Node&& node) {
    Node key = *std::move(map.key);
    map.key.reset();
    if (node.kind == Node::Kind::empty && goes_on_a_number(map, key)) {
      Node& before = map.node.entries.back().second;
      before.text += "," + key.text;
      before.joined = true;
      before.where.end_column = key.where.end_column;
      return;
    }
    map.node.entries.push_back({std::move(key), std::move(node)});
  }

  static std::string told_twice(const Node& key, int first_line) {
    const std::string word = shortened(key.text);
    if (first_line == key.where.line) {
      return fmt::format("\"{}\" is given twice in this line: keep one of them", word);
    }
    return fmt::format("\"{}\" is given twice, first in line {}: keep one of them", word,
                       first_line);
  }

  void take_key(Node&& key) {
    Open& map = open_.back();
    if (key.kind != Node::Kind::scalar) {
      findings_.push_back({Severity::mistake, "word", "a word must stand before this \":\"",
                           key.where, std::nullopt});
    } else if (goes_on_a_number(map, key)) {
      // Not a word of the map, unless something stands behind it.
    } else if (const auto [seen, added] = map.lines_of_keys.emplace(key.text, key.where.line);
               !added) {
      findings_.push_back(
          {Severity::mistake, "twice", told_twice(key, seen->second), key.where, std::nullopt});
    }
    map.key = std::move(key);
  }

  std::string_view text_;
  const std::string& file_;
  Lines lines_;
  std::vector<Finding>& findings_;
  Node root_;
  std::vector<Open> open_;
  int documents_ = 0, nodes_ = 0;
  YAML::Mark last_start_;
};

/// "\r\n" and "\r" become "\n", a byte order mark goes.
std::string plain_lines(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool pair = text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n';
    if (!pair) plain += text[i] == '\r' ? '\n' : text[i];
  }
  return plain;
}

void refuse_the_rest(const YAML::Mark& mark, const std::string& text, const std::string& file,
                     std::vector<Finding>& findings) {
  const Lines lines{text};
  std::size_t byte = std::min(static_cast<std::size_t>(std::max(mark.pos, 0)), text.size());
  const bool rule = std::string_view{text}.substr(byte).starts_with("---") ||
                    lines.line(lines.line_of(byte)).starts_with("---");
  findings.push_back(
      {Severity::mistake, rule ? "second" : "after-end",
       byte == 0 ? "the file begins with something else than a word and a \":\", for example  "
                   "studio: 1"
       : rule
           ? "a line of \"---\" begins a second file within the file: one studio, one file"
           : "from here on nothing can be read: this line belongs to no block above (look at its "
             "indentation, and at \"-\" and \":\")",
       lines.at(byte, word_length(text, byte), file), std::nullopt});
}

void read_events(const std::string& text, const std::string& file, Tree& tree) {
  std::istringstream stream{text};
  Grower grower{text, file, tree.findings};
  try {
    YAML::Parser reader{stream};
    reader.HandleNextDocument(grower);
    tree.root = grower.take_root();
    // Whatever is left over would be dropped in silence: it shows as a second document. Never a
    // third call: some broken texts begin a new document for ever.
    reader.HandleNextDocument(grower);
  } catch (const Enough&) {
    if (grower.documents() > 1) refuse_the_rest(grower.last_start(), text, file, tree.findings);
  } catch (const YAML::Exception& mistake) {
    if (grower.documents() > 1) {
      refuse_the_rest(grower.last_start(), text, file, tree.findings);
    } else {
      tree.findings.push_back(explain_break(
          mistake.msg, static_cast<std::size_t>(std::max(mistake.mark.pos, 0)), text, file));
    }
  }
}

}  // namespace

const Node* Node::find(std::string_view key) const {
  const auto found =
      std::ranges::find_if(entries, [&](const auto& entry) { return entry.first.text == key; });
  return found == entries.end() ? nullptr : &found->second;
}

Tree read_tree(std::string_view given, const std::string& file) {
  Tree tree;
  if (given.size() > kMostBytes) {
    tree.findings.push_back({Severity::mistake, "large",
                             fmt::format("this file is larger than {} MB: is it the right one?",
                                         kMostBytes / 1'000'000),
                             TextPos{file, 1, 1, 2}, std::nullopt});
    return tree;
  }
  if (first_not_utf8(given) == std::string_view::npos) {
    const std::string text = plain_lines(given);
    tree.findings = broken_characters(text, file);
    if (tree.findings.empty()) read_events(text, file, tree);
  } else {
    tree.findings = broken_characters(given, file);
  }
  std::ranges::stable_sort(tree.findings, [](const Finding& a, const Finding& b) {
    return std::pair{a.where.line, a.where.column} < std::pair{b.where.line, b.where.column};
  });
  return tree;
}

}  // namespace placer::workbook
