#include "print/detail/flow.h"

#include <algorithm>
#include <cmath>

#include <cairo-pdf.h>

#include "print/detail/chart_drawing.h"

namespace redd::print {
namespace {

const Type title_type{17, true, colours::ink, Align::left, 1.1};
const Type heading_type{12.5, true, colours::plot, Align::left, 1.15};
const Type small_heading_type{9.5, true, colours::ink, Align::left, 1.15};
const Type plain_type{9, false, colours::ink, Align::left, 1.3};
const Type main_type{11, true, colours::ink, Align::left, 1.25};
const Type soft_type{8.5, false, colours::soft, Align::left, 1.25};
const Type cell_type{8.5, false, colours::ink, Align::left, 1.2};
const Type name_type{8.5, true, colours::ink, Align::left, 1.2};
const Type head_type{8, true, colours::soft, Align::left, 1.15};
const Type foot_type{7.5, false, colours::soft, Align::left, 1.0};

constexpr double gap = 6, cell_pad = 3.2, column_gap = 10, plot_height = 118;

const Type& type_of(Paragraph::Look look) {
  switch (look) {
    case Paragraph::Look::main: return main_type;
    case Paragraph::Look::soft: return soft_type;
    case Paragraph::Look::boxed: return name_type;
    case Paragraph::Look::plain: break;
  }
  return plain_type;
}

}  // namespace

Flow::Flow(Canvas& canvas, const Document& document, PageSize size, int pages) : canvas_(canvas), document_(document), size_(size), pages_(pages) {}

int Flow::draw() {
  text("H1", document_.title, title_type);
  canvas_.line(side, y_ + 2, size_.width - side, y_ + 2, Pen{colours::plot, 1.6, {}});
  y_ += 8;
  for (index_ = 0; index_ < document_.blocks.size() && canvas_.ok(); ++index_) std::visit([&](const auto& one) { put(one); }, document_.blocks[index_]);
  draw_foot();
  return page_;
}

void Flow::turn() {
  draw_foot();
  canvas_.next_page();
  ++page_;
  y_ = head_room;
}

void Flow::need(double height) {
  if (y_ + height > bottom() && y_ > head_room + 1) turn();
}

void Flow::draw_foot() {
  const double y = size_.height - 40;
  canvas_.line(side, y - 6, size_.width - side, y - 6, Pen{colours::hair, 0.6, {}});
  Type right = foot_type;
  right.align = Align::right;
  const std::string number = report::say(document_.reader, "Page {0} of {1}", page_, pages_);
  const Extent taken = canvas_.write(number, size_.width - side, y, right);
  const Layout name = canvas_.words(document_.foot, foot_type, width() - taken.width - 20);
  pango_layout_set_ellipsize(name.get(), PANGO_ELLIPSIZE_END);
  pango_layout_set_height(name.get(), -1);
  canvas_.draw(name, side, y, foot_type);
}

void Flow::text(const char* tag, const std::string& words, const Type& type, double indent) {
  const Layout layout = canvas_.words(words, type, width() - indent);
  const int lines = pango_layout_get_line_count(layout.get());
  canvas_.tagged(tag, [&] {
    for (int from = 0; from < lines;) {
      int until = from;
      while (until < lines && y_ + Canvas::height_of_lines(layout, from, until + 1) <= bottom()) ++until;
      if (until == from && y_ > head_room + 1) {
        turn();
        continue;
      }
      until = std::max(until, from + 1);  // a line taller than a page is drawn all the same
      y_ += canvas_.draw_lines(layout, side + indent, y_, type, from, until);
      from = until;
      if (from < lines) turn();
    }
  });
}

double Flow::beginning_of(std::size_t index) const {
  if (index >= document_.blocks.size()) return 0;
  const Block& block = document_.blocks[index];
  if (const auto* figure = std::get_if<Figure>(&block)) return ChartDrawing(canvas_, figure->chart, width(), plot_height).height();
  if (const auto* table = std::get_if<Table>(&block)) return row_height(*table, table->head, head_type) + (table->rows.empty() ? 0 : row_height(*table, table->rows[0], cell_type));
  if (const auto* heading = std::get_if<Heading>(&block)) return 22 + (heading->level == 2 ? 8 : 0) + beginning_of(index + 1);
  if (const auto* paragraph = std::get_if<Paragraph>(&block)) {
    const double own = Canvas::extent(canvas_.words(paragraph->text, type_of(paragraph->look), width())).height;
    const bool leads = index + 1 < document_.blocks.size() && (std::holds_alternative<Table>(document_.blocks[index + 1]) || std::holds_alternative<Figure>(document_.blocks[index + 1]));
    return std::min(own, 40.0) + (leads && own < 60 ? gap + beginning_of(index + 1) : 0);
  }
  return 40;
}

void Flow::put(const Heading& one) {
  const bool large = one.level == 2;
  const double before = large ? 12 : 6;
  const Type& type = large ? heading_type : small_heading_type;
  const double own = Canvas::extent(canvas_.words(one.text, type, width())).height;
  if (y_ > head_room + 1) y_ += before;
  need(own + gap + std::min(beginning_of(index_ + 1), bottom() - head_room - own - gap));
  if (large && pages_ > 0) {
    // The place of a bookmark counts from the upper left corner, as cairo does.
    const std::string place = "page=" + std::to_string(page_) + " pos=[0 " + std::to_string(static_cast<int>(y_)) + "]";
    cairo_pdf_surface_add_outline(canvas_.surface(), CAIRO_PDF_OUTLINE_ROOT, one.text.c_str(), place.c_str(), static_cast<cairo_pdf_outline_flags_t>(0));
  }
  text(large ? "H2" : "H3", one.text, type);
  y_ += large ? 3 : 1.5;
}

void Flow::put(const Paragraph& one) {
  const Type& type = type_of(one.look);
  if (one.look == Paragraph::Look::boxed) {
    const double height = Canvas::extent(canvas_.words(one.text, type, width() - 16)).height + 12;
    need(height);
    canvas_.frame(side, y_, width(), height, Pen{colours::soft, 1, {5, 3}});
    const double under = y_ + height;
    y_ += 6;
    text("P", one.text, type, 8);
    y_ = std::max(y_, under) + gap;
    return;
  }
  need(std::min(beginning_of(index_), bottom() - head_room));
  text("P", one.text, type);
  y_ += gap - 1;
}

void Flow::put(const Facts& one) {
  constexpr double columns = 3;
  const double wide = (width() - (columns - 1) * column_gap) / columns;
  for (std::size_t i = 0; i < one.rows.size();) {
    const std::size_t until = std::min(one.rows.size(), i + static_cast<std::size_t>(columns));
    double tallest = 0;
    const auto height = [&](const Pair& pair) { return Canvas::extent(canvas_.words(pair.first, soft_type, wide)).height + Canvas::extent(canvas_.words(pair.second, name_type, wide)).height; };
    for (std::size_t k = i; k < until; ++k) tallest = std::max(tallest, height(one.rows[k]));
    need(tallest);
    double x = side;
    for (; i < until; ++i, x += wide + column_gap)
      canvas_.tagged("P", [&] {
        const Extent name = canvas_.write(one.rows[i].first, x, y_, soft_type, wide);
        canvas_.write(one.rows[i].second, x, y_ + name.height, name_type, wide);
      });
    y_ += tallest + gap;
  }
}

double Flow::row_height(const Table& table, const std::vector<std::string>& cells, const Type& type) const {
  double tallest = 0;
  for (std::size_t i = 0; i < cells.size(); ++i)
    tallest = std::max(tallest, Canvas::extent(canvas_.words(cells[i], i == 0 && &type == &cell_type ? name_type : type, table.shares[i] * width() - column_gap)).height);
  return tallest + 2 * cell_pad;
}

void Flow::row(const Table& table, const std::vector<std::string>& cells, bool head) {
  double x = side;
  canvas_.tagged("TR", [&] {
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const double wide = table.shares[i] * width();
      canvas_.tagged(head || i == 0 ? "TH" : "TD", [&] { canvas_.write(cells[i], x, y_ + cell_pad, head ? head_type : i == 0 ? name_type : cell_type, wide - column_gap); });
      x += wide;
    }
  });
  y_ += row_height(table, cells, head ? head_type : cell_type);
  canvas_.line(side, y_, size_.width - side, y_, head ? Pen{colours::strong, 0.9, {}} : Pen{colours::hair, 0.6, {}});
}

