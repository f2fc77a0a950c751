#pragma once
// The account of the brood: received, dead, released, and counts of the living, brought to one number with its doubt. Start at alive_account().

#include <span>
#include <utility>
#include <vector>

#include "quantities/estimate.h"
#include "quantities/sentence.h"
#include "records/record.h"

namespace redd::inference {

/// Something to know, with the records it rests on.
struct Finding {
  Sentence sentence{};
  std::vector<records::RecordId> records{};
};

/// Living or hatched animals counted on one day; several takes are pooled.
struct CountTaken {
  /// Against what receipts, dead and releases leave.
  enum class Fit { fits, fewer, more };
  Date day{};
  records::Count::What what = records::Count::What::alive;
  int takes = 1;
  Estimate<double> animals{};
  Estimate<double> expected{};
  Fit fit = Fit::fits;
  std::vector<records::RecordId> records{};
};

struct AliveAccount {
  std::vector<Date> receipts{};
  std::vector<records::RecordId> receipt_records{};
  int received = 0;
  int dead_eggs = 0, dead_alevins = 0, dead_fry = 0;
  int released = 0;
  Estimate<double> alive{};                      ///< now
  std::vector<CountTaken> counts{};              ///< oldest first
  std::vector<std::pair<Date, double>> course{}; ///< the middle estimate at the end of each day on which it changed
  std::vector<Finding> contradictions{};         ///< numbers that cannot all be right
  std::vector<Finding> missing{};                ///< fewer counted than must be left

  int dead() const { return dead_eggs + dead_alevins + dead_fry; }
  int left_by_book() const { return received - dead() - released; }
  /// Living at the end of a day; 0 before the first receipt.
  double alive_on(Date day) const;
};

/// In      records: effective. The order of those of one day does not matter.
/// Out     alive: 90 %. A count that fits is weighed against the book by both their errors; one that is too low replaces it (animals are
///         missing); one that is too high leaves an interval that holds both, and is said.
/// Source  weighing: the scalar Kalman update [kalman1960]. Errors: see the source file, assumed.
AliveAccount alive_account(std::span<const records::Record> records, const ZoneOffsets& zone);

}  // namespace redd::inference
