#include "print/season_document.h"

#include <algorithm>
#include <array>

#include "print/charts.h"
#include "print/detail/axes.h"
#include "quantities/verbatim.h"
#include "report/season_report_view.h"

namespace redd::print {
namespace {

using report::Reader;
using wire::Json;
using Look = Paragraph::Look;

class Writer {
 public:
  Writer(const SeasonParts& parts, const Reader& reader) : parts_(parts), view_(parts.report), reader_(reader) {}

  Document agency() {
    begin(say("Season report: {0}", name()));
    facts(true);
    animals();
    losses();
    milestones();
    temperature();
    water();
    entries("Release", view_["releases"], "None is logged.");
    entries("Incidents and equipment", view_["incidents"], "No failure of equipment is logged.");
    keepers();
    questions();
    method();
    add(Signature{{say("Seen by"), say("Date")}});
    return std::move(out_);
  }

  Document classroom() {
    begin(say("Our season: {0}", name()));
    facts(false);
    head("The animals");
    add(Paragraph{string_of(view_["sentence"]), Look::main});
    figure("survival");
    milestones();
    head("Temperature");
    add(Paragraph{string_of(view_["temperature"]["sentence"])});
    figure("temperature");
    head("The water");
    for (const char* quantity : {"total_ammonia", "nitrite"}) figure(quantity);
    entries("Release", view_["releases"], "None is logged.");
    keepers();
    head("What is in doubt", 2);
    add(Bullets{strings(view_["doubt"])});
    return std::move(out_);
  }

 private:
  template <class... Parts>
  std::string say(std::string_view pattern, Parts&&... parts) const { return report::say(reader_, pattern, std::forward<Parts>(parts)...); }
  Phrase name() const { return verbatim(string_of(view_["season"]["name"])); }
  void add(Block block) { out_.blocks.push_back(std::move(block)); }
  void head(const char* words, int level = 2) { add(Heading{level, say(words)}); }
  std::vector<std::string> strings(const Json& rows) const {
    std::vector<std::string> all;
    for (const Json& row : rows) all.push_back(string_of(row));
    return all;
  }
  std::vector<std::string> heads(std::initializer_list<const char*> words) const {
    std::vector<std::string> all;
    for (const char* word : words) all.push_back(say(word));
    return all;
  }

  void begin(std::string title) {
    const Json& season = view_["season"];
    out_.language = reader_.language == report::Language::es ? "es" : "en";
    out_.title = std::move(title);
    out_.subject = say("As of {0}", verbatim(string_of(view_["made_on_text"])));
    out_.author = string_of(season["place"]);
    out_.foot = string_of(season["name"]);
    out_.made = parts_.made;
    out_.reader = reader_;
    add(Paragraph{out_.subject, Look::soft});
    if (season["invented"].is_boolean() && season["invented"].get<bool>()) {
      add(Paragraph{say("Invented season: nothing here happened."), Look::boxed});
      out_.foot += " · " + say("invented");
    }
  }

  void facts(bool all) {
    const Json& season = view_["season"];
    Facts facts;
    const auto fact = [&](const char* words, const char* key) {
      const std::string text = string_of(season[key]);
      facts.rows.emplace_back(say(words), text.empty() ? say("not noted") : text);
    };
    fact("Place", "place");
    fact("Species", "species_name");
    fact("Water in the tank", "volume_text");
    fact("Temperature for the eggs", "target_text");
    fact("Since", "first_day_text");
    if (all) fact("Permit", "permit");
    if (all) fact("Release window", "release_window_text");
    add(std::move(facts));
  }

  void figure(std::string_view wanted) {
    for (const Chart& chart : parts_.charts)
      if (chart.name == wanted && chart.empty.empty()) add(Figure{chart});
  }

  void animals() {
    head("The animals");
    const Json& counts = view_["counts"];
    add(Paragraph{string_of(view_["sentence"]), Look::main});
    if (const std::string rests = string_of(counts["rests_on"]); !rests.empty()) add(Paragraph{rests, Look::soft});
    if (!counts["stages"].empty()) {
      Table table{say("Survival by stage"), heads({"Stage", "Found dead", "Survival", "Against the typical"}), {}, {0.27, 0.14, 0.23, 0.36}};
      for (const Json& row : counts["stages"])
        table.rows.push_back({string_of(row["name"]), std::to_string(row["died"].get<long long>()), string_of(row["survival_fraction"]["text"]), string_of(row["verdict_text"])});
      add(std::move(table));
    }
    figure("survival");
    if (!counts["findings"].empty()) {
      head("What does not add up", 3);
      Bullets bullets;
      for (const Json& row : counts["findings"]) bullets.rows.push_back(string_of(row["sentence"]));
      add(std::move(bullets));
    }
  }

  void losses() {
    head("Losses by day", 3);
    if (view_["losses"].empty()) {
      add(Paragraph{say("No dead are logged. That may mean that nobody looked.")});
      return;
    }
    Pairs pairs{say("Losses by day"), {}};
    for (const Json& row : view_["losses"]) pairs.rows.emplace_back(string_of(row["day_text"]), string_of(row["text"]));
    add(std::move(pairs));
    figure("losses");
  }