void Flow::put(const Table& one) {
  need(beginning_of(index_));
  canvas_.tagged("Table", [&] {
    row(one, one.head, true);
    const double head = row_height(one, one.head, head_type);
    for (const auto& cells : one.rows) {
      const double height = row_height(one, cells, cell_type);
      if (height > bottom() - head_room - head) {
        // Taller than a page: below one another, from page to page.
        for (std::size_t i = 0; i < cells.size(); ++i) text("TR", one.head[i] + ": " + cells[i], cell_type, 8);
        y_ += cell_pad;
        continue;
      }
      if (y_ + height > bottom()) {
        turn();
        row(one, one.head, true);
      }
      row(one, cells, false);
    }
  });
  y_ += gap;
}

void Flow::put(const Bullets& one) {
  canvas_.tagged("L", [&] {
    for (const auto& words : one.rows) {
      need(14);
      canvas_.dot(side + 3, y_ + 6, 1.4, colours::soft);
      text("LI", words, plain_type, 11);
      y_ += 2.5;
    }
  });
  y_ += gap - 2;
}

void Flow::put(const Pairs& one) {
  double widest = 0;
  for (const auto& [name, words] : one.rows) widest = std::max(widest, Canvas::extent(canvas_.words(name, cell_type)).width + Canvas::extent(canvas_.words(words, name_type)).width + 14);
  const double columns = std::clamp(std::floor((width() + 16) / (widest + 16)), 1.0, 3.0);
  const double wide = (width() - (columns - 1) * 16) / columns;
  // Down the columns, as a calendar is read; a page holds what fits.
  const double tall = columns > 1 ? 15.5 : 0;
  canvas_.tagged("L", [&] {
    for (std::size_t done = 0; done < one.rows.size();) {
      const auto left = one.rows.size() - done;
      if (columns < 2) {
        const auto& [name, words] = one.rows[done];
        Type right = name_type;
        right.align = Align::right;
        const double height = std::max(Canvas::extent(canvas_.words(name, cell_type, wide * 0.45)).height, Canvas::extent(canvas_.words(words, right, wide * 0.5)).height) + 4;
        need(height);
        canvas_.tagged("LI", [&] {
          canvas_.write(name, side, y_ + 2, cell_type, wide * 0.45);
          canvas_.write(words, side + wide * 0.5, y_ + 2, right, wide * 0.5);
        });
        y_ += height;
        canvas_.line(side, y_, side + wide, y_, Pen{colours::hair, 0.6, {}});
        ++done;
        continue;
      }
      need(2 * tall);
      const auto fits = static_cast<std::size_t>(std::max(1.0, std::floor((bottom() - y_) / tall)));
      const auto rows = std::min(fits, static_cast<std::size_t>(std::ceil(static_cast<double>(left) / columns)));
      for (std::size_t k = 0; k < std::min(left, rows * static_cast<std::size_t>(columns)); ++k) {
        const auto& [name, words] = one.rows[done + k];
        const double x = side + static_cast<double>(k / rows) * (wide + 16), y = y_ + static_cast<double>(k % rows) * tall;
        Type right = name_type;
        right.align = Align::right;
        canvas_.tagged("LI", [&] {
          canvas_.write(name, x, y + 2, cell_type);
          canvas_.write(words, x + wide, y + 2, right);
        });
        canvas_.line(x, y + tall, x + wide, y + tall, Pen{colours::hair, 0.6, {}});
      }
      y_ += static_cast<double>(rows) * tall;
      done += std::min(left, rows * static_cast<std::size_t>(columns));
      if (done < one.rows.size()) turn();
    }
  });
  y_ += gap + 2;
}

void Flow::put(const Figure& one) {
  ChartDrawing drawing(canvas_, one.chart, width(), plot_height);
  y_ += 4;
  need(drawing.height());
  canvas_.tagged("Figure", [&] { drawing.draw(side, y_); });
  y_ += drawing.height() + 2 * gap;
}

void Flow::put(const Signature& one) {
  need(60);
  y_ += 40;
  const double wide = (width() - 24) / static_cast<double>(std::max<std::size_t>(1, one.labels.size()));
  double x = side;
  for (const auto& label : one.labels) {
    canvas_.line(x, y_, x + wide - 12, y_, Pen{colours::ink, 0.8, {}});
    canvas_.tagged("P", [&] { canvas_.write(label, x, y_ + 2, soft_type, wide - 12); });
    x += wide + 12;
  }
  y_ += 20;
}

}  // namespace redd::print
