#pragma once
// The season report as a document: the words and numbers of report/season_report_view.h, put in order, with the season's charts. Start at season_document().

#include <span>
#include <string>
#include <vector>

#include "print/document.h"
#include "season/report_look.h"
#include "wire/json.h"

namespace redd::print {

/// For whom it is: the agency and next year's keeper, or the class that raised the animals.
enum class Audience { agency, classroom };

struct SeasonParts {
  wire::Json report{};          ///< season_report_json(), with what makes it doubtful
  std::vector<Chart> charts{};  ///< those that have something to draw are shown
  std::vector<Pair> questions{};  ///< an agency's own, with the answers
  Instant made{};
};

/// The parts, worked out: the report, and the charts that belong into it for these readers.
///
/// In      as season::look_at_day(). doubts: what makes any answer from this file doubtful; it stands in the report.
/// Errors  as season::look_at_day().
Result<SeasonParts> season_parts(const season::Setup& setup, std::span<const records::Record> records, Instant now, std::span<const Phrase> doubts, Audience audience, const report::Reader& reader);

/// Every number and sentence of the report for an agency; for a class without permit, incidents and method, in larger figures.
Document season_document(const SeasonParts& parts, Audience audience, const report::Reader& reader);

}  // namespace redd::print