  void milestones() {
    head("Foretold and seen");
    add(Paragraph{string_of(view_["milestones"]["sentence"])});
    if (view_["milestones"]["rows"].empty()) return;
    Table table{say("Foretold and seen"), heads({"Stage", "Foretold (nine chances in ten)", "Seen", "Verdict"}), {}, {0.2, 0.38, 0.17, 0.25}};
    for (const Json& row : view_["milestones"]["rows"])
      table.rows.push_back({string_of(row["name"]), string_of(row["foretold_text"]), string_of(row["seen_text"]), string_of(row["fit_text"])});
    add(std::move(table));
  }

  void temperature() {
    head("Temperature");
    add(Paragraph{string_of(view_["temperature"]["sentence"])});
    if (view_["temperature"]["months"].empty()) return;
    Table table{say("Temperature"), heads({"Month", "Mean (coldest to warmest day)", "Measured"}), {}, {0.28, 0.47, 0.25}};
    for (const Json& row : view_["temperature"]["months"]) table.rows.push_back({string_of(row["month_text"]), string_of(row["text"]), string_of(row["measured_text"])});
    add(std::move(table));
    figure("temperature");
  }

  void water() {
    head("The water");
    add(Paragraph{string_of(view_["water"]["sentence"])});
    for (const bool animals : {true, false}) {
      const char* title = animals ? "While animals were in the tank" : "Before the eggs came";
      Table table{say(title), heads({"Quantity", "Tested on", "When", "Lowest", "Highest"}), {}, {0.19, 0.12, 0.23, 0.23, 0.23}};
      for (const Json& row : view_["water"]["rows"])
        if (row["with_animals"].get<bool>() == animals)
          table.rows.push_back({string_of(row["name"]), string_of(row["sittings_text"]), string_of(row["span_text"]), string_of(row["lowest_text"]), string_of(row["highest_text"])});
      if (table.rows.empty()) continue;
      head(title, 3);
      add(std::move(table));
    }
    water_figures();
  }

  void water_figures() {
    const std::array wanted{"total_ammonia", "nitrite", "nitrate", "ph"};
    const auto drawn = [&](const Chart& chart) { return chart.empty.empty() && std::ranges::find(wanted, chart.name) != wanted.end(); };
    if (std::ranges::none_of(parts_.charts, drawn)) return;
    const bool eggs = view_["counts"]["received_on"].is_string();
    head(eggs ? "The readings, from a week before the eggs came" : "The readings of the season", 3);
    for (const char* quantity : wanted) figure(quantity);
  }

  void entries(const char* title, const Json& rows, const char* none) {
    head(title);
    if (rows.empty()) {
      add(Paragraph{say(none)});
      return;
    }
    Table table{say(title), heads({"Day", "What", "Logged by"}), {}, {0.19, 0.62, 0.19}};
    for (const Json& row : rows) table.rows.push_back({string_of(row["day_text"]), string_of(row["text"]), string_of(row["author"])});
    add(std::move(table));
  }

  void keepers() {
    head("Who kept it");
    add(Paragraph{say("Labels of teams, never names of people."), Look::soft});
    Pairs pairs{say("Who kept it"), {}};
    for (const Json& row : view_["keepers"]) pairs.rows.emplace_back(string_of(row["label"]), string_of(row["text"]));
    if (!pairs.rows.empty()) add(std::move(pairs));
    head("What was done", 3);
    std::string work;
    for (const Json& row : view_["work"]) work += (work.empty() ? "" : " · ") + string_of(row);
    add(Paragraph{work});
  }

  void questions() {
    if (parts_.questions.empty()) return;
    head("Further questions");
    for (const auto& [question, answer] : parts_.questions) {
      add(Heading{3, question});
      add(Paragraph{answer.empty() ? say("not noted") : answer});
    }
  }

  void method() {
    head("Method");
    add(Bullets{strings(view_["method"])});
    head("What is in doubt", 3);
    add(Bullets{strings(view_["doubt"])});
  }

  const SeasonParts& parts_;
  const Json& view_;
  const Reader& reader_;
  Document out_{};
};

/// The charts that belong into a report, of those that chart_of() knows.
std::span<const std::string_view> report_charts(Audience audience) {
  static constexpr std::array<std::string_view, 7> all{"survival", "temperature", "total_ammonia", "nitrite", "losses", "nitrate", "ph"};
  return std::span(all).first(audience == Audience::agency ? all.size() : 4);
}

}  // namespace

Result<SeasonParts> season_parts(const season::Setup& setup, std::span<const records::Record> records, Instant now, std::span<const Phrase> doubts, Audience audience, const Reader& reader) {
  const auto look = season::look_at_report(setup, records, now);
  if (!look) return look.problems();
  const auto day = season::look_at_day(setup, records, now);
  if (!day) return day.problems();
  SeasonParts parts{report::season_report_json(*look, reader), {}, {}, now};
  for (const Phrase& doubt : doubts) parts.report["doubt"].push_back(text_of(doubt, reader));
  for (const auto name : report_charts(audience)) {
    // A ripening filter reads high and harms nobody: drawn with it, the weeks that matter would lie flat on the axis.
    const auto from = look->counts.received_on ? std::optional(*look->counts.received_on - std::chrono::days(7)) : std::nullopt;
    auto chart = chart_of(name, *day, {now, setup.zone, day->season, look->counts}, reader, name == "temperature" ? std::nullopt : from);
    if (!chart) return chart.problems();
    parts.charts.push_back(std::move(chart).value());
  }
  return parts;
}

Document season_document(const SeasonParts& parts, Audience audience, const Reader& reader) {
  Writer writer(parts, reader);
  return audience == Audience::agency ? writer.agency() : writer.classroom();
}

}  // namespace redd::print
