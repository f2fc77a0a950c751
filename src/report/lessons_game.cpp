// The guessing game as JSON: what is open, what was settled, who is ahead, and what a score means.

#include <cmath>

#include "records/reading.h"
#include "report/lessons_view.h"

namespace redd::report {
namespace {

using lessons::OpenQuestion;
using lessons::Question;
using lessons::Score;
using lessons::SettledQuestion;
using lessons::Standing;
using lessons::TeamGuess;
using wire::Json;
using Kind = Question::Kind;

/// Numbers of a question about temperature as the reader has them; all others as they are.
struct InUnit {
  const Question& q;
  const Reader& reader;
  bool f() const { return q.kind == Kind::temperature && reader.fahrenheit; }
  double of(double value) const { return f() ? Temperature::from_c(value).f() : value; }
  double width(double value) const { return f() ? 1.8 * value : value; }
};

std::string unit_of(const Question& q, const Reader& reader) {
  switch (q.kind) {
    case Kind::drops: return "drops";
    case Kind::temperature: return reader.fahrenheit ? "°F" : "°C";
    case Kind::hatched: return "hatched";
    case Kind::steps:
    case Kind::meter: break;
  }
  return records::unit_text(q.test.unit);
}

int places_of(const Question& q) { return q.kind == Kind::temperature ? 1 : q.kind == Kind::meter ? 2 : 0; }

/// A model's range in drops or animals has its own decimals: whole numbers would hide what it says.
std::string range_words(const Question& q, double low, double high, const Reader& reader) {
  const bool whole = low == std::floor(low) && high == std::floor(high);
  const InUnit in{q, reader};
  return interval_text(in.of(low), in.of(high), false, whole ? places_of(q) : std::max(1, places_of(q)), unit_of(q, reader), reader);
}

std::string plain_number(double value) {
  std::string text = decimals(value, 3);
  if (text.find('.') != std::string::npos) text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

Json steps_json(const Question& q, const Reader& reader) {
  Json steps = Json::array();
  if (!q.takes_chips()) return steps;
  for (std::size_t i = 0; i < q.test.steps.size(); ++i)
    steps.push_back({{"value", q.test.steps[i]}, {"text", number_text(plain_number(q.test.steps[i]), reader)},
                     {"colour", i < q.test.colour_names.size() ? Json(q.test.colour_names[i]) : Json(nullptr)}, {"swatch", i < q.test.swatches.size() ? Json(q.test.swatches[i]) : Json(nullptr)}});
  return steps;
}

std::string points_text(double points) { return decimals(points, 0); }
Json score_json(const Score& score) { return {{"loss", score.loss}, {"points", score.points}, {"points_text", points_text(score.points)}}; }

/// Where most of the chips lie: "mostly on 10, 6 of 10".
std::string chips_words(const Question& q, const std::vector<double>& shares, const Reader& reader) {
  std::size_t most = 0;
  for (std::size_t i = 1; i < shares.size(); ++i)
    if (shares[i] > shares[most]) most = i;
  return text_of({"most on {0}: {1} of 10", {Word{plain_number(q.test.steps[most])}, Word{plain_number(std::round(100.0 * shares[most]) / 10.0)}}}, reader);
}

Json guess_json(const Question& q, const TeamGuess& g, const Reader& reader) {
  Json out = score_json(g.score);
  out["team"] = g.team;
  out["low"] = q.takes_chips() ? Json(nullptr) : Json(g.low);
  out["high"] = q.takes_chips() ? Json(nullptr) : Json(g.high);
  out["shares"] = g.shares;
  out["text"] = q.takes_chips() ? chips_words(q, g.shares, reader) : range_words(q, g.low, g.high, reader);
  return out;
}

Json model_json(const SettledQuestion& s, const Reader& reader) {
  const Question& q = s.question;
  Json out = score_json(s.model_score);
  out["low"] = q.takes_chips() ? Json(nullptr) : Json(s.model.low);
  out["high"] = q.takes_chips() ? Json(nullptr) : Json(s.model.high);
  out["shares"] = s.model.probabilities;
  out["text"] = q.takes_chips() ? chips_words(q, s.model.probabilities, reader) : range_words(q, s.model.low, s.model.high, reader);
  out["rests_on"] = text_of(s.model.rests_on, reader);
  out["whole_text"] = s.model_crps ? text_of({"Score of its whole forecast, not only the range: {0}; 0 is perfect (continuous ranked probability score).", {Measured{InUnit{q, reader}.width(*s.model_crps), unit_of(q, reader)}}}, reader)
                                   : text_of({"Brier score of its chances: {0}; 0 is perfect, 2 the worst.", {Exact{*s.model_brier, 2}}}, reader);
  return out;
}

std::string outcome_text(const SettledQuestion& s, const Reader& reader) {
  if (s.outcome.text.empty()) return range_words(s.question, s.outcome.low, s.outcome.high, reader);
  return text_of(s.outcome.text, reader) + (s.question.kind == Kind::drops ? "" : " " + say(reader, unit_of(s.question, reader)));
}

Json question_json(const Question& q, const Reader& reader) {
  return {{"key", q.key}, {"text", text_of(lessons::question_text(q), reader)}, {"form", q.takes_chips() ? "chips" : "range"}, {"unit", say(reader, unit_of(q, reader))}, {"typed_in_f", InUnit{q, reader}.f()}, {"steps", steps_json(q, reader)},
          {"whole", q.kind == Kind::drops || q.kind == Kind::hatched}, {"opened_on", iso_from_date(q.opened_on)}, {"due", iso_from_date(q.due)}, {"due_text", date_text(q.due, reader)}};
}

Json open_json(const OpenQuestion& o, const Reader& reader) {
  Json out = question_json(o.question, reader);
  out["closes_text"] = text_of({"Open until the reading is taken. Without one by {0} nobody scores.", {o.question.last_day}}, reader);
  out["costs_text"] = o.question.takes_chips() ? say(reader, "All chips on the step that is read: 100 points. Spread evenly over the card: about 0.")
                                               : text_of({"100 points for naming the reading itself. Each {0} of width costs one point, each {0} by which you miss it ten.", {Measured{InUnit{o.question, reader}.width(o.question.scale / 100.0), unit_of(o.question, reader)}}}, reader);
  out["teams_in"] = o.teams_in;
  return out;
}

Json settled_json(const SettledQuestion& s, const Reader& reader) {
  Json out = question_json(s.question, reader);
  const Date day = local_day(reader.zone, s.outcome.at);
  out["day"] = iso_from_date(day);
  out["day_text"] = date_text(day, reader);
  out["outcome"] = {{"text", outcome_text(s, reader)}, {"low", s.question.takes_chips() ? Json(nullptr) : Json(s.outcome.low)}, {"high", s.question.takes_chips() ? Json(nullptr) : Json(s.outcome.high)}, {"weights", s.outcome.weights}, {"record_ids", s.outcome.records}};
  out["guesses"] = Json::array();
  for (const TeamGuess& g : s.guesses) out["guesses"].push_back(guess_json(s.question, g, reader));
  out["class"] = guess_json(s.question, s.class_guess, reader);
  out["model"] = model_json(s, reader);
  return out;
}

Json standing_json(const Standing& s, const Reader& reader) {
  const std::string skill = decimals(100.0 * std::abs(s.skill), 0);
  const Sentence sentence = s.skill >= 0 ? Sentence{"{0} points on average, the model {1} on the same {2} questions; ahead of it on {3}. Losses are {4} % smaller than the model's.", {Word{points_text(s.mean_points)}, Word{points_text(s.model_mean_points)}, Number{s.questions}, Number{s.ahead}, Word{skill}}}
                                         : Sentence{"{0} points on average, the model {1} on the same {2} questions; ahead of it on {3}. Losses are {4} % larger than the model's.", {Word{points_text(s.mean_points)}, Word{points_text(s.model_mean_points)}, Number{s.questions}, Number{s.ahead}, Word{skill}}};
  return {{"team", s.team}, {"questions", s.questions}, {"mean_points", s.mean_points}, {"points_text", points_text(s.mean_points)}, {"model_points_text", points_text(s.model_mean_points)},
          {"model_mean_points", s.model_mean_points}, {"ahead", s.ahead}, {"skill", s.skill}, {"sentence", text_of(sentence, reader)}};
}

Sentence headline(const lessons::Game& game) {
  constexpr int enough = 8;  // Assumed: with fewer, a lead of one side is as likely luck
  if (!game.whole_class) return game.open.empty() ? Sentence("Nothing to guess yet: a question opens with each test that is logged.") : Sentence("Guesses are open. The first scores come with the next reading.");
  const Standing& c = *game.whole_class;
  const Word own{points_text(c.mean_points)}, model{points_text(c.model_mean_points)};
  if (c.questions < enough) return {"Class {0}, model {1} points on average, after {2} questions: too few to say who predicts better.", {own, model, Number{c.questions}}};
  if (c.skill > 0.0) return {"The class is ahead: {0} points on average, the model {1}, after {2} questions.", {own, model, Number{c.questions}}};
  return {"The model is ahead: {1} points on average, the class {0}, after {2} questions.", {own, model, Number{c.questions}}};
}

}  // namespace

Json game_json(const lessons::Game& game, const Reader& reader) {
  Json out{{"sentence", text_of(headline(game), reader)}, {"open", Json::array()}, {"settled", Json::array()}, {"teams", Json::array()}, {"running", Json::array()}};
  out["chips"] = records::chips_to_lay;
  for (const auto& o : game.open) out["open"].push_back(open_json(o, reader));
  for (const auto& s : game.settled) out["settled"].push_back(settled_json(s, reader));
  for (const auto& team : game.teams) out["teams"].push_back(standing_json(team, reader));
  out["class"] = game.whole_class ? standing_json(*game.whole_class, reader) : Json(nullptr);
  for (const auto& p : game.running) out["running"].push_back({{"day", iso_from_date(p.day)}, {"questions", p.questions}, {"class_points", p.class_points}, {"model_points", p.model_points}});
  out["meaning"] = Json::array();
  for (const char* text : {"100 points is a perfect guess. About 0 is what somebody gets who knows only the kind of test. Below 0: sure, and far off.",
                           "Say what you believe: on average nobody gains by bluffing or by playing safe.",
                           "The class is the mean of all teams' guesses. The model is frozen when a question opens; teams may have learnt more since."})
    out["meaning"].push_back(say(reader, text));
  out["sources"] = Json::array();
  for (const char* text : {"Ranges: interval score for 80 % (Gneiting & Raftery 2007, eq. 43). A reading that is itself a range is scored by the mean over that range.",
                           "Chips: ranked probability score (Epstein 1969); a reading between two steps counts evenly on all from one to the other.",
                           "The model's whole forecast: continuous ranked probability score (Gneiting & Raftery 2007, eq. 21), Brier score (1950)."})
    out["sources"].push_back(say(reader, text));
  return out;
}

}  // namespace redd::report
