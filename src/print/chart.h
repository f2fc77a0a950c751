#pragma once
// A chart as plain values, worded and in the reader's unit: what is drawn on paper, as SVG or as PNG. Start at Chart; print/charts.h makes one.

#include <optional>
#include <string>
#include <vector>

namespace redd::print {

/// Days are counted from 1970-01-01, the school's own clock: 0.5 is noon of the first.
struct Chart {
  /// A reading: all values between low and high fit it.
  struct Reading {
    double day = 0, low = 0, mid = 0;
    std::optional<double> high{};  ///< nothing: no upper end is known
    bool worked_out = false;       ///< from other readings; drawn hollow
  };
  /// A line with what it may be around it, unbroken from day to day.
  struct Band {
    enum class Kind { measured, assumed, planned };
    struct Point {
      double day = 0, low = 0, mid = 0, high = 0;
    };
    Kind kind = Kind::measured;
    bool steps = false;  ///< a value holds until the next point
    std::vector<Point> points{};
  };
  /// Between two values over some days: what is good for a stage, or what is usual.
  struct Area {
    double from = 0, to = 0, low = 0, high = 0;
  };
  /// A count on a day beside what was to be expected.
  struct Bar {
    double day = 0, count = 0, expected = 0;
    bool signals = false;
  };
  struct Limit {
    double value = 0;
    std::string text{};     ///< empty: explained in the key, without a letter
    double from = 0, to = 0;
  };
  struct Named {
    double at = 0;
    std::string text{};
  };
  enum class Sample { reading, open_reading, worked_out, measured, assumed, planned, setting, comfort, limit, usual, survival, bar, expected, signal };
  struct Key {
    Sample sample = Sample::reading;
    std::string text{};
  };

  std::string name{};         ///< "nitrite"
  std::string title{}, unit{};
  std::string description{};  ///< what the drawing shows, in a sentence or two
  std::string empty{};        ///< said instead of a drawing; empty: there is something to draw
  double first_day = 0, last_day = 1;
  double low = 0, high = 1;   ///< of the drawing's height, high > low
  std::vector<Area> comfort{}, usual{};
  std::vector<Band> bands{};
  std::vector<Band::Point> setting{};  ///< steps; only day and mid
  std::vector<Reading> readings{};
  std::vector<Bar> bars{};
  std::vector<Limit> limits{};         ///< inside the drawing
  std::vector<Named> days{}, values{}; ///< marks of the two axes
  std::vector<Key> key{};
};

}  // namespace redd::print
