#include "print/chart_file.h"

#include <cmath>

#include <cairo-svg.h>

#include "print/detail/chart_drawing.h"
#include "print/detail/markup.h"

namespace redd::print {
namespace {

constexpr double width = 540, margin = 14, plot_height = 210, dots_a_point = 8.0 / 3.0;

Problem not_drawn(const std::string& why) { return {"not_drawn", "", said("The chart could not be drawn: {0}.", why)}; }

/// How tall the chart comes out, found on a sheet that nobody sees.
double height_of(const Chart& chart) {
  Canvas canvas(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, nullptr));
  return std::ceil(ChartDrawing(canvas, chart, width - 2 * margin, plot_height).height() + 2 * margin);
}

bool drawn(Canvas& canvas, const Chart& chart, double height) {
  canvas.box(0, 0, width, height, colours::paper);
  ChartDrawing(canvas, chart, width - 2 * margin, plot_height).draw(margin, margin);
  const bool good = canvas.ok();
  canvas.finish();
  return good && canvas.ok();
}

/// Title and description behind the opening tag that cairo wrote.
Result<std::string> told(std::string svg, const Chart& chart) {
  const auto tag = svg.find("<svg ");
  const auto end = tag == std::string::npos ? tag : svg.find('>', tag);
  if (end == std::string::npos) return not_drawn("no <svg> was written");
  const std::string title = chart.unit.empty() ? chart.title : chart.title + " (" + chart.unit + ")";
  // cairo numbers all surfaces of a process: the same chart would never give the same bytes.
  for (auto at = svg.find("<g id=\"surface"); at != std::string::npos; at = svg.find("<g id=\"surface", at + 1)) svg.erase(at + 2, svg.find('"', at + 7) + 1 - (at + 2));
  svg.insert(end + 1, "\n<title id=\"title\">" + escaped(title) + "</title>\n<desc id=\"description\">" + escaped(chart.empty.empty() ? chart.description : chart.empty) + "</desc>");
  svg.insert(tag + 5, "role=\"img\" aria-labelledby=\"title description\" ");
  return svg;
}

}  // namespace

Result<std::string> svg_of(const Chart& chart) {
  const double height = height_of(chart);
  std::string bytes;
  {
    Canvas canvas(cairo_svg_surface_create_for_stream(gather, &bytes, width, height));
    if (!drawn(canvas, chart, height)) return not_drawn(canvas.fault());
  }
  return told(std::move(bytes), chart);
}

Result<std::string> png_of(const Chart& chart) {
  const double height = height_of(chart);
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(width * dots_a_point), static_cast<int>(std::ceil(height * dots_a_point)));
  cairo_surface_set_device_scale(surface, dots_a_point, dots_a_point);
  Canvas canvas(surface);
  canvas.box(0, 0, width, height + 1, colours::paper);
  ChartDrawing(canvas, chart, width - 2 * margin, plot_height).draw(margin, margin);
  if (!canvas.ok()) return not_drawn(canvas.fault());
  std::string bytes;
  if (const auto status = cairo_surface_write_to_png_stream(canvas.surface(), gather, &bytes); status != CAIRO_STATUS_SUCCESS) return not_drawn(cairo_status_to_string(status));
  return bytes;
}

}  // namespace redd::print
