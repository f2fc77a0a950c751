#include "report/pooled_view.h"

#include <algorithm>
#include <cmath>
#include <utility>


namespace redd::report {
namespace {

using inference::ValueBehind;
using records::KitTest;
using records::TestUnit;
using wire::Json;

struct Shown {
  TestUnit unit;
  const Reader& reader;
  std::string unit_text() const { return unit == TestUnit::ph ? "" : say(reader, records::unit_text(unit)); }
  double printed(double canonical) const { return records::printed_value(unit, canonical); }
  void put(Json& out, const ValueBehind& found) const {
    out["low"] = printed(found.value.low);
    out["mid"] = printed(found.value.mid);
    out["high"] = found.open_above ? Json(nullptr) : Json(printed(found.value.high));
  }
  std::string text(const ValueBehind& found) const {
    const double low = printed(found.value.low), high = printed(found.value.high);
    if (unit == TestUnit::ph) return interval_text(low, high, found.open_above, 1, "", reader);
    return interval_text(low, high, found.open_above, unit_text(), reader);
  }
};

struct Alone {
  std::string raw_text{};
  double mid = 0;
};

std::string spread_text(const std::vector<Alone>& alone, const Reader& reader) {
  if (alone.size() < 2) return "";
  const auto [lowest, highest] = std::ranges::minmax_element(alone, {}, &Alone::mid);
  if (std::ranges::all_of(alone, [&](const Alone& one) { return one.raw_text == lowest->raw_text; })) return say(reader, "{0, plural, =2 {# teams: both} other {# teams: all}} read {1}.", alone.size(), lowest->raw_text);
  return say(reader, "{0} teams: the lowest read {1}, the highest {2}.", alone.size(), lowest->raw_text, highest->raw_text);
}

std::string sentence(std::size_t count, const std::string& text, bool disagree, const Reader& reader) {
  if (disagree) return say(reader, "These readings can hardly all be right, and nobody can say which is wrong: together they leave {0}. Test again with a clean vial.", text);
  return say(reader, count == 1 ? "This reading says {0}." : "Together they say {0}.", text);
}

}  // namespace

Json pooled_json(const std::vector<TeamReading>& readings, const Reader& reader) {
  std::vector<inference::TestReading> reads;
  for (const TeamReading& each : readings) reads.push_back(each.read);
  const auto together = inference::value_behind(reads);
  if (!together) return nullptr;
  const Shown shown{readings.front().read.test.unit, reader};
  Json list = Json::array();
  std::vector<Alone> alone;
  for (const TeamReading& each : readings) {
    const auto own = inference::value_behind(std::span(&each.read, 1));
    if (!own) continue;
    Json one{{"team", each.team}, {"test", each.read.test.key}, {"raw_text", text_of(records::reading_text(each.read.test, each.read.reading), reader)}};
    shown.put(one, *own);
    alone.push_back({one["raw_text"].get<std::string>(), own->value.mid});
    list.push_back(std::move(one));
  }
  const std::string text = shown.text(*together);
  Json out{{"text", text}, {"sentence", sentence(alone.size(), text, together->disagree, reader)}, {"spread_text", spread_text(alone, reader)},
           {"disagree", together->disagree}, {"open_above", together->open_above}, {"unit_text", shown.unit_text()}};
  shown.put(out, *together);
  out["alone"] = std::move(list);
  return out;
}

}  // namespace redd::report
