#pragma once
// A sheet to draw on, be it PDF, SVG or PNG: cairo with pango for the words. Lengths are points (1/72 inch), y grows downwards.
// Errors are kept by cairo and asked for once a page with ok(): a surface that failed gives a broken file, and no exception.

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include <cairo.h>
#include <pango/pangocairo.h>

namespace redd::print {

struct Colour {
  double red = 0, green = 0, blue = 0;
};
/// All but the grid are told apart in grey too: by dash, mark or hatching.
namespace colours {
inline constexpr Colour ink{0.10, 0.15, 0.17}, soft{0.33, 0.40, 0.42}, hair{0.82, 0.85, 0.86}, strong{0.55, 0.61, 0.63}, paper{1, 1, 1};
inline constexpr Colour plot{0.06, 0.36, 0.44}, band{0.74, 0.86, 0.89}, comfort{0.91, 0.94, 0.89}, alarm{0.66, 0.20, 0.13}, shade{0.955, 0.965, 0.965};
}  // namespace colours

struct Pen {
  Colour colour = colours::ink;
  double width = 1;
  std::vector<double> dash{};
};

enum class Align { left, centre, right };
struct Type {
  double size = 9;
  bool bold = false;
  Colour colour = colours::ink;
  Align align = Align::left;
  double line_spacing = 1.25;
};

struct Extent {
  double width = 0, height = 0;
};

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};
using Layout = std::unique_ptr<PangoLayout, Unref>;

/// What cairo writes is gathered here.
cairo_status_t gather(void* bytes, const unsigned char* data, unsigned int length);

class Canvas {
 public:
  /// Takes the surface for its own.
  explicit Canvas(cairo_surface_t* surface);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  bool ok() const;
  /// What went wrong, in cairo's words.
  std::string fault() const;
  cairo_surface_t* surface() const { return surface_; }
  void next_page() { cairo_show_page(cairo_); }
  /// Ends the drawing; ok() afterwards says whether all of it was written.
  void finish();

  /// Words broken to a width (0: not broken), to be measured and then drawn.
  Layout words(const std::string& text, const Type& type, double width = 0) const;
  static Extent extent(const Layout& layout);
  /// Draws with the upper left corner at (x, y). With a width of 0 the text begins, is centred or ends at x.
  void draw(const Layout& layout, double x, double y, const Type& type);
  /// Draws the lines `from` to `until` of it, the first of them at y; what they take in height.
  double draw_lines(const Layout& layout, double x, double y, const Type& type, int from, int until);
  static double height_of_lines(const Layout& layout, int from, int until);
  Extent write(const std::string& text, double x, double y, const Type& type, double width = 0);

  void line(double x1, double y1, double x2, double y2, const Pen& pen);
  void polyline(const std::vector<std::pair<double, double>>& points, const Pen& pen);
  void fill(const std::vector<std::pair<double, double>>& points, const Colour& colour, double opacity = 1);
  /// Slanting lines inside a closed shape: seen where colour is not.
  void hatch(const std::vector<std::pair<double, double>>& points, const Pen& pen, double apart = 4);
  void box(double x, double y, double width, double height, const Colour& colour);
  void frame(double x, double y, double width, double height, const Pen& pen, double radius = 0);
  void round_box(double x, double y, double width, double height, double radius, const Colour& colour);
  void dot(double x, double y, double radius, const Colour& colour, const Pen* rim = nullptr);

  /// What is drawn meanwhile belongs to this element of the document's structure ("H1", "P", "Table"); only PDF keeps it.
  void tagged(const char* name, const std::function<void()>& drawing);

  void clip(double x, double y, double width, double height, const std::function<void()>& drawing);

 private:
  void source(const Colour& colour, double opacity = 1) { cairo_set_source_rgba(cairo_, colour.red, colour.green, colour.blue, opacity); }
  void use(const Pen& pen);
  void path(const std::vector<std::pair<double, double>>& points);
  void round_path(double x, double y, double width, double height, double radius);

  cairo_surface_t* surface_;
  cairo_t* cairo_;
  std::unique_ptr<PangoFontMap, Unref> fonts_;
  std::unique_ptr<PangoContext, Unref> context_;
};

}  // namespace redd::print
