#include "lessons/game.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "numerics/scoring.h"
#include "quantities/phrase_parts.h"
#include "quantities/verbatim.h"

namespace redd::lessons {
namespace {

using records::Guess;
using records::Record;

bool has_form_of(const Question& q, const Guess& guess) {
  return q.takes_chips() ? guess.chips.size() == q.test.steps.size() : guess.low.has_value() && guess.high.has_value();
}

/// A label as one team: neither capitals nor blanks make it another.
std::string folded(std::string_view label) {
  std::string out;
  for (const char c : label) {
    if (c != ' ') out += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    else if (!out.empty() && out.back() != ' ') out += ' ';
  }
  if (out.ends_with(' ')) out.pop_back();
  return out;
}

TeamGuess team_guess(const Guess& guess, records::RecordId id) {
  TeamGuess out{.team = guess.team, .record = id, .low = guess.low.value_or(0.0), .high = guess.high.value_or(0.0)};
  for (const double chips : guess.chips) out.shares.push_back(chips / records::chips_to_lay);
  return out;
}

/// Guesses and what takes them back: all that decides which of them stand.
std::vector<Record> guess_log(std::span<const Record> log) {
  std::vector<Record> guesses;
  for (const Record& record : log)
    if (std::holds_alternative<Guess>(record.entry.body) || std::holds_alternative<records::Undo>(record.entry.body)) guesses.push_back(record);
  return guesses;
}

/// The newest guess of each team that stood when the question closed.
std::vector<TeamGuess> guesses_on(const Question& q, std::span<const Record> guess_log, Instant until) {
  const auto asked = [&](const Record& record) {
    const auto* guess = std::get_if<Guess>(&record.entry.body);
    return guess && guess->question == q.key;
  };
  if (std::ranges::none_of(guess_log, asked)) return {};
  std::map<std::string, TeamGuess> by_team;
  for (const Record& record : records::effective(guess_log, until)) {
    const auto* guess = std::get_if<Guess>(&record.entry.body);
    if (guess && guess->question == q.key && record.logged_at >= q.opens_at && has_form_of(q, *guess)) by_team[folded(guess->team)] = team_guess(*guess, record.id);
  }
  std::vector<TeamGuess> guesses;
  for (auto& [team, guess] : by_team) guesses.push_back(std::move(guess));
  return guesses;
}

TeamGuess mean_guess(const std::vector<TeamGuess>& guesses) {
  TeamGuess mean;
  mean.shares.resize(guesses.front().shares.size());
  const double n = static_cast<double>(guesses.size());
  for (const TeamGuess& g : guesses) {
    mean.low += g.low / n;
    mean.high += g.high / n;
    for (std::size_t i = 0; i < g.shares.size(); ++i) mean.shares[i] += g.shares[i] / n;
  }
  return mean;
}

/// Sum over the classes of the squared gap; the original, two-sided form.
double brier_of(std::span<const double> probabilities, std::span<const double> outcome) {
  double loss = 0.0;
  for (std::size_t hit = 0; hit < outcome.size(); ++hit)
    for (std::size_t k = 0; k < probabilities.size(); ++k) {
      const double gap = probabilities[k] - (k == hit ? 1.0 : 0.0);
      loss += outcome[hit] * gap * gap;
    }
  return loss;
}

std::optional<SettledQuestion> settled(const Question& q, const Outcome& outcome, std::span<const Record> log, std::span<const Record> guess_log, const ZoneOffsets& zone) {
  if (outcome.at <= q.opens_at) return std::nullopt;  // written down late: nobody could have guessed
  SettledQuestion out{.question = q, .outcome = outcome, .guesses = guesses_on(q, guess_log, outcome.at - std::chrono::seconds(1))};
  if (out.guesses.empty()) return std::nullopt;
  auto model = model_guess(q, log, zone);
  if (!model) return std::nullopt;
  out.model = std::move(*model);
  for (TeamGuess& g : out.guesses) g.score = score_of(q, outcome, g.low, g.high, g.shares);
  std::ranges::stable_sort(out.guesses, std::greater<>{}, [](const TeamGuess& g) { return g.score.points; });
  out.class_guess = mean_guess(out.guesses);
  out.class_guess.score = score_of(q, outcome, out.class_guess.low, out.class_guess.high, out.class_guess.shares);
  out.model_score = score_of(q, outcome, out.model.low, out.model.high, out.model.probabilities);
  if (q.takes_chips()) out.model_brier = brier_of(out.model.probabilities, outcome.weights);
  else out.model_crps = numerics::crps_of_sample(out.model.values, 0.5 * (outcome.low + outcome.high));
  return out;
}

/// Adds up one player's questions; then turns the sums into means.
struct Sums {
  Standing standing{};
  double own = 0, model = 0;

