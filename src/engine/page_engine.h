#pragma once
// The core for a page without a server: one open season in memory, asked by the very addresses of the HTTP interface.
// Start at answer(). Pure but for what it remembers between two questions: no files, no clock, no randomness of its own.

#include <memory>
#include <string>
#include <string_view>

#include "desk/memory_desk.h"
#include "desk/plan_memory.h"
#include "engine/local_filter.h"
#include "report/numbers.h"
#include "wire/json.h"

namespace redd::engine {

class PageEngine {
 public:
  /// The answer to one question: those of engine::answer(), and
  ///
  ///   {"open": {"kits": [kit, …], "opening_day"?, "zones"?, "records"?: [record, …]}}   begins anew: {"opened": {"records": count}}
  ///   {"take": {"records": [record, …], "zones"?}}        records that are kept already: {"taken": {"records": count of all}}
  ///   {"api": {"method", "target": "/api/day?as_of=…", "body"?: text, "now": RFC 3339, "zones"?}}
  ///                gives {"api": {"status", "type", "body": text, "file_name"?, "allow"?}, "added": [record, …]}
  ///   {"work": true}                                      does a bit of what takes long: {"work": {"more": whether there is more}}
  ///
  ///         With "reader" beside it, as in engine.h, what is answered is worded for that reader.
  /// In      zones: [{"name", "changes": [{"from", "offset_seconds"}]}], each over the days its season needs (desk::MemoryDesk).
  ///         "added" is in the memory only: who asked keeps it, or begins anew.
  /// Errors  {"problems": […]}; nothing is thrown.
  std::string answer(std::string_view question_json);

 private:
  struct Season {
    Season(std::vector<records::Kit> kits, std::optional<Date> opening_day) : desk(std::move(kits), opening_day) {}
    desk::MemoryDesk desk;
    desk::PlanMemory plans{};
    LocalFilter filter{};
  };
  wire::Json opened(const wire::Json& open);
  wire::Json taken(const wire::Json& take);
  wire::Json asked(const wire::Json& api);
  wire::Json worked();

  std::unique_ptr<Season> season_{};
  report::Reader reader_{};  ///< of the question that is being answered
};

}  // namespace redd::engine
