#include "report/svg.h"

#include <fmt/format.h>

#include <cmath>

namespace placer::report {
namespace {

/// Text for an XML file. Letters that XML cannot hold (controls) become a space.
std::string escaped(const std::string& words) {
  std::string out;
  for (const char letter : words) {
    switch (letter) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += static_cast<unsigned char>(letter) < 0x20 ? ' ' : letter;
    }
  }
  return out;
}

/// mm with at most two decimals, no trailing zeros.
std::string mm(double value) {
  const double rounded = std::round(value * 100) / 100;
  std::string out = fmt::format("{:.2f}", rounded == 0 ? 0.0 : rounded);
  while (out.back() == '0') out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out;
}

std::string pen_words(const Pen& pen) {
  if (pen.width <= 0) return "";
  std::string out = fmt::format(" stroke=\"#000\" stroke-width=\"{}\"", mm(pen.width));
  if (pen.dashes.empty()) return out;
  out += " stroke-dasharray=\"";
  for (std::size_t i = 0; i < pen.dashes.size(); ++i) out += (i ? " " : "") + mm(pen.dashes[i]);
  return out + "\"";
}

std::string fill_words(Fill fill) {
  if (fill == Fill::none) return " fill=\"none\"";
  return fill == Fill::white ? " fill=\"#fff\"" : " fill=\"#000\"";
}

std::string written(const Strokes& strokes) {
  std::string path;
  for (const auto& [from, to] : strokes.lines) {
    path += fmt::format("M{} {}L{} {}", mm(from.x), mm(from.y), mm(to.x), mm(to.y));
  }
  return fmt::format("<path d=\"{}\"{} fill=\"none\"/>\n", path, pen_words(strokes.pen));
}

std::string written(const Path& path) {
  std::string d;
  for (const Point corner : path.corners) {
    d += fmt::format("{}{} {}", d.empty() ? "M" : "L", mm(corner.x), mm(corner.y));
  }
  if (path.closed) d += "Z";
  return fmt::format("<path d=\"{}\"{}{}/>\n", d, pen_words(path.pen), fill_words(path.fill));
}

std::string written(const Circle& circle) {
  return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}{}/>\n", mm(circle.centre.x),
                     mm(circle.centre.y), mm(circle.radius), pen_words(circle.pen),
                     fill_words(circle.fill));
}

// textLength holds the words to the room measured for them, whatever font the viewer has.
std::string written(const Text& text) {
  const char* anchor = text.anchor == Anchor::left     ? ""
                       : text.anchor == Anchor::middle ? " text-anchor=\"middle\""
                                                       : " text-anchor=\"end\"";
  return fmt::format(
      "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{} textLength=\"{}\" "
      "lengthAdjust=\"spacingAndGlyphs\">{}</text>\n",
      mm(text.at.x), mm(text.at.y), mm(text.size), text.bold ? " font-weight=\"bold\"" : "", anchor,
      mm(text.width), escaped(text.words));
}

}  // namespace

std::string svg(const Page& page) {
  std::string out = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" "
      "viewBox=\"0 0 {0} {1}\" font-family=\"'DejaVu Sans', Verdana, sans-serif\" "
      "stroke-linejoin=\"round\">\n<title>{2}</title>\n"
      "<rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>\n",
      mm(page.width), mm(page.height), escaped(page.title));
  for (const Mark& mark : page.marks) {
    out += std::visit([](const auto& plain) { return written(plain); }, mark);
  }
  return out + "</svg>\n";
}

}  // namespace placer::report
