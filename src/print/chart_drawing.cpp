#include "print/detail/chart_drawing.h"

#include <algorithm>

namespace redd::print {
namespace {

using Sample = Chart::Sample;

const Type title_type{10.5, true, colours::ink, Align::left, 1.15};
const Type unit_type{8, false, colours::soft, Align::left, 1.15};
const Type mark_type{7.5, false, colours::soft, Align::left, 1.0};
const Type letter_type{7.5, true, colours::alarm, Align::left, 1.0};
const Type key_type{7.5, false, colours::soft, Align::left, 1.15};
const Type description_type{8.5, false, colours::ink, Align::left, 1.25};

const Pen grid_pen{colours::hair, 0.5, {}};
const Pen axis_pen{colours::strong, 0.8, {}};
const Pen limit_pen{colours::alarm, 0.9, {4, 2.5}};
const Pen harm_pen{colours::alarm, 0.9, {1.2, 2}};
const Pen plot_pen{colours::plot, 1.3, {}};
const Pen rim_pen{colours::plot, 0.9, {}};
const Pen open_pen{colours::plot, 0.9, {2, 1.6}};
const Pen setting_pen{colours::ink, 0.8, {5, 1.5, 1, 1.5}};
const Pen hatch_pen{colours::strong, 0.5, {}};

constexpr double sample_width = 18, sample_height = 8, key_row = 12.5, below_plot = 15;

std::string letter_of(std::size_t index) { return std::string(1, static_cast<char>('a' + index % 26)); }

}  // namespace

ChartDrawing::ChartDrawing(Canvas& canvas, const Chart& chart, double width, double plot_height)
    : canvas_(canvas), chart_(chart), width_(width), plot_height_(chart.empty.empty() ? plot_height : 0) {
  title_ = canvas.words(chart.title, title_type, width);
  if (!chart.unit.empty()) unit_ = canvas.words(chart.unit, unit_type, width);
  description_ = canvas.words(chart.empty.empty() ? chart.description : chart.empty, description_type, width);
  for (const auto& mark : chart.values) edge_ = std::max(edge_, Canvas::extent(canvas.words(mark.text, mark_type)).width + 8);
  place_key();
  height_ = Canvas::extent(title_).height + (unit_ ? Canvas::extent(unit_).height : 0) + (plot_height_ > 0 ? 6 + plot_height_ + below_plot : 0) + key_height_ + 4 + Canvas::extent(description_).height;
}

void ChartDrawing::place_key() {
  double x = 0, y = 0, tallest = key_row;
  const auto place = [&](std::size_t index, bool limit, const std::string& text) {
    KeyPlace one{index, limit, 0, 0, {}};
    const double room = width_ - sample_width - 5;
    one.words = canvas_.words(text, key_type, 0);
    Extent size = Canvas::extent(one.words);
    if (size.width > room) {
      one.words = canvas_.words(text, key_type, room);
      size = Canvas::extent(one.words);
    }
    const double taken = sample_width + 5 + size.width + 14;
    if (x > 0 && x + taken - 14 > width_) x = 0, y += tallest, tallest = key_row;
    one.x = x, one.y = y;
    x += taken;
    tallest = std::max(tallest, size.height + 3);
    key_.push_back(std::move(one));
  };
  for (std::size_t i = 0; i < chart_.key.size(); ++i) place(i, false, chart_.key[i].text);
  for (std::size_t i = 0; i < chart_.limits.size(); ++i)
    if (!chart_.limits[i].text.empty()) place(i, true, chart_.limits[i].text);
  key_height_ = key_.empty() ? 0 : y + tallest + 2;
}

double ChartDrawing::x_of(double day) const {
  const double share = (day - chart_.first_day) / std::max(1e-9, chart_.last_day - chart_.first_day);
  return left_ + std::clamp(share, 0.0, 1.0) * (right_ - left_);
}
double ChartDrawing::inside(double value) const { return std::clamp(value, chart_.low, chart_.high); }
double ChartDrawing::y_of(double value) const { return bottom_ - (inside(value) - chart_.low) / std::max(1e-12, chart_.high - chart_.low) * (bottom_ - top_); }

void ChartDrawing::draw(double x, double y) {
  canvas_.draw(title_, x, y, title_type);
  y += Canvas::extent(title_).height;
  if (unit_) {
    canvas_.draw(unit_, x, y, unit_type);
    y += Canvas::extent(unit_).height;
  }
  if (plot_height_ > 0) {
    left_ = x + edge_, right_ = x + width_ - 14, top_ = y + 6, bottom_ = top_ + plot_height_;
    canvas_.clip(left_ - 4, top_ - 6, right_ - left_ + 10, bottom_ - top_ + 8, [&] { draw_areas(); });
    draw_grid();
    draw_bands();
    draw_limits();
    draw_readings();
    draw_bars();
    canvas_.line(left_, bottom_, right_, bottom_, axis_pen);
    y = bottom_ + below_plot;
  }
  draw_key(x, y);
  canvas_.draw(description_, x, y + key_height_ + 4, description_type);
}

void ChartDrawing::draw_grid() {
  for (const auto& mark : chart_.values) {
    const double y = y_of(mark.at);
    canvas_.line(left_, y, right_, y, grid_pen);
    Type type = mark_type;
    type.align = Align::right;
    const Layout words = canvas_.words(mark.text, type);
    canvas_.draw(words, left_ - 5, y - Canvas::extent(words).height / 2, type);
  }
  double free = -1e9;
  for (const auto& mark : chart_.days) {
    const double x = x_of(mark.at);
    canvas_.line(x, top_, x, bottom_ + 3, grid_pen);
    const Layout words = canvas_.words(mark.text, mark_type);
    const double width = Canvas::extent(words).width;
    // Begun at its line; near the right end it would leave the sheet.
    const double start = std::min(x, right_ + 14 - width);
    if (start < free || start < x - width) continue;
    canvas_.draw(words, start, bottom_ + 4, mark_type);
    free = start + width + 6;
  }
}

void ChartDrawing::draw_areas() {
  const auto corners = [&](const Chart::Area& area) {
    const double a = x_of(area.from), b = x_of(area.to), high = y_of(area.high), low = y_of(area.low);
    return std::vector<std::pair<double, double>>{{a, low}, {b, low}, {b, high}, {a, high}};
  };
  for (const auto& area : chart_.comfort) canvas_.fill(corners(area), colours::comfort);
  for (const auto& area : chart_.usual) canvas_.hatch(corners(area), hatch_pen);
}

std::vector<std::pair<double, double>> ChartDrawing::middle(const std::vector<Chart::Band::Point>& points, bool steps) const {
  std::vector<std::pair<double, double>> line;
  for (const auto& point : points) {
    if (steps && !line.empty()) line.emplace_back(x_of(point.day), line.back().second);
    line.emplace_back(x_of(point.day), y_of(point.mid));
  }
  return line;
}

std::vector<std::pair<double, double>> ChartDrawing::outline(const Chart::Band& band) const {
  std::vector<std::pair<double, double>> high, low;
  for (const auto& point : band.points) {
    const double x = x_of(point.day);
    if (band.steps && !high.empty()) high.emplace_back(x, high.back().second), low.emplace_back(x, low.back().second);
    high.emplace_back(x, y_of(point.high));
    low.emplace_back(x, y_of(point.low));
  }
  high.insert(high.end(), low.rbegin(), low.rend());
  return high;
}

void ChartDrawing::draw_bands() {
  for (const auto& band : chart_.bands) {
    if (band.kind == Chart::Band::Kind::measured) canvas_.fill(outline(band), colours::band);
    else canvas_.hatch(outline(band), hatch_pen, 3);
  }
  for (const auto& band : chart_.bands)
    canvas_.polyline(middle(band.points, band.steps), band.kind == Chart::Band::Kind::measured ? plot_pen : open_pen);
  if (!chart_.setting.empty()) canvas_.polyline(middle(chart_.setting, true), setting_pen);
}

void ChartDrawing::draw_limits() {
  std::vector<std::pair<double, int>> placed;
  for (std::size_t i = 0; i < chart_.limits.size(); ++i) {
    const auto& limit = chart_.limits[i];
    if (limit.value < chart_.low || limit.value > chart_.high) continue;
    const double y = y_of(limit.value);
    canvas_.line(x_of(limit.from), y, x_of(limit.to), y, limit.text.empty() ? harm_pen : limit_pen);
    if (limit.text.empty()) continue;
    // Letters of lines that lie close together step aside, so that each can be read.
    int column = 0;
    while (std::ranges::any_of(placed, [&](const auto& other) { return other.second == column && std::abs(other.first - y) < 8; })) ++column;
    placed.emplace_back(y, column);
    canvas_.write(letter_of(i), right_ + 3 + 6 * column, y - 4.5, letter_type);
  }
}

void ChartDrawing::draw_readings() {
  const std::size_t count = chart_.readings.size();
  const double width = count > 60 ? 2.2 : count > 25 ? 3 : 4;
  for (const auto& reading : chart_.readings) {
    const double x = x_of(reading.day) - (reading.worked_out ? width / 2 : 0);
    const double low = y_of(reading.low), high = y_of(reading.high.value_or(chart_.high));
    const double tall = std::max(2.0, low - high), upper = std::min(high, low - 2);
    if (reading.worked_out) {
      canvas_.round_box(x - width / 2, upper, width, tall, width / 2, colours::paper);
      canvas_.frame(x - width / 2, upper, width, tall, rim_pen, width / 2);
    } else if (!reading.high) {
      canvas_.frame(x - width / 2, upper, width, tall, open_pen, 0);
    } else {
      canvas_.round_box(x - width / 2, upper, width, tall, width / 2, colours::plot);
    }
    if (!reading.high || *reading.high > chart_.high) canvas_.fill({{x - 3, top_ - 1}, {x + 3, top_ - 1}, {x, top_ - 6}}, colours::plot);
    const bool roomy = tall > 6;
    if (reading.high && !reading.worked_out && roomy) canvas_.dot(x, y_of(reading.mid), width / 2 - 0.5, colours::paper);
  }
}

void ChartDrawing::draw_bars() {
  const double wide = std::clamp((right_ - left_) / std::max(1.0, chart_.last_day - chart_.first_day) * 0.7, 1.6, 7.0);
  for (const auto& bar : chart_.bars) {
    const double x = x_of(bar.day), top = y_of(bar.count);
    if (bar.count > 0) canvas_.box(x - wide / 2, top, wide, bottom_ - top, colours::plot);
    else canvas_.dot(x, bottom_, 1.2, colours::paper, &rim_pen);
    const double y = y_of(bar.expected);
    canvas_.line(x - wide / 2 - 1.2, y, x + wide / 2 + 1.2, y, Pen{colours::ink, 0.7, {}});
    if (bar.signals) canvas_.fill({{x - 3, top - 7}, {x + 3, top - 7}, {x, top - 2}}, colours::alarm);
  }
}

void ChartDrawing::draw_key(double x, double y) {
  for (const auto& one : key_) {
    const double mid = y + one.y + 5;
    if (one.limit) {
      canvas_.line(x + one.x, mid, x + one.x + 11, mid, limit_pen);
      canvas_.write(letter_of(one.index), x + one.x + 13, mid - 4.5, letter_type);
    } else {
      draw_sample(chart_.key[one.index].sample, x + one.x, mid);
    }
    canvas_.draw(one.words, x + one.x + sample_width + 5, y + one.y, key_type);
  }
}

void ChartDrawing::draw_sample(Sample sample, double x, double y) {
  const double half = sample_height / 2, centre = x + sample_width / 2;
  const std::vector<std::pair<double, double>> corners{{x, y + half}, {x + sample_width, y + half}, {x + sample_width, y - half}, {x, y - half}};
  const auto across = [&](const Pen& pen) { canvas_.line(x, y, x + sample_width, y, pen); };
  switch (sample) {
    case Sample::reading:
      canvas_.round_box(centre - 2, y - half, 4, sample_height, 2, colours::plot);
      canvas_.dot(centre, y, 1.4, colours::paper);
      break;
    case Sample::open_reading:
      canvas_.frame(centre - 2, y - half + 2, 4, sample_height - 2, open_pen);
      canvas_.fill({{centre - 3, y - half + 1}, {centre + 3, y - half + 1}, {centre, y - half - 3}}, colours::plot);
      break;
    case Sample::worked_out: canvas_.frame(centre - 2, y - half, 4, sample_height, rim_pen, 2); break;
    case Sample::measured:
    case Sample::survival:
      canvas_.fill(corners, colours::band);
      across(plot_pen);
      break;
    case Sample::assumed:
    case Sample::planned:
      canvas_.hatch(corners, hatch_pen, 3);
      across(open_pen);
      break;
    case Sample::setting: across(setting_pen); break;
    case Sample::comfort: canvas_.fill(corners, colours::comfort); break;
    case Sample::limit: across(harm_pen); break;
    case Sample::usual: canvas_.hatch(corners, hatch_pen); break;
    case Sample::bar: canvas_.box(centre - 2, y - half, 4, sample_height, colours::plot); break;
    case Sample::expected: canvas_.line(centre - 4, y, centre + 4, y, Pen{colours::ink, 0.7, {}}); break;
    case Sample::signal: canvas_.fill({{centre - 3, y - 2.5}, {centre + 3, y - 2.5}, {centre, y + 2.5}}, colours::alarm); break;
  }
}

}  // namespace redd::print
