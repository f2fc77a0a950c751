#include "cli/record_list.h"

#include <ostream>

#include "report/record_text.h"

namespace redd::cli {

std::string moment_text(const ZoneOffsets& zone, Instant at) {
  const std::string text = rfc3339_local(zone, at);
  return text.substr(0, 10) + " " + text.substr(11, 5) + (zone.changes.empty() ? " UTC" : "");
}

void print_records(const Console& console, std::span<const records::Record> shown, std::span<const records::Record> all, const ZoneOffsets& zone) {
  std::vector<std::vector<std::string>> rows;
  for (std::size_t i = shown.size(); i-- > 0 && rows.size() < most_named;) {
    const records::Body& body = shown[i].entry.body;
    rows.push_back({"  " + std::to_string(shown[i].id), moment_text(zone, shown[i].logged_at), console.say(Phrase(std::string(report::kind_text(body)))),
                    report::record_text(body, all, console.in_zone(zone))});
  }
  console.out << table(rows);
  if (shown.size() > rows.size()) console.out << "  " << console.say(said("… and {0} more", shown.size() - rows.size())) << "\n";
}

}  // namespace redd::cli
