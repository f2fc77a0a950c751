#include "server/found_copies.h"

namespace redd::server {

std::string_view word_of(CopyState state) {
  switch (state) {
    case CopyState::whole: return "whole";
    case CopyState::older_layout: return "older_layout";
    case CopyState::bytes_only: return "bytes_only";
    case CopyState::unreadable: return "unreadable";
    case CopyState::damaged: return "damaged";
  }
  broken_promise("word_of", "unknown state of a copy");
}

Phrase why_text(logbook::Why why) {
  switch (why) {
    case logbook::Why::daily: return "of the day";
    case logbook::Why::before_import: return "before an import";
    case logbook::Why::before_undo: return "before an undo of many";
    case logbook::Why::before_restore: return "before a restore";
    case logbook::Why::before_upgrade: return "before an upgrade";
    case logbook::Why::by_hand: return "asked for";
    case logbook::Why::damaged: return "bytes of a damaged file";
  }
  broken_promise("why_text", "unknown reason of a copy");
}

FoundCopy found_copy(const logbook::Copy& copy) {
  if (copy.why == logbook::Why::damaged) return {copy, CopyState::bytes_only, "for \"redd salvage\"", std::nullopt};
  const auto check = logbook::check_file(copy.file);
  if (!check) {
    const Problem& why = check.problems().front();
    if (why.code == "read_only" || why.code == "newer_schema") return {copy, CopyState::unreadable, why.sentence, std::nullopt};
    return {copy, CopyState::damaged, "DAMAGED", std::nullopt};
  }
  const auto readable = check->read_to_end ? std::optional(check->readable) : std::nullopt;
  if (!check->whole()) return {copy, CopyState::damaged, "DAMAGED", readable};
  if (check->older_layout) return {copy, CopyState::older_layout, "pages whole, of an older Redd", check->rows};
  return {copy, CopyState::whole, "whole", readable};
}

Result<std::vector<FoundCopy>> found_copies(const std::filesystem::path& season_file) {
  const auto copies = logbook::copies_of(season_file);
  if (!copies) return copies.problems();
  std::vector<FoundCopy> found;
  for (const logbook::Copy& copy : *copies) found.push_back(found_copy(copy));
  return found;
}

}  // namespace redd::server
