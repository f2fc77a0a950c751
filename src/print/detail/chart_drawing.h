#pragma once
// A chart on a sheet: title, drawing, key, and in words what it shows. One drawing for PDF, SVG and PNG.

#include <vector>

#include "print/chart.h"
#include "print/detail/canvas.h"

namespace redd::print {

class ChartDrawing {
 public:
  /// In      width, plot_height: of the drawing itself, points.
  ChartDrawing(Canvas& canvas, const Chart& chart, double width, double plot_height);
  /// Of all of it.
  double height() const { return height_; }
  void draw(double x, double y);

 private:
  struct KeyPlace {
    std::size_t index = 0;
    bool limit = false;  ///< of chart.limits, else of chart.key
    double x = 0, y = 0;
    Layout words{};
  };
  void place_key();
  double x_of(double day) const;
  double y_of(double value) const;
  double inside(double value) const;
  void draw_grid();
  void draw_areas();
  void draw_bands();
  void draw_limits();
  void draw_readings();
  void draw_bars();
  void draw_key(double x, double y);
  void draw_sample(Chart::Sample sample, double x, double y);
  std::vector<std::pair<double, double>> outline(const Chart::Band& band) const;
  std::vector<std::pair<double, double>> middle(const std::vector<Chart::Band::Point>& points, bool steps) const;

  Canvas& canvas_;
  const Chart& chart_;
  double width_, plot_height_, height_ = 0, key_height_ = 0;
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0;  ///< of the plot, once it has its place
  double edge_ = 30;                                    ///< room for the values' marks
  Layout title_{}, unit_{}, description_{};
  std::vector<KeyPlace> key_{};
};

}  // namespace redd::print
