#pragma once
// Graphs of this tank with questions to them; the answers are worked out from the same numbers that are drawn. Start at graphs_of().

#include "inference/belief.h"
#include "inference/counts.h"
#include "lessons/replicates.h"

namespace redd::lessons {

/// All the lessons look at, of one moment.
struct LessonData {
  const records::SeasonSetup& season;
  std::span<const records::Record> records;   ///< effective
  const inference::Belief& belief;
  const inference::Counts& counts;
  const Replicates& replicates;
  const ZoneOffsets& zone;
  Instant now{};
  bool us_units = false;                      ///< °F and gallons on graphs and sheets
  Date today() const { return local_day(zone, now); }
};

struct GraphLine {
  std::string key{};
  Sentence name{};
  std::vector<Date> days{};
  std::vector<double> mid{}, low{}, high{};   ///< low and high may be empty: no band
  bool step = false;
};
struct GraphMark {
  Date day{};
  double low = 0, mid = 0, high = 0;
  Phrase text{};
};
struct GraphQuestion {
  enum class Kind { see, ask, check };
  Kind kind = Kind::see;
  Sentence question{};
  Sentence answer{};
};
struct Graph {
  std::string key{};
  Sentence title{};
  std::string unit{};
  Sentence summary{};                 ///< also what is missing, when there is nothing to draw
  std::vector<GraphLine> lines{};
  std::vector<GraphMark> marks{};
  std::vector<GraphQuestion> questions{};   ///< empty when the data do not suffice
};

/// Temperature, nitrogen, survival, readings as ranges; in this order, always all four.
std::vector<Graph> graphs_of(const LessonData& data);

/// Mean of the tank's readings of each day on which it was read, to a tenth of a degree as a class would write it down; oldest first.
struct DayTemperature {
  Date day{};
  double mean = 0;                            ///< °C, or °F with us_units
};
std::vector<DayTemperature> read_temperatures(const LessonData& data);

}  // namespace redd::lessons
