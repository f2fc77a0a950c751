#include "inference/outlook.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "numerics/random.h"

namespace redd::inference {
namespace {

using numerics::ParticleTable;
using tank::Ensemble;
using TankQuantity = tank::Quantity;

constexpr std::size_t group_size = 64;
constexpr std::uint32_t purpose_to_come = 11;

/// The plan as a model whose rows reach to the end, and draws of all its rows.
struct Future {
  SeasonModel model;
  ParticleTable unknowns;
  std::vector<std::size_t> group_begin;
};

/// A last sitting without tests makes the model lay out the fortnights still to come.
SeasonModel model_to(FilterSeason plan, double until_day, tank::Tolerance tolerance) {
  plan.sittings.push_back({std::max(until_day, plan.sittings.empty() ? 0.0 : plan.sittings.back().at_day), {}});
  return SeasonModel(std::move(plan), tolerance);
}

std::optional<Future> future_of(const FilterPosterior& posterior, const FilterSeason& plan, const OutlookQuestion& question) {
  const std::size_t absorbed = posterior.sampler().absorbed();
  if (absorbed > 0 && (plan.sittings.size() < absorbed || fingerprint(plan, absorbed - 1) != fingerprint(posterior.model().season(), absorbed - 1))) return std::nullopt;
  Future future{model_to(plan, question.until_day, quick_tolerance), {}, {}};
  const auto draws = posterior.draws(question.draws);
  future.unknowns = ParticleTable(future.model.dimension(), question.draws);
  const std::size_t known = std::min(posterior.sampler().drawn_dimension(), future.unknowns.rows());
  for (std::size_t i = 0; i < question.draws; ++i) {
    numerics::RandomStream stream(question.seed, purpose_to_come, static_cast<std::uint32_t>(i));
    for (std::size_t row = 0; row < future.unknowns.rows(); ++row)
      future.unknowns(row, i) = row < known ? draws.unknowns(row, i) : stream.normal();
  }
  for (std::size_t begin = 0; begin < question.draws; begin += group_size) future.group_begin.push_back(begin);
  return future;
}

ParticleTable part_of(const ParticleTable& all, std::size_t begin) {
  ParticleTable part(all.rows(), std::min(group_size, all.columns() - begin));
  for (std::size_t row = 0; row < all.rows(); ++row)
    std::ranges::copy(all.row(row).subspan(begin, part.columns()), part.row(row).begin());
  return part;
}

double temperature_on(const tank::Forcing& forcing, double day) {
  if (forcing.days.empty()) return tank::DayForcing{}.temperature_c;
  const double index = std::clamp(std::floor(day - forcing.first_day), 0.0, static_cast<double>(forcing.days.size() - 1));
  return forcing.days[static_cast<std::size_t>(index)].temperature_c;
}

/// Whether each tank would pass the test begun now. A copy is dosed; the tank itself goes on as planned.
void try_ready(const Ensemble& tanks, const SeasonModel& model, const ReadyDefinition& ready, double day, std::span<char> passed) {
  Ensemble copy = tanks;
  const double temperature_c = ready.temperature_c.value_or(temperature_on(model.season().forcing, day));
  copy.set_temperature_c(temperature_c);  // the question is about this temperature, not about the shock of getting there
  for (double& value : copy.column(TankQuantity::total_ammonia)) value += ready.test_dose_mg_n_per_l;
  tank::DayForcing held;
  held.temperature_c = temperature_c;
  tank::advance(copy, {day, {held}}, day, day + ready.within_hours / 24.0, quick_tolerance);
  const auto ammonia = copy.column(TankQuantity::total_ammonia), nitrite = copy.column(TankQuantity::nitrite);
  for (std::size_t i = 0; i < passed.size(); ++i)
    passed[i] = ammonia[i] <= ready.total_ammonia_limit_mg_n_per_l && nitrite[i] <= ready.nitrite_limit_mg_n_per_l;
}

/// Everything kept of one group of draws, a row a day.
struct GroupStory {
  std::vector<WaterColumns> days;
  std::vector<std::vector<char>> passed;  // by test day
  std::vector<double> capacity_now, capacity_at_target, load_factor;
  WaterColumns next;
  bool sound = true;
};

struct Calendar {
  std::vector<double> days, tries;
  double next_sitting = 0;
};
Calendar calendar_of(const OutlookQuestion& q) {
  Calendar c;
  for (double day = 0.0; day <= q.until_day; day += 1.0) c.days.push_back(day);
  for (double day = q.now_day; day <= q.until_day; day += std::max(q.every_days, 0.25)) c.tries.push_back(day);
  c.next_sitting = q.now_day + 7.0;
  return c;
}

bool is_sound(const WaterColumns& water) {
  for (std::size_t i = 0; i < water.ph.size(); ++i)
    if (!std::isfinite(water.total_ammonia_mg_n_per_l[i] + water.nitrite_mg_n_per_l[i] + water.nitrate_mg_n_per_l[i] + water.ph[i])) return false;
  return true;
}

GroupStory story_of(const SeasonModel& model, const ParticleTable& unknowns, const OutlookQuestion& question, const Calendar& calendar) {
  GroupStory story;
  SeasonModel::Path path = model.start(unknowns);
  // Moments in order: days to record, tries, now, the next sitting. Each is reached from the one before it.
  std::size_t day = 0, attempt = 0;
  bool now_done = false, next_done = false;
  const double never = std::numeric_limits<double>::infinity();
  for (;;) {
    const double at_day = day < calendar.days.size() ? calendar.days[day] : never;
    const double at_try = attempt < calendar.tries.size() ? calendar.tries[attempt] : never;
    const double at_now = now_done ? never : question.now_day, at_next = next_done ? never : calendar.next_sitting;
    const double at = std::min({at_day, at_try, at_now, at_next});
    if (at == never) break;
    model.go_to(path, unknowns, at, false);
    if (at == at_day) {
      story.days.push_back(model.columns(path));
      story.sound = story.sound && is_sound(story.days.back());
      ++day;
    }
    if (at == at_now) {
      story.capacity_now.resize(unknowns.columns());
      story.capacity_at_target.resize(unknowns.columns());
      tank::capacity_of(path.ensemble, temperature_on(model.season().forcing, at), story.capacity_now);
      tank::capacity_of(path.ensemble, question.target_temperature_c, story.capacity_at_target);
      const auto load = path.ensemble.column(tank::Parameter::load_factor);
      story.load_factor.assign(load.begin(), load.end());
      now_done = true;
    }
    if (at == at_next) {
      story.next = model.columns(path);
      next_done = true;
    }
    if (at == at_try) {
      story.passed.emplace_back(unknowns.columns());
      try_ready(path.ensemble, model, question.ready, at, story.passed.back());
      ++attempt;
    }
  }
  return story;
}

double plain_quantile(std::vector<double>& values, double share) {
  const auto n = static_cast<double>(values.size());
  const auto index = static_cast<std::size_t>(std::clamp(std::floor(share * n), 0.0, n - 1.0));
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(index), values.end());
  return values[index];
}

Band band_of(std::vector<double> values) {
  return {plain_quantile(values, 0.05), plain_quantile(values, 0.25), plain_quantile(values, 0.5), plain_quantile(values, 0.75), plain_quantile(values, 0.95)};
}

/// In: infinity where it does not happen.
DayWindow window_of(std::vector<double> days) {
  DayWindow window;
  const double happened = static_cast<double>(std::ranges::count_if(days, [](double d) { return std::isfinite(d); }));
  window.probability = happened / static_cast<double>(days.size());
  const auto bound = [&](double share) {
    const double value = plain_quantile(days, share);
    return std::isfinite(value) ? std::optional(value) : std::nullopt;
  };
  window.low_90 = bound(0.05);
  window.low_50 = bound(0.25);
  window.mid = bound(0.5);
  window.high_50 = bound(0.75);
  window.high_90 = bound(0.95);
  return window;
}

Estimate<double> estimate_from(std::vector<double> values) {
  return {plain_quantile(values, 0.05), plain_quantile(values, 0.5), plain_quantile(values, 0.95), Support::inferred};
}

std::vector<double> gathered(const std::vector<GroupStory>& stories, const auto& member) {
  std::vector<double> all;
  for (const GroupStory& story : stories) {
    const std::vector<double>& part = member(story);
    all.insert(all.end(), part.begin(), part.end());
  }
  return all;
}

/// Day of the highest value of each draw; a highest value on the very last day has not been seen to be one.
DayWindow peak_window(const std::vector<GroupStory>& stories, const std::vector<double>& days, std::vector<double> WaterColumns::* column) {
  std::vector<double> peaks;
  for (const GroupStory& story : stories)
    for (std::size_t i = 0; i < (story.days.front().*column).size(); ++i) {
      std::size_t best = 0;
      for (std::size_t d = 1; d < days.size(); ++d)
        if ((story.days[d].*column)[i] > (story.days[best].*column)[i]) best = d;
      peaks.push_back(best + 1 < days.size() ? days[best] : std::numeric_limits<double>::infinity());
    }
  return window_of(std::move(peaks));
}

void tell_readiness(Outlook& result, const std::vector<GroupStory>& stories, const Calendar& calendar, std::size_t draws) {
  std::vector<double> first_ready;
  for (const GroupStory& story : stories)
    for (std::size_t i = 0; i < story.capacity_now.size(); ++i) {
      double day = std::numeric_limits<double>::infinity();
      for (std::size_t t = calendar.tries.size(); t-- > 0;)
        if (story.passed[t][i]) day = calendar.tries[t];
      first_ready.push_back(day);
    }
  result.ready = window_of(std::move(first_ready));
  for (std::size_t t = 0; t < calendar.tries.size(); ++t) {
    double passed = 0.0;
    for (const GroupStory& story : stories) passed += static_cast<double>(std::ranges::count(story.passed[t], char{1}));
    const double n = static_cast<double>(draws), p = passed / n;
    // Never exactly certain: with half a draw added on either side.
    result.ready_on.push_back({calendar.tries[t], p, std::sqrt((p * n + 0.5) * ((1.0 - p) * n + 0.5) / (n + 1.0)) / (n + 1.0)});
  }
}

void tell_capacity(Outlook& result, const std::vector<GroupStory>& stories, const Future& future, const OutlookQuestion& question) {
  result.capacity_now_mg_n_per_l_per_day = estimate_from(gathered(stories, [](const GroupStory& s) -> const auto& { return s.capacity_now; }));
  const auto at_target = gathered(stories, [](const GroupStory& s) -> const auto& { return s.capacity_at_target; });
  result.capacity_at_target_mg_n_per_l_per_day = estimate_from(at_target);
  const FilterSeason& plan = future.model.season();
  for (std::size_t d = 0; d < plan.forcing.days.size(); ++d) {
    const tank::DayForcing& f = plan.forcing.days[d];
    const double day = plan.forcing.first_day + static_cast<double>(d), load = (f.excretion_mg_n_per_day + f.organic_mg_n_per_day) / plan.volume_l;
    if (day < std::floor(question.now_day) || day > question.until_day || load <= result.coming_load_mg_n_per_l_per_day) continue;
    result.coming_load_mg_n_per_l_per_day = load;
    result.coming_load_day = day;
  }
  double carries = 0.0;
  const auto factor = gathered(stories, [](const GroupStory& s) -> const auto& { return s.load_factor; });
  for (std::size_t i = 0; i < at_target.size(); ++i) carries += at_target[i] >= result.coming_load_mg_n_per_l_per_day * factor[i] ? 1.0 : 0.0;
  result.carries_coming_load_probability = carries / static_cast<double>(at_target.size());
}

/// On the cards used at the latest sittings, each test once.
void tell_next_readings(Outlook& result, const std::vector<GroupStory>& stories, const Future& future) {
  const std::vector<double> even(future.unknowns.columns(), 1.0 / static_cast<double>(future.unknowns.columns()));
  std::vector<SittingTest> tests;
  const auto& sittings = future.model.season().sittings;
  for (std::size_t s = sittings.size(); s-- > 0;)
    for (const SittingTest& test : sittings[s].tests)
      if (std::ranges::none_of(tests, [&](const SittingTest& t) { return t.test.quantity == test.test.quantity; })) tests.push_back({test.test, test.kit, {}, {}});
  for (SittingTest& test : tests) {
    std::vector<double> places;
    for (std::size_t g = 0; g < stories.size(); ++g) {
      const auto part = future.model.places(test, stories[g].next, part_of(future.unknowns, future.group_begin[g]));
      places.insert(places.end(), part.begin(), part.end());
    }
    if (places.empty()) continue;
    auto possible = possible_readings(test.test, places, even);
    if (!possible.empty()) result.next_readings.push_back({std::move(test), std::move(possible)});
  }
}

}  // namespace

