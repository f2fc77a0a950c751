#pragma once
// The guessing game as it stands at a moment: what can be guessed now, what was settled and how everybody did. Start at game_of().
// Blind: what is still open shows who has guessed, never what, and not the model's guess either.

#include "lessons/model_guess.h"

namespace redd::lessons {

/// A loss and what it makes in points: 100 less 100 times loss / question.scale. Below zero is possible: a sure guess that is far off costs more
/// than spreading out would have. Points are a straight line of a proper loss with a scale fixed beforehand, so they are proper too.
struct Score {
  double loss = 0;
  double points = 0;
};

struct TeamGuess {
  std::string team{};
  records::RecordId record = 0;
  double low = 0, high = 0;
  std::vector<double> shares{};  ///< steps: chips as probabilities
  Score score{};                 ///< once settled
};

struct OpenQuestion {
  Question question{};
  std::vector<std::string> teams_in{};
};

struct SettledQuestion {
  Question question{};
  Outcome outcome{};
  std::vector<TeamGuess> guesses{};       ///< best first; at least one
  TeamGuess class_guess{};                ///< mean of the ends, or of the chips, of all teams
  ModelGuess model{};
  Score model_score{};
  std::optional<double> model_crps{};     ///< of its whole distribution, in the question's unit; not for steps
  std::optional<double> model_brier{};    ///< steps: sum over the steps, the two-sided score; beside the ranked one
};

/// How somebody did over several questions, beside the model on the same ones.
struct Standing {
  std::string team{};
  int questions = 0;
  double mean_points = 0;
  double model_mean_points = 0;
  int ahead = 0;                          ///< questions with more points than the model
  double skill = 0;                       ///< 1 - own losses / the model's, each in its question's scale: above 0 is better than the model
};

struct RunningPoint {
  Date day{};
  int questions = 0;
  double class_points = 0, model_points = 0;  ///< means so far
};

struct Game {
  std::vector<OpenQuestion> open{};       ///< due first
  std::vector<SettledQuestion> settled{}; ///< newest first; only those somebody guessed at
  std::vector<Standing> teams{};          ///< most mean points first
  std::optional<Standing> whole_class{};
  std::vector<RunningPoint> running{};
};

/// In      log: all of it, in order of id.
/// Shape   a few milliseconds, and one for each settled question.
Game game_of(std::span<const records::Record> log, const ZoneOffsets& zone, Instant now);

/// What keeps a guess from counting: no such open question, a range where chips are asked for, chips on another number of steps.
Problems problems_of(const records::Guess& guess, const Game& game);

/// Loss of a guess once the outcome is known.
Score score_of(const Question& question, const Outcome& outcome, double low, double high, std::span<const double> shares);

}  // namespace redd::lessons
