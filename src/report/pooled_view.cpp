#include "report/pooled_view.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "report/numbers.h"

namespace redd::report {
namespace {

using inference::ValueBehind;
using records::KitTest;
using records::TestUnit;
using wire::Json;

struct Shown {
  TestUnit unit;
  std::string unit_text() const { return unit == TestUnit::ph ? "" : records::unit_text(unit); }
  double printed(double canonical) const { return records::printed_value(unit, canonical); }
  void put(Json& out, const ValueBehind& found) const {
    out["low"] = printed(found.value.low);
    out["mid"] = printed(found.value.mid);
    out["high"] = found.open_above ? Json(nullptr) : Json(printed(found.value.high));
  }
  std::string text(const ValueBehind& found) const {
    const double low = printed(found.value.low), high = printed(found.value.high);
    if (unit == TestUnit::ph) return interval_text(low, high, found.open_above, 1, "");
    return interval_text(low, high, found.open_above, unit_text());
  }
};

struct Alone {
  std::string raw_text{};
  double mid = 0;
};

std::string teams_text(std::size_t count) { return std::to_string(count) + (count == 2 ? " teams: both" : " teams: all"); }

std::string spread_text(const std::vector<Alone>& alone) {
  if (alone.size() < 2) return "";
  const auto [lowest, highest] = std::ranges::minmax_element(alone, {}, &Alone::mid);
  if (std::ranges::all_of(alone, [&](const Alone& one) { return one.raw_text == lowest->raw_text; })) return teams_text(alone.size()) + " read " + lowest->raw_text + ".";
  return std::to_string(alone.size()) + " teams: the lowest read " + lowest->raw_text + ", the highest " + highest->raw_text + ".";
}

std::string sentence(std::size_t count, const std::string& text, bool disagree) {
  if (disagree) return "These readings can hardly all be right, and nobody can say which is wrong: together they leave " + text + ". Test again with a clean vial.";
  if (count == 1) return "This reading says " + text + ".";
  return "Together they say " + text + ".";
}

}  // namespace

Json pooled_json(const std::vector<TeamReading>& readings) {
  std::vector<inference::TestReading> reads;
  for (const TeamReading& each : readings) reads.push_back(each.read);
  const auto together = inference::value_behind(reads);
  if (!together) return nullptr;
  const Shown shown{readings.front().read.test.unit};
  Json list = Json::array();
  std::vector<Alone> alone;
  for (const TeamReading& each : readings) {
    const auto own = inference::value_behind(std::span(&each.read, 1));
    if (!own) continue;
    Json one{{"team", each.team}, {"test", each.read.test.key}, {"raw_text", records::reading_text(each.read.test, each.read.reading)}};
    shown.put(one, *own);
    alone.push_back({one["raw_text"].get<std::string>(), own->value.mid});
    list.push_back(std::move(one));
  }
  const std::string text = shown.text(*together);
  Json out{{"text", text}, {"sentence", sentence(alone.size(), text, together->disagree)}, {"spread_text", spread_text(alone)},
           {"disagree", together->disagree}, {"open_above", together->open_above}, {"unit_text", shown.unit_text()}};
  shown.put(out, *together);
  out["alone"] = std::move(list);
  return out;
}

}  // namespace redd::report
