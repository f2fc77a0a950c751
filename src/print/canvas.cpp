#include "print/detail/canvas.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace redd::print {
namespace {

/// The font the program's package depends on. Letters it lacks are taken from another one, where there is one.
constexpr const char* family = "DejaVu Sans";

}  // namespace

cairo_status_t gather(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

Canvas::Canvas(cairo_surface_t* surface) : surface_(surface), cairo_(cairo_create(surface)), fonts_(pango_cairo_font_map_new()) {
  // 72 dots an inch make pango's points cairo's units on every kind of surface; without hints the same words are the same width on all.
  pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(fonts_.get()), 72);
  context_.reset(pango_font_map_create_context(fonts_.get()));
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context_.get(), options);
  pango_context_set_round_glyph_positions(context_.get(), FALSE);
  cairo_font_options_destroy(options);
}

Canvas::~Canvas() {
  cairo_destroy(cairo_);
  cairo_surface_destroy(surface_);
}

bool Canvas::ok() const { return cairo_status(cairo_) == CAIRO_STATUS_SUCCESS && cairo_surface_status(surface_) == CAIRO_STATUS_SUCCESS; }

std::string Canvas::fault() const {
  const auto own = cairo_status(cairo_);
  return cairo_status_to_string(own != CAIRO_STATUS_SUCCESS ? own : cairo_surface_status(surface_));
}

void Canvas::finish() { cairo_surface_finish(surface_); }

