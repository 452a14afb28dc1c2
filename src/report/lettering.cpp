#include "report/lettering.h"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include <map>
#include <set>
#include <stdexcept>
#include <tuple>

namespace placer::report {
namespace {

// Pango lays out in printer's points, in whole 1/1024 of them: far below what can be seen. (In
// other units its boxes for missing letters come out at a wrong size.)
constexpr double kUnitsPerMm = 72 / 25.4;

struct GObjectFree {
  void operator()(gpointer object) const { g_object_unref(object); }
};
struct DescriptionFree {
  void operator()(PangoFontDescription* d) const { pango_font_description_free(d); }
};
struct ConfigFree {
  void operator()(FcConfig* config) const { FcConfigDestroy(config); }
};

// Folders, and one rule that brings fonts made of pictures (emoji) to size: none of the machine's
// own rules may swap or reshape a font.
constexpr const char* kFolders = R"(<?xml version="1.0"?>
<fontconfig>
  <dir>/usr/share/fonts</dir>
  <dir>/usr/local/share/fonts</dir>
  <dir prefix="xdg">fonts</dir>
  <cachedir>/var/cache/fontconfig</cachedir>
  <cachedir prefix="xdg">fontconfig</cachedir>
  <match target="font">
    <test name="outline" compare="eq"><bool>false</bool></test>
    <edit name="by" mode="assign">
      <divide><name target="pattern">pixelsize</name><name target="font">pixelsize</name></divide>
    </edit>
    <edit name="matrix" mode="assign">
      <times>
        <name>matrix</name>
        <matrix><name>by</name><double>0</double><double>0</double><name>by</name></matrix>
      </times>
    </edit>
    <edit name="size" mode="assign">
      <divide><name>size</name><name>by</name></divide>
    </edit>
  </match>
</fontconfig>
)";

std::unique_ptr<FcConfig, ConfigFree> own_fonts() {
  std::unique_ptr<FcConfig, ConfigFree> config{FcConfigCreate()};
  if (!config) throw std::runtime_error{"the list of fonts could not be made"};
  FcConfigParseAndLoadFromMemory(config.get(), reinterpret_cast<const FcChar8*>(kFolders), FcFalse);
  FcConfigBuildFonts(config.get());
  const FcFontSet* fonts = FcConfigGetFonts(config.get(), FcSetSystem);
  if (fonts == nullptr || fonts->nfont == 0) {
    throw std::runtime_error{
        "no fonts are installed, so no sheet can be drawn; the package fonts-dejavu-core has the "
        "right ones"};
  }
  return config;
}

std::size_t first_letter_bytes(const std::string& words) {
  std::size_t end = 1;
  while (end < words.size() && (static_cast<unsigned char>(words[end]) & 0xC0U) == 0x80U) ++end;
  return end;
}

constexpr const char* kReplacement = "\xEF\xBF\xBD";  // U+FFFD, the mark for what is no letter

/// Bytes that are no UTF-8, controls, and code points that are no letters and never will be (the
/// drawing library refuses them) become marks; spaces of all kinds stay.
std::string cleaned(const std::string& words) {
  std::string out;
  const char* at = words.data();
  const char* const end = at + words.size();
  while (at < end) {
    const gunichar letter = g_utf8_get_char_validated(at, end - at);
    if (letter == static_cast<gunichar>(-1) || letter == static_cast<gunichar>(-2)) {
      out += kReplacement;
      ++at;
      continue;
    }
    const char* next = g_utf8_next_char(at);
    const bool no_letter = (letter & 0xFFFEU) == 0xFFFEU || (letter >= 0xFDD0 && letter <= 0xFDEF);
    if (letter < 0x20 || letter == 0x7F) {
      out += ' ';
    } else if (no_letter) {
      out += kReplacement;
    } else {
      out.append(at, next);
    }
    at = next;
  }
  return out;
}

std::vector<std::string> split_at_spaces(const std::string& words) {
  std::vector<std::string> parts;
  std::string part;
  for (const char letter : words) {
    if (letter != ' ') {
      part += letter;
    } else if (!part.empty()) {
      parts.push_back(part);
      part.clear();
    }
  }
  if (!part.empty()) parts.push_back(part);
  return parts;
}

bool is_number(const std::string& part) {
  return !part.empty() && part.find_first_not_of("0123456789") == std::string::npos;
}

bool is_unit(const std::string& part) {
  static const std::set<std::string> units{"mm", "in", "in)", "kg",  "h",    "min",
                                           "°C", "°F", "°C)", "°F)", "°C/h", "°F/h"};
  const std::string bare = part.substr(0, part.find_last_not_of(",.;:") + 1);
  return units.count(bare) > 0;
}

// "1/4": it stays with the whole inches before it.
bool is_fraction(const std::string& part) {
  return part.find('/') != std::string::npos && part.front() != '/' &&
         part.find_first_not_of("0123456789/") == std::string::npos;
}

// A number stays with its unit and a short aside in brackets with itself: "107 mm", "(4 1/4 in)".
std::vector<std::string> unbroken_parts(const std::string& words) {
  constexpr std::size_t kLongestAside = 16;
  std::vector<std::string> out;
  bool in_aside = false;
  for (const std::string& part : split_at_spaces(words)) {
    const bool fraction = is_fraction(part) && !out.empty() && is_number(out.back());
    const bool glue = !out.empty() && (is_unit(part) || in_aside || fraction) &&
                      out.back().size() + part.size() < kLongestAside;
    if (glue) {
      out.back() += ' ' + part;
    } else {
      out.push_back(part);
    }
    const std::size_t opens = out.back().rfind('(');
    in_aside = opens != std::string::npos && out.back().find(')', opens) == std::string::npos;
  }
  return out;
}

}  // namespace

