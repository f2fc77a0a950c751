#pragma once
// The words of egg-to-fry development: milestones of a batch, the life stage between them, and what a keeper can see.

#include <array>
#include <optional>
#include <string_view>

namespace redd::biology {

/// A milestone of a lot, meant as the moment half of its animals have passed it.
enum class Stage {
  eyed,    ///< clear eye pigment through the shell
  hatch,   ///< out of the shell
  swim_up  ///< leaves the bottom and can take food; equals emergence, close to greatest alevin wet weight
};
inline constexpr std::array all_stages{Stage::eyed, Stage::hatch, Stage::swim_up};

/// Between the milestones.
enum class LifeStage { green_egg, eyed_egg, alevin, fry };
inline constexpr std::array all_life_stages{LifeStage::green_egg, LifeStage::eyed_egg, LifeStage::alevin,
                                            LifeStage::fry};

/// What a keeper can see and log.
enum class Milestone { first_eyes, half_eyed, first_hatch, half_hatched, hatch_complete, first_swim_up, half_swum_up };
inline constexpr std::array all_milestones{Milestone::first_eyes,   Milestone::half_eyed,      Milestone::first_hatch,
                                           Milestone::half_hatched, Milestone::hatch_complete, Milestone::first_swim_up,
                                           Milestone::half_swum_up};

constexpr std::string_view name_of(Stage stage) {
  switch (stage) {
    case Stage::eyed:
      return "eyed";
    case Stage::hatch:
      return "hatch";
    case Stage::swim_up:
      break;
  }
  return "swim_up";
}

constexpr std::string_view name_of(LifeStage stage) {
  switch (stage) {
    case LifeStage::green_egg:
      return "green_egg";
    case LifeStage::eyed_egg:
      return "eyed_egg";
    case LifeStage::alevin:
      return "alevin";
    case LifeStage::fry:
      break;
  }
  return "fry";
}

constexpr std::string_view name_of(Milestone milestone) {
  switch (milestone) {
    case Milestone::first_eyes:
      return "first_eyes";
    case Milestone::half_eyed:
      return "half_eyed";
    case Milestone::first_hatch:
      return "first_hatch";
    case Milestone::half_hatched:
      return "half_hatched";
    case Milestone::hatch_complete:
      return "hatch_complete";
    case Milestone::first_swim_up:
      return "first_swim_up";
    case Milestone::half_swum_up:
      break;
  }
  return "half_swum_up";
}

constexpr std::optional<Stage> stage_named(std::string_view name) {
  for (const Stage each : all_stages)
    if (name_of(each) == name) return each;
  return std::nullopt;
}

constexpr std::optional<Milestone> milestone_named(std::string_view name) {
  for (const Milestone each : all_milestones)
    if (name_of(each) == name) return each;
  return std::nullopt;
}

/// The stage a sighting speaks of.
constexpr Stage stage_of(Milestone milestone) {
  switch (milestone) {
    case Milestone::first_eyes:
    case Milestone::half_eyed:
      return Stage::eyed;
    case Milestone::first_hatch:
    case Milestone::half_hatched:
    case Milestone::hatch_complete:
      return Stage::hatch;
    case Milestone::first_swim_up:
    case Milestone::half_swum_up:
      break;
  }
  return Stage::swim_up;
}

}  // namespace redd::biology