Layout Canvas::words(const std::string& text, const Type& type, double width) const {
  Layout layout(pango_layout_new(context_.get()));
  pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family_static(font, family);
  pango_font_description_set_absolute_size(font, type.size * PANGO_SCALE);
  pango_font_description_set_weight(font, type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  pango_layout_set_line_spacing(layout.get(), static_cast<float>(type.line_spacing));
  pango_layout_set_alignment(layout.get(), type.align == Align::left ? PANGO_ALIGN_LEFT : type.align == Align::centre ? PANGO_ALIGN_CENTER : PANGO_ALIGN_RIGHT);
  if (width > 0) {
    pango_layout_set_width(layout.get(), static_cast<int>(std::ceil(width * PANGO_SCALE)));
    // A word longer than the line is broken too, rather than to leave the sheet.
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  }
  return layout;
}

Extent Canvas::extent(const Layout& layout) {
  PangoRectangle box;
  pango_layout_get_extents(layout.get(), nullptr, &box);
  return {static_cast<double>(box.width) / PANGO_SCALE, static_cast<double>(box.height) / PANGO_SCALE};
}

void Canvas::draw(const Layout& layout, double x, double y, const Type& type) {
  if (pango_layout_get_width(layout.get()) < 0 && type.align != Align::left) {
    const double width = extent(layout).width;
    x -= type.align == Align::right ? width : width / 2;
  }
  source(type.colour);
  cairo_move_to(cairo_, x, y);
  pango_cairo_show_layout(cairo_, layout.get());
}

namespace {

/// Baselines of all lines, from the layout's top; what pango calls a line's own box leaves out part of the room between lines.
std::vector<double> baselines(PangoLayout* layout) {
  std::vector<double> all;
  PangoLayoutIter* at = pango_layout_get_iter(layout);
  do all.push_back(static_cast<double>(pango_layout_iter_get_baseline(at)) / PANGO_SCALE);
  while (pango_layout_iter_next_line(at));
  pango_layout_iter_free(at);
  return all;
}

}  // namespace

double Canvas::height_of_lines(const Layout& layout, int from, int until) {
  const auto all = baselines(layout.get());
  if (from >= until || all.empty()) return 0;
  const double one = extent(layout).height - (all.back() - all.front());
  return one + all[static_cast<std::size_t>(until) - 1] - all[static_cast<std::size_t>(from)];
}

double Canvas::draw_lines(const Layout& layout, double x, double y, const Type& type, int from, int until) {
  source(type.colour);
  const auto all = baselines(layout.get());
  for (int index = from; index < until; ++index) {
    cairo_move_to(cairo_, x, y + all.front() + all[static_cast<std::size_t>(index)] - all[static_cast<std::size_t>(from)]);
    pango_cairo_show_layout_line(cairo_, pango_layout_get_line_readonly(layout.get(), index));
  }
  return height_of_lines(layout, from, until);
}

Extent Canvas::write(const std::string& text, double x, double y, const Type& type, double width) {
  const Layout layout = words(text, type, width);
  draw(layout, x, y, type);
  return extent(layout);
}

void Canvas::use(const Pen& pen) {
  source(pen.colour);
  cairo_set_line_width(cairo_, pen.width);
  cairo_set_dash(cairo_, pen.dash.data(), static_cast<int>(pen.dash.size()), 0);
}

void Canvas::path(const std::vector<std::pair<double, double>>& points) {
  cairo_new_path(cairo_);
  for (const auto& [x, y] : points) cairo_line_to(cairo_, x, y);
}

void Canvas::line(double x1, double y1, double x2, double y2, const Pen& pen) { polyline({{x1, y1}, {x2, y2}}, pen); }

void Canvas::polyline(const std::vector<std::pair<double, double>>& points, const Pen& pen) {
  path(points);
  use(pen);
  cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke(cairo_);
}

void Canvas::fill(const std::vector<std::pair<double, double>>& points, const Colour& colour, double opacity) {
  path(points);
  cairo_close_path(cairo_);
  source(colour, opacity);
  cairo_fill(cairo_);
}

void Canvas::hatch(const std::vector<std::pair<double, double>>& points, const Pen& pen, double apart) {
  if (points.empty()) return;
  double left = points[0].first, right = left, top = points[0].second, bottom = top;
  for (const auto& [x, y] : points) left = std::min(left, x), right = std::max(right, x), top = std::min(top, y), bottom = std::max(bottom, y);
  cairo_save(cairo_);
  path(points);
  cairo_close_path(cairo_);
  cairo_clip(cairo_);
  use(pen);
  cairo_new_path(cairo_);
  // Begun at whole steps of the sheet, so that neighbours' lines meet.
  for (double x = std::floor((left - (bottom - top)) / apart) * apart; x < right; x += apart) {
    cairo_move_to(cairo_, x, bottom);
    cairo_line_to(cairo_, x + (bottom - top), top);
  }
  cairo_stroke(cairo_);
  cairo_restore(cairo_);
}

void Canvas::box(double x, double y, double width, double height, const Colour& colour) {
  cairo_rectangle(cairo_, x, y, width, height);
  source(colour);
  cairo_fill(cairo_);
}

void Canvas::round_path(double x, double y, double width, double height, double radius) {
  const double r = std::min({radius, width / 2, height / 2});
  constexpr double quarter = std::numbers::pi / 2;
  cairo_new_path(cairo_);
  cairo_arc(cairo_, x + width - r, y + r, r, -quarter, 0);
  cairo_arc(cairo_, x + width - r, y + height - r, r, 0, quarter);
  cairo_arc(cairo_, x + r, y + height - r, r, quarter, 2 * quarter);
  cairo_arc(cairo_, x + r, y + r, r, 2 * quarter, 3 * quarter);
  cairo_close_path(cairo_);
}

void Canvas::frame(double x, double y, double width, double height, const Pen& pen, double radius) {
  round_path(x, y, width, height, radius);
  use(pen);
  cairo_stroke(cairo_);
}

void Canvas::round_box(double x, double y, double width, double height, double radius, const Colour& colour) {
  round_path(x, y, width, height, radius);
  source(colour);
  cairo_fill(cairo_);
}

void Canvas::dot(double x, double y, double radius, const Colour& colour, const Pen* rim) {
  cairo_new_path(cairo_);
  cairo_arc(cairo_, x, y, radius, 0, 2 * std::numbers::pi);
  source(colour);
  if (!rim) {
    cairo_fill(cairo_);
    return;
  }
  cairo_fill_preserve(cairo_);
  use(*rim);
  cairo_stroke(cairo_);
}

void Canvas::tagged(const char* name, const std::function<void()>& drawing) {
  const bool pdf = cairo_surface_get_type(surface_) == CAIRO_SURFACE_TYPE_PDF;
  if (pdf) cairo_tag_begin(cairo_, name, nullptr);
  drawing();
  if (pdf) cairo_tag_end(cairo_, name);
}

void Canvas::clip(double x, double y, double width, double height, const std::function<void()>& drawing) {
  cairo_save(cairo_);
  cairo_rectangle(cairo_, x, y, width, height);
  cairo_clip(cairo_);
  drawing();
  cairo_restore(cairo_);
}

}  // namespace redd::print