struct Lettering::Fonts {
  std::unique_ptr<FcConfig, ConfigFree> config = own_fonts();
  std::unique_ptr<PangoFontMap, GObjectFree> map{
      pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT)};
  std::unique_ptr<PangoContext, GObjectFree> context;
  std::unique_ptr<PangoLayout, GObjectFree> layout;
  std::map<std::tuple<std::string, double, bool>, double> widths;

  Fonts() {
    if (!map) throw std::runtime_error{"the drawing library has no fonts"};
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map.get()), config.get());
    pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map.get()), 72);
    context.reset(pango_font_map_create_context(map.get()));
    pango_context_set_language(context.get(), pango_language_from_string("en"));
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context.get(), options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context.get(), FALSE);
    layout.reset(pango_layout_new(context.get()));
    pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  }

  void set(const std::string& words, double size, bool bold) {
    const std::unique_ptr<PangoFontDescription, DescriptionFree> font{pango_font_description_new()};
    pango_font_description_set_family_static(font.get(), "DejaVu Sans");
    pango_font_description_set_weight(font.get(), bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font.get(), size * kUnitsPerMm * PANGO_SCALE);
    pango_layout_set_font_description(layout.get(), font.get());
    pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
  }
};

Lettering::Lettering() : fonts_{std::make_unique<Fonts>()} {}
Lettering::~Lettering() = default;

double Lettering::width(const std::string& words, double size, bool bold) const {
  const auto known = fonts_->widths.find({words, size, bold});
  if (known != fonts_->widths.end()) return known->second;
  fonts_->set(words, size, bold);
  PangoRectangle logical;
  pango_layout_get_extents(fonts_->layout.get(), nullptr, &logical);
  const double mm = logical.width / static_cast<double>(PANGO_SCALE) / kUnitsPerMm;
  fonts_->widths.emplace(std::tuple{words, size, bold}, mm);
  return mm;
}

std::vector<std::string> Lettering::wrapped(const std::string& words, double size, bool bold,
                                            double most) const {
  std::vector<std::string> lines;
  std::string line;
  for (std::string word : unbroken_parts(cleaned(words))) {
    const std::string longer = line.empty() ? word : line + ' ' + word;
    if (width(longer, size, bold) <= most) {
      line = longer;
      continue;
    }
    if (!line.empty()) lines.push_back(line);
    line.clear();
    while (width(word, size, bold) > most && first_letter_bytes(word) < word.size()) {
      std::string head;
      do {
        const std::size_t letter = first_letter_bytes(word);
        head += word.substr(0, letter);
        word.erase(0, letter);
      } while (!word.empty() &&
               width(head + word.substr(0, first_letter_bytes(word)), size, bold) <= most);
      lines.push_back(head);
    }
    line = word;
  }
  if (!line.empty() || lines.empty()) lines.push_back(line);
  return lines;
}

double Lettering::size_to_fit(const std::string& words, bool bold, double most,
                              const std::vector<double>& sizes) const {
  for (const double size : sizes) {
    if (width(words, size, bold) <= most) return size;
  }
  return sizes.back();
}

Text Lettering::text(Point at, const std::string& words, double size, bool bold,
                     Anchor anchor) const {
  std::string clean = cleaned(words);
  const double wide = width(clean, size, bold);
  return {at, std::move(clean), size, anchor, bold, wide};
}

bool Lettering::can_draw(const std::string& words) const {
  fonts_->set(words, pt(10), false);
  return pango_layout_get_unknown_glyphs_count(fonts_->layout.get()) == 0;
}

std::vector<std::string> Lettering::missing_in(const std::string& words) const {
  std::vector<std::string> runs;
  if (can_draw(words)) return runs;
  bool in_run = false;
  for (std::size_t at = 0; at < words.size();) {
    const std::string letter = words.substr(at, first_letter_bytes(words.substr(at, 8)));
    at += letter.size();
    const bool missing = !can_draw(letter);
    if (missing && !in_run) runs.emplace_back();
    if (missing) runs.back() += letter;
    in_run = missing;
  }
  return runs;
}

void Lettering::draw(cairo_t* context, const Text& text) const {
  fonts_->set(text.words, text.size, text.bold);
  cairo_save(context);
  cairo_translate(context, box_of(text).low.x, text.at.y);
  cairo_scale(context, 1 / kUnitsPerMm, 1 / kUnitsPerMm);
  pango_cairo_update_layout(context, fonts_->layout.get());
  const int base = pango_layout_get_baseline(fonts_->layout.get());
  cairo_move_to(context, 0, -static_cast<double>(base) / PANGO_SCALE);
  pango_cairo_show_layout(context, fonts_->layout.get());
  cairo_restore(context);
  cairo_new_path(context);  // showing words leaves a point behind
}

}  // namespace placer::report
