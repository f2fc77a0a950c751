#pragma once
// A sentence for the keeper with its numbers still exact. Rules and estimates write Sentences; only report/ rounds the
// numbers, picks the reader's units and language. The English pattern is also the key under which a translation is found.

#include <initializer_list>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "quantities/heat.h"
#include "quantities/nitrogen.h"
#include "quantities/phrase.h"
#include "quantities/temperature.h"
#include "quantities/time.h"
#include "quantities/water.h"

namespace redd {

/// A nitrogen concentration to be shown on a basis, e.g. un-ionized ammonia as NH3.
struct ShownNitrogen {
  NitrogenConc value;
  NitrogenBasis basis;
};
/// A share, shown as a percentage.
struct Share {
  double fraction;
};
/// How likely a thing is, shown as chances in ten and never as certain.
struct Chance {
  double probability;
};
/// A number of things.
struct Number {
  long long count;
};
/// A plain measured number with its unit word, e.g. {0.31, "mg/L"}. Shown to two significant digits.
struct Measured {
  double value;
  Phrase unit{};
};
/// A number to be reckoned with by hand, shown with just these decimals, e.g. {58.4, 1, "°C-days"}.
struct Exact {
  double value;
  int places = 0;
  Phrase unit{};
};
/// A ready word or phrase, or a name somebody gave, which no language changes.
struct Word {
  Phrase text;
};

/// A Conductance is shown as the power for one degree of the reader's: "5.8 W", in °F "3.2 W".
using Shown = std::variant<Temperature, TemperatureChange, Conductance, ShownNitrogen, Ph, Alkalinity, Hardness, OxygenConc, Volume, Mass,
                           ThermalSum, Days, Date, Instant, Share, Chance, Number, Measured, Exact, Word>;

/// Pattern with {0}, {1}, … (quantities/pattern.h) and what stands there. Every argument must appear in the pattern and the other way round.
struct Sentence {
  /// Where a further sentence begins in one that joined() made, and with which value.
  struct Seam {
    std::size_t at;
    std::size_t value;
  };
  std::string pattern{};
  std::vector<Shown> values{};
  std::vector<Seam> seams{};
  Sentence() = default;
  Sentence(std::string_view english) : pattern(english) {}
  Sentence(const char* english) : pattern(english) {}
  Sentence(std::string_view english, std::initializer_list<Shown> shown) : pattern(english), values(shown) {}
  bool empty() const { return pattern.empty(); }
};

/// Two sentences, or a beginning and what it begins, one after the other.
Sentence joined(Sentence first, const Sentence& second);
/// What joined() put together, each as it was: translations are found for the parts.
std::vector<Sentence> parts_of(const Sentence& sentence);

}  // namespace redd
