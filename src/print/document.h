#pragma once
// A document as plain values, worded for its reader: what html.h and pdf.h show. Start at Document; season_document.h makes one.

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "print/chart.h"
#include "quantities/time.h"
#include "report/numbers.h"

namespace redd::print {

using Pair = std::pair<std::string, std::string>;

struct Heading {
  int level = 2;  ///< 2 or 3; the title is 1
  std::string text{};
};
struct Paragraph {
  enum class Look { plain, main, soft, boxed };
  std::string text{};
  Look look = Look::plain;
};
/// A name and what it is, side by side.
struct Facts {
  std::vector<Pair> rows{};
};
struct Table {
  std::string name{};
  std::vector<std::string> head{};
  std::vector<std::vector<std::string>> rows{};  ///< each as long as the head; the first cell names the row
  std::vector<double> shares{};                  ///< of the width, in sum 1
};
struct Bullets {
  std::vector<std::string> rows{};
};
/// Short pairs, such as a day and a number; several fit beside one another.
struct Pairs {
  std::string name{};
  std::vector<Pair> rows{};
};
struct Figure {
  Chart chart{};
};
/// Lines to write on by hand.
struct Signature {
  std::vector<std::string> labels{};
};
using Block = std::variant<Heading, Paragraph, Facts, Table, Bullets, Pairs, Figure, Signature>;

struct Document {
  std::string language = "en";
  std::string title{}, subject{}, author{};
  std::string foot{};          ///< at the foot of every page, beside its number
  Instant made{};
  report::Reader reader{};     ///< for "Page 1 of 3"
  std::vector<Block> blocks{};
};

}  // namespace redd::print