  void add(const SettledQuestion& s, const Score& score) {
    ++standing.questions;
    standing.mean_points += score.points;
    standing.model_mean_points += s.model_score.points;
    if (score.points > s.model_score.points) ++standing.ahead;
    own += score.loss / s.question.scale;
    model += s.model_score.loss / s.question.scale;
  }
  Standing done() const {
    Standing out = standing;
    out.mean_points /= out.questions;
    out.model_mean_points /= out.questions;
    out.skill = model > 0.0 ? 1.0 - own / model : 0.0;
    return out;
  }
};

void add_standings(Game& game, const ZoneOffsets& zone) {
  std::map<std::string, Sums> teams;
  Sums whole;
  for (auto s = game.settled.rbegin(); s != game.settled.rend(); ++s) {  // oldest first
    for (const TeamGuess& g : s->guesses) {
      Sums& sums = teams[folded(g.team)];
      sums.standing.team = g.team;  // as it was written last
      sums.add(*s, g.score);
    }
    whole.add(*s, s->class_guess.score);
    const Standing so_far = whole.done();
    game.running.push_back({local_day(zone, s->outcome.at), so_far.questions, so_far.mean_points, so_far.model_mean_points});
  }
  for (const auto& [team, sums] : teams) game.teams.push_back(sums.done());
  std::ranges::stable_sort(game.teams, std::greater<>{}, &Standing::mean_points);
  if (whole.standing.questions > 0) game.whole_class = whole.done();
}

}  // namespace

Score score_of(const Question& q, const Outcome& outcome, double low, double high, std::span<const double> shares) {
  Score score;
  score.loss = q.takes_chips() ? numerics::ranked_probability_score(shares, outcome.weights)
                               : numerics::mean_interval_score(low, high, 1.0 - range_share, outcome.low, outcome.high);
  score.points = 100.0 * (1.0 - score.loss / q.scale);
  return score;
}

Game game_of(std::span<const Record> log, const ZoneOffsets& zone, Instant now) {
  Game game;
  const auto known = records::effective(log, now);
  const auto guesses = guess_log(log);
  const Date today = local_day(zone, now);
  for (const Question& q : questions_of(log, zone, now)) {
    if (const auto outcome = outcome_of(q, known, zone)) {
      if (auto one = settled(q, *outcome, log, guesses, zone)) game.settled.push_back(std::move(*one));
    } else if (today <= q.last_day) {
      OpenQuestion open{q};
      for (const TeamGuess& g : guesses_on(q, guesses, now)) open.teams_in.push_back(g.team);
      game.open.push_back(std::move(open));
    }
  }
  std::ranges::stable_sort(game.open, {}, [](const OpenQuestion& o) { return o.question.due; });
  std::ranges::stable_sort(game.settled, std::greater<>{}, [](const SettledQuestion& s) { return s.outcome.at; });
  add_standings(game, zone);
  return game;
}

namespace {

/// A slip of the hand, or another unit.
Problem beyond(const Question& q, const char* field) {
  if (q.kind == Question::Kind::temperature)
    return {"out_of_range", field, said("Water here is between {0} and {1}: check the number and its unit.", Temperature::from_c(q.least), Temperature::from_c(q.most))};
  return {"out_of_range", field, said("This cannot be read as anything but {0} to {1}: check the number.", std::lround(q.least), std::lround(q.most))};
}

}  // namespace

Problems problems_of(const Guess& guess, const Game& game) {
  const auto open = std::ranges::find(game.open, guess.question, [](const OpenQuestion& o) { return o.question.key; });
  if (open == game.open.end()) {
    const bool over = std::ranges::any_of(game.settled, [&](const SettledQuestion& s) { return s.question.key == guess.question; });
    if (over) return {{"question_closed", "/body/question", "The reading for this question is in: it is too late to guess."}};
    return {{"no_such_question", "/body/question", said("There is no open question \"{0}\": see the list of open questions.", verbatim(guess.question))}};
  }
  const Question& q = open->question;
  if (q.takes_chips() && guess.chips.size() != q.test.steps.size())
    return {{"chips_do_not_fit", "/body/chips", said("This question takes chips: one number for each of the {0} steps of the card, lowest first.", q.test.steps.size())}};
  if (q.takes_chips()) return {};
  if (!guess.low || !guess.high) return {{"missing", "/body/low", "This question takes a range: give its low and its high end."}};
  Problems problems;
  for (const auto& [end, field] : {std::pair(*guess.low, "/body/low"), std::pair(*guess.high, "/body/high")})
    if (end < q.least || end > q.most) problems.push_back(beyond(q, field));
  return problems;
}

}  // namespace redd::lessons
