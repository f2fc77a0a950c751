#include "report/feed_view.h"

#include "report/feed_words.h"
#include "report/wrapped.h"

namespace redd::report {
namespace {

using planning::FeedPlan;
using planning::FeedStage;
using wire::Json;

std::string_view stage_key(FeedStage stage) {
  switch (stage) {
    case FeedStage::waiting: return "waiting";
    case FeedStage::near: return "near";
    case FeedStage::pinch: return "pinch";
    case FeedStage::routine: return "routine";
  }
  broken_promise("stage_key", "unknown stage");
}

Json estimate(const Estimate<double>& e) { return {{"low", e.low}, {"mid", e.mid}, {"high", e.high}}; }
Json grams(const Estimate<Mass>& e) { return {{"low", e.low.g()}, {"mid", e.mid.g()}, {"high", e.high.g()}}; }
Json day_or_null(const std::optional<Date>& day) { return day ? Json(iso_from_date(*day)) : Json(nullptr); }

Json start_json(const FeedPlan& plan, const Reader& reader) {
  const auto day = [](biology::CalendarMoment at) { return iso_from_date(biology::day_of(at)); };
  return {{"mid", day(plan.swim_up.median)},
          {"window50", {{"from", day(plan.swim_up.low_50)}, {"to", day(plan.swim_up.high_50)}}},
          {"window90", {{"from", day(plan.swim_up.low_90)}, {"to", day(plan.swim_up.high_90)}}},
          {"swum_up_fraction", estimate(plan.swum_up_fraction)},
          {"counted", plan.counted.has_value()},
          {"since", day_or_null(plan.since)},
          {"first_weeks", plan.first_weeks},
          {"texts", start_texts(plan, reader)}};
}

Json ration_json(const FeedPlan& plan, const std::optional<planning::Ration>& ration, double share, const Reader& reader) {
  if (!ration) return nullptr;
  return {{"day", iso_from_date(ration->day)},
          {"planned_g", share * ration->planned.g()},
          {"wanted_g", ration->wanted.g()},
          {"most_g", ration->most.g()},
          {"returns_to_g", ration->planned.g()},
          {"spoons", ration->spoons ? Json(share * *ration->spoons) : Json(nullptr)},
          {"feedings", ration->feedings.wanted},
          {"least_feedings", ration->feedings.least},
          {"grain", say(reader, plan.grain)},
          {"fish_g", grams(ration->fish)},
          {"water_c", ration->water.c()},
          {"table_fraction_per_day", estimate(ration->table_fraction_per_day)},
          {"in_table", ration->in_table},
          {"text", ration->day == plan.today ? ration_text(*ration, share, reader) : coming_ration_text(*ration, share, reader)},
          {"texts", ration_texts(plan, *ration, reader)}};
}

Json cost_json(const season::FeedLook& look, const Reader& reader) {
  if (!look.plan->tomorrow) return nullptr;
  const auto& cost = look.plan->cost;
  return {{"ammonia_mg_n_per_day", estimate(cost.ammonia_mg_n_per_day)},
          {"ammonia_mg_n_per_l_per_day", estimate(cost.ammonia_mg_n_per_l_per_day)},
          {"oxygen_mg_o2_per_l_per_day", estimate(cost.oxygen_mg_o2_per_l_per_day)},
          {"capacity_mg_n_per_l_per_day", cost.capacity_mg_n_per_l_per_day ? estimate(*cost.capacity_mg_n_per_l_per_day) : Json(nullptr)},
          {"carried_probability", cost.carried_probability ? Json(*cost.carried_probability) : Json(nullptr)},
          {"carried_text", cost.carried_probability ? Json(chance_text(*cost.carried_probability, reader)) : Json(say(reader, "not known"))},
          {"carried_share", cost.carried_share},
          {"filter_known", look.filter_known},
          {"filter_doubted", look.filter_doubted},
          {"texts", cost_texts(look, reader)}};
}

Json growth_json(const FeedPlan& plan, const Reader& reader) {
  const auto& g = plan.growth;
  Json out{{"now_g", grams(g.now)}, {"begun", iso_from_date(g.begun)}, {"begun_is_known", g.begun_is_known}, {"days", Json::array()}, {"models", Json::array()}, {"samples", Json::array()}};
  for (const auto& day : g.days)
    out["days"].push_back({{"day", iso_from_date(day.day)}, {"low_g", day.weight.low.g()}, {"mid_g", day.weight.mid.g()}, {"high_g", day.weight.high.g()}});
  for (std::size_t m = 0; m < g.models.size(); ++m)
    out["models"].push_back({{"key", g.models[m].key}, {"name", say(reader, g.models[m].name)}, {"weight", g.model_weights[m]}, {"factor", estimate(g.factors[m])}, {"in_range", g.in_range[m]}, {"source", say(reader, g.models[m].source)}});
  for (const auto& s : g.samples)
    out["samples"].push_back({{"day", iso_from_date(s.day)}, {"count", s.count}, {"mean_g", s.mean.g()}, {"condition", s.condition ? Json(*s.condition) : Json(nullptr)}, {"from_lengths", s.from_lengths},
                              {"surprise_sd", s.surprise_sd}, {"record_id", s.record}, {"text", sample_text(s, reader)}});
  out["conversion"] = g.conversion ? Json(*g.conversion) : Json(nullptr);
  out["texts"] = growth_texts(plan, reader);
  return out;
}

Json gap_json(const planning::FeedGap& gap, double share, const Reader& reader) {
  Json days = Json::array();
  for (const auto& day : gap.days) days.push_back({{"day", iso_from_date(day.day)}, {"text", short_date_text(day.day, reader)}, {"on_duty", day.on_duty}});
  return {{"from", iso_from_date(gap.from)}, {"to", iso_from_date(gap.to)}, {"name", gap.name}, {"covered", gap.covered}, {"may_miss_days", gap.may_miss_days}, {"first_weeks", gap.first_weeks},
          {"a_day_g", share * gap.a_day.g()}, {"returns_to_g", gap.a_day.g()}, {"days", days}, {"text", gap_text(gap, reader)}, {"do", gap_do(gap, share, reader)}, {"do_not", gap_do_not(reader)},
          {"water_text", gap_water_text(gap, share, reader)}};
}

Json break_json(const std::optional<planning::BreakRisk>& risk, const Reader& reader) {
  if (!risk) return nullptr;
  Json out{{"probability", risk->probability}, {"probability_text", chance_text(risk->probability, reader)}, {"mid", iso_from_date(risk->median)}, {"from", iso_from_date(risk->from)}, {"to", iso_from_date(risk->to)},
           {"name", risk->name}, {"shift", nullptr}, {"texts", break_texts(*risk, reader)}};
  if (const auto& shift = risk->shift ? risk->shift : risk->edge_shift)
    out["shift"] = {{"liked", risk->shift.has_value()}, {"from_c", shift->from.c()}, {"to_c", shift->to.c()}, {"probability", shift->probability}, {"probability_text", chance_text(shift->probability, reader)}, {"mid", iso_from_date(shift->median)}};
  return out;
}

Json texts_of(const std::vector<Sentence>& sentences, const Reader& reader) {
  Json out = Json::array();
  for (const Sentence& s : sentences) out.push_back(text_of(s, reader));
  return out;
}

}  // namespace

Json feed_json(const season::FeedLook& look, const Reader& given) {
  Reader reader = given;
  reader.zone = look.zone;
  const FeedHeadline headline = feed_headline(look, reader);
  Json out{{"sentence", headline.sentence}, {"detail", headline.detail}, {"stage", look.plan ? stage_key(look.plan->stage) : "none"}};
  const double share = advice::fed_share(look.holds);
  out["hold"] = {{"food", share >= 1.0 ? "all" : share > 0.0 ? "half" : "none"}, {"texts", hold_texts(look, reader)}};
  for (const char* key : {"start", "today", "tomorrow", "fed_today_g", "cost", "growth", "alive", "break_risk", "overfed", "sample"}) out[key] = nullptr;
  out["spoon_known"] = look.plan && look.plan->spoon_known;
  out["gaps"] = Json::array();
  out["assumed"] = Json::array();
  out["sources"] = feed_sources(reader);
  if (!look.plan) return out;
  const FeedPlan& plan = *look.plan;
  out["start"] = start_json(plan, reader);
  out["today"] = ration_json(plan, plan.today_ration, look.today_share, reader);
  out["tomorrow"] = ration_json(plan, plan.tomorrow, look.share_to_come, reader);
  if (plan.today_ration) out["fed_today_g"] = plan.fed_today.g();
  out["cost"] = cost_json(look, reader);
  out["growth"] = growth_json(plan, reader);
  out["alive"] = estimate(plan.alive.count);
  out["alive"]["record_ids"] = plan.alive.records;
  for (const auto& gap : plan.gaps) out["gaps"].push_back(gap_json(gap, look.share_to_come, reader));
  out["break_risk"] = break_json(plan.break_risk, reader);
  if (plan.overfed) out["overfed"] = {{"fed_g", plan.overfed->fed.g()}, {"most_g", plan.overfed->most.g()}, {"to_come_mg_n_per_l", estimate(plan.overfed->to_come_mg_n_per_l)}, {"texts", overfed_texts(*plan.overfed, reader)}};
  if (plan.sample_due) out["sample"] = {{"due", iso_from_date(*plan.sample_due)}, {"text", text_of({"Weigh or measure some fish next on {0}.", {*plan.sample_due}}, reader)}};
  out["assumed"] = texts_of(plan.assumed, reader);
  return out;
}

std::string feed_text(const season::FeedLook& look, const Reader& given, int width) {
  Reader reader = given;
  reader.zone = look.zone;
  std::string out;
  const auto line = [&](const std::string& text, std::string_view first = "  ") { out += wrapped(text, width, first, "    "); };
  const auto section = [&](const char* title, const std::vector<std::string>& texts) {
    if (texts.empty()) return;
    out += "\n" + say(reader, title) + "\n";
    for (const auto& text : texts) line(text, "  - ");
  };
  const FeedHeadline headline = feed_headline(look, reader);
  line(headline.sentence, "");
  if (!headline.detail.empty()) line(headline.detail);
  section("Not now", hold_texts(look, reader));
  if (!look.plan) return out;
  const FeedPlan& plan = *look.plan;
  if (plan.overfed) section("Too much food", overfed_texts(*plan.overfed, reader));
  section("Start of feeding", start_texts(plan, reader));
  if (plan.break_risk) section("Weeks ahead", break_texts(*plan.break_risk, reader));
  if (plan.today_ration) {
    section("Today", ration_texts(plan, *plan.today_ration, reader));
    out += "\n" + say(reader, "Tomorrow") + "\n";
    line(capitalised(coming_ration_text(*plan.tomorrow, look.share_to_come, reader)) + ".", "  - ");
    for (const auto& text : cost_texts(look, reader)) line(text, "  - ");
  }
  if (plan.stage >= FeedStage::near && !plan.gaps.empty()) {
    out += "\nWeekends and closed days\n";
    for (const auto& gap : plan.gaps) {
      line(gap_text(gap, reader), "  - ");
      for (const auto& text : gap_do(gap, look.share_to_come, reader)) line(text, "    ");
    }
    line(gap_water_text(plan.gaps.front(), look.share_to_come, reader), "  - ");
    for (const auto& text : gap_do_not(reader)) line(text, "  - ");
  }
  section("Growth", growth_texts(plan, reader));
  if (!plan.growth.samples.empty()) {
    std::vector<std::string> samples;
    for (const auto& sample : plan.growth.samples) samples.push_back(sample_text(sample, reader));
    section("Samples", samples);
  }
  if (plan.sample_due) line(text_of({"Weigh or measure some fish next on {0}.", {*plan.sample_due}}, reader), "  - ");
  std::vector<std::string> assumed;
  for (const Sentence& s : plan.assumed) assumed.push_back(text_of(s, reader));
  section("What this rests on", assumed);
  for (const auto& source : feed_sources(reader)) line(source, "  - ");
  return out;
}

}  // namespace redd::report
