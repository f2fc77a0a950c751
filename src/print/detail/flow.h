#pragma once
// Blocks of a document put on pages one below the other. A heading stays with what it heads, a row with itself.

#include "print/detail/canvas.h"
#include "print/document.h"

namespace redd::print {

struct PageSize {
  double width = 0, height = 0;
};

class Flow {
 public:
  /// In      pages: how many there are, for "Page 1 of 3"; 0: not known yet.
  Flow(Canvas& canvas, const Document& document, PageSize size, int pages);
  /// Draws all of it; how many pages there are.
  int draw();

 private:
  void put(const Heading& one);
  void put(const Paragraph& one);
  void put(const Facts& one);
  void put(const Table& one);
  void put(const Bullets& one);
  void put(const Pairs& one);
  void put(const Figure& one);
  void put(const Signature& one);

  /// The least room that a block needs to begin with.
  double beginning_of(std::size_t index) const;
  double width() const { return size_.width - 2 * side; }
  double bottom() const { return size_.height - foot_room; }
  void need(double height);
  void turn();
  void draw_foot();
  /// Words over the whole width or part of it, from page to page where need be.
  void text(const char* tag, const std::string& words, const Type& type, double indent = 0);

  double row_height(const Table& table, const std::vector<std::string>& cells, const Type& type) const;
  void row(const Table& table, const std::vector<std::string>& cells, bool head);
  void table_head(const Table& table);

  static constexpr double side = 54, head_room = 54, foot_room = 62;
  Canvas& canvas_;
  const Document& document_;
  PageSize size_;
  int pages_, page_ = 1;
  double y_ = head_room;
  std::size_t index_ = 0;
};

}  // namespace redd::print
