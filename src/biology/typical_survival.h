#pragma once
// How many of a lot usually live, by stage, and the daily losses that go with it. Eyed eggs in a well-kept cold tank.
// Start at typical_survival(). The ranges are wide: lots, species and handling differ more than tanks do.

#include <array>
#include <string_view>

namespace redd::biology {

/// Stages between which survival is published.
enum class SurvivalStage { egg, alevin, fry, whole };
inline constexpr std::array all_survival_stages{SurvivalStage::egg, SurvivalStage::alevin, SurvivalStage::fry, SurvivalStage::whole};

struct TypicalSurvival {
  double low_fraction = 0;
  double high_fraction = 1;
  std::string_view source{};
};

/// Share of the animals entering a stage that live to its end.
///
/// Source  egg (eyed to hatch), fry (swim-up to release) and whole: planning ranges put together from the works named in the text; from memory.
///         alevin: the same, with the published range [murray1988], [beacham1986], [bascinar2004] beside it. See docs/science/survival.md.
constexpr TypicalSurvival typical_survival(SurvivalStage stage) {
  switch (stage) {
    case SurvivalStage::egg: return {0.90, 0.97, "planning range, from memory; 1.3 % of eyed eggs were not viable on delivery in 52 receipts of Atlantic salmon (egg producer's newsletter, 2008)"};
    case SurvivalStage::alevin: return {0.85, 0.95, "planning range, from memory; published: pink salmon 97-100 % (Beacham & Murray 1986), brook trout about 92 % (Bascinar & Okumus 2004)"};
    case SurvivalStage::fry: return {0.80, 0.95, "planning range, from memory; published: rainbow trout 82-96 % four to six weeks after first feeding (control tanks of a growth data set by Sadoul and others)"};
    case SurvivalStage::whole: break;
  }
  return {0.70, 0.95, "put together from the stages: about 98 % of eggs, 95 % of alevins, 92 % at first feeding in a well-run chilled tank"};
}

/// What a day is to a lot, as far as losses go.
enum class LossPhase { arrival, egg, hatching, alevin, first_feeding, fry };

/// Share of the animals that is expected to die in a day.
///
/// Source  arrival: 1.34 % not viable on delivery (egg producer's newsletter, 2008, 52 receipts), found within three days.
///         Assumed otherwise, so that a lot that loses just so ends within typical_survival(): eggs 0.1 %, hatching 0.4 % (deaths peak at
///         hatching, [murray1988]), alevins 0.15 %, the four weeks of first feeding 0.3 %, fry 0.1 %.
constexpr double expected_loss_fraction_per_day(LossPhase phase) {
  switch (phase) {
    case LossPhase::arrival: return 0.0134 / 3.0;
    case LossPhase::egg: return 0.001;
    case LossPhase::hatching: return 0.004;
    case LossPhase::alevin: return 0.0015;
    case LossPhase::first_feeding: return 0.003;
    case LossPhase::fry: break;
  }
  return 0.001;
}

}  // namespace redd::biology
