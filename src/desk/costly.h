#pragma once
// What takes longer than anybody waits for, behind two doors: the filter's outlook, and the temperature plan with the day's answer. The server
// works them out on other threads or keeps them, a page without a server makes them in slices.

#include <functional>
#include <memory>
#include <string>

#include "desk/look.h"
#include "planning/filter_outlook.h"
#include "report/numbers.h"
#include "season/season.h"

namespace redd::desk {

enum class FilterState { absent, working, ready, cancelled, failed };
struct FilterAnswer {
  FilterState state = FilterState::absent;
  double done_fraction = 0;
  std::shared_ptr<const planning::FilterOutlook> outlook{};  ///< when ready
};

/// Answers at once with what is at hand; asking begins the work.
class FilterDoor {
 public:
  virtual ~FilterDoor() = default;
  /// What is known of this moment; begins to work it out when nothing is.
  virtual FilterAnswer ask(const std::shared_ptr<const Look>& look, Instant now) = 0;
  /// Stops the work on this moment; it stays stopped until start().
  virtual FilterAnswer cancel(const std::shared_ptr<const Look>& look, Instant now) = 0;
  virtual FilterAnswer start(const std::shared_ptr<const Look>& look, Instant now) = 0;

 protected:
  FilterDoor() = default;
  FilterDoor(const FilterDoor&) = default;
  FilterDoor& operator=(const FilterDoor&) = default;
};

/// All that the answer to "the day" follows from: two alike have the same answer, to the byte.
struct DayQuestion {
  std::shared_ptr<const Look> look{};  ///< kept alive, so that no other log can be taken for this one
  Instant now{};
  FilterAnswer filter{};
  report::Reader reader{};  ///< its zone does not count: the season's is shown
  bool same_as(const DayQuestion& other) const {
    return look == other.look && now == other.now && filter.state == other.filter.state && filter.done_fraction == other.filter.done_fraction && filter.outlook == other.filter.outlook &&
           reader.language == other.reader.language && reader.fahrenheit == other.reader.fahrenheit && reader.us_gallons == other.reader.us_gallons;
  }
};

class PlanDoor {
 public:
  virtual ~PlanDoor() = default;
  /// Errors  those of season::look_at_plan().
  virtual Result<std::shared_ptr<const season::PlanView>> plan(const std::shared_ptr<const Look>& look, Instant now) = 0;

  /// The day as JSON: what `make` gives for this question, or gave when the very same was asked before.
  virtual Result<std::string> day(const DayQuestion&, const std::function<Result<std::string>()>& make) { return make(); }

 protected:
  PlanDoor() = default;
  PlanDoor(const PlanDoor&) = default;
  PlanDoor& operator=(const PlanDoor&) = default;
};

}  // namespace redd::desk
