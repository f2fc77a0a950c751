#pragma once
// The tests of a season as the long table that water agencies of the United States exchange (WQX): one row a result, for a file that is sent on.
// Columns and words are those of the public standard, in English whoever reads. Start at wqx_csv().
// Source  [wqx3]: Water Quality Exchange (WQX) version 3, U.S. EPA, and the columns of the Water Quality Portal's physical/chemical result file; the domain
//         values used here (characteristics, units, speciations, fractions, detection conditions, limit types, statuses, value types) were each found in the
//         lists as the npm package "wqx" 3.0.209 repeats them. Column names: as users of the portal's files quote them.

#include <span>
#include <string>

#include "records/record.h"

namespace redd::report {

/// What an agency has given the school; empty where it has not, to be filled in there.
struct WqxLabels {
  std::string organization{};
  std::string project{};
  std::string location{};
};

/// In      effective_records. Readings of the tank and its temperatures are in it; room, source and what nobody can read on its kit are not.
/// Out     UTF-8, CRLF. A coarse reading is never given as more than it is: the value is what the card prints, the comment says the range it
///         stands for; beyond the ends of a card there is no value but a condition and the limit. Hardness and alkalinity in degrees or mmol/L are converted to
///         mg/L as CaCO3 and marked "Calculated". Times in UTC.
std::string wqx_csv(std::span<const records::Record> effective_records, const WqxLabels& labels);

}  // namespace redd::report