Outlook outlook(const FilterPosterior& posterior, const FilterSeason& plan, const OutlookQuestion& question) {
  Outlook result;
  const auto future = future_of(posterior, plan, question);
  if (!future || question.draws == 0 || question.until_day < question.now_day) {
    result.sound = false;
    return result;
  }
  const Calendar calendar = calendar_of(question);
  std::vector<GroupStory> stories(future->group_begin.size());
  numerics::SerialWorkers alone;
  (question.workers ? *question.workers : alone).for_each(stories.size(), [&](std::size_t g) {
    stories[g] = story_of(future->model, part_of(future->unknowns, future->group_begin[g]), question, calendar);
  });
  for (const GroupStory& story : stories) result.sound = result.sound && story.sound;
  if (!result.sound) return result;
  for (std::size_t d = 0; d < calendar.days.size(); ++d) {
    const auto column = [&](std::vector<double> WaterColumns::* which) {
      return band_of(gathered(stories, [&](const GroupStory& s) -> const auto& { return s.days[d].*which; }));
    };
    result.bands.push_back({calendar.days[d], column(&WaterColumns::total_ammonia_mg_n_per_l), column(&WaterColumns::nitrite_mg_n_per_l),
                            column(&WaterColumns::nitrate_mg_n_per_l), column(&WaterColumns::ph), column(&WaterColumns::alkalinity_meq_per_l)});
  }
  result.total_ammonia_peak = peak_window(stories, calendar.days, &WaterColumns::total_ammonia_mg_n_per_l);
  result.nitrite_peak = peak_window(stories, calendar.days, &WaterColumns::nitrite_mg_n_per_l);
  tell_readiness(result, stories, calendar, question.draws);
  tell_capacity(result, stories, *future, question);
  result.next_sitting_day = calendar.next_sitting;
  tell_next_readings(result, stories, *future);
  return result;
}

std::vector<bool> ready_on_day(const FilterPosterior& posterior, const FilterSeason& plan, const OutlookQuestion& question, double day) {
  OutlookQuestion until = question;
  until.until_day = std::max(question.until_day, day);
  const auto future = future_of(posterior, plan, until);
  if (!future) return {};
  std::vector<std::vector<char>> passed(future->group_begin.size());
  numerics::SerialWorkers alone;
  (question.workers ? *question.workers : alone).for_each(passed.size(), [&](std::size_t g) {
    const ParticleTable unknowns = part_of(future->unknowns, future->group_begin[g]);
    SeasonModel::Path path = future->model.start(unknowns);
    future->model.go_to(path, unknowns, day, false);
    passed[g].resize(unknowns.columns());
    try_ready(path.ensemble, future->model, question.ready, day, passed[g]);
  });
  std::vector<bool> all;
  for (const auto& part : passed) all.insert(all.end(), part.begin(), part.end());
  return all;
}

}  // namespace redd::inference
