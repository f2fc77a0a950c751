#include "server/season_desk.h"

#include <algorithm>

#include "assets/assets.h"
#include "intake/kit_file.h"
#include "ledger/season_file.h"
#include "records/labels.h"
#include "wire/codec.h"
#include "wire/json.h"
#include "zones/zones.h"

namespace redd::server {
namespace {

/// So many entries at once are kept only after a copy. Assumed: a sitting of tests has fewer, an import more.
constexpr std::size_t many = 20;

Result<std::vector<records::Record>> packed_demo() {
  const auto asset = assets::find_asset("data/demo/season.jsonl");
  if (!asset)
    return Problem{"no_demo", "",
                   "This build of Redd carries no demo season: build it again with data/demo/season.jsonl in place."};
  std::vector<records::Record> records;
  std::string_view rest = asset->text();
  for (std::size_t line = 1; !rest.empty(); ++line) {
    const std::size_t end = rest.find('\n');
    const std::string_view text = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
    if (text.empty()) continue;
    auto record = wire::record_from_json(text);
    if (!record) {
      Problems problems = record.problems();
      for (Problem& problem : problems)
        problem.sentence = said("The packed demo season, line {0}: {1}", line, problem.sentence);
      return problems;
    }
    records.push_back(std::move(record).value());
  }
  return records;
}

}  // namespace

std::optional<Date> packed_opening_day() {
  const auto asset = assets::find_asset("data/demo/story.json");
  if (!asset) return std::nullopt;
  const auto tree = wire::parsed(asset->text());
  if (!tree || !tree->is_object()) return std::nullopt;
  const auto day = tree->find("default_day");
  return day != tree->end() && day->is_string() ? date_from_iso(day->get<std::string>()) : std::nullopt;
}

Instant system_now() {
  return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

SeasonDesk::SeasonDesk(std::filesystem::path file, Clock clock, logbook::OpenMode mode)
    : file_(std::move(file)), clock_(std::move(clock)), mode_(mode), keeps_copies_(mode == logbook::OpenMode::read_write), look_([] {
        auto empty = std::make_shared<Look>();
        empty->opening_day = packed_opening_day();
        return empty;
      }()) {}

Result<std::unique_ptr<SeasonDesk>> SeasonDesk::open(const std::filesystem::path& file, Clock clock,
                                                     logbook::OpenMode mode) {
  std::unique_ptr<SeasonDesk> desk(new SeasonDesk(file, std::move(clock), mode));
  const auto look = desk->look();
  if (!look) return look.problems();
  return desk;
}

Result<std::unique_ptr<SeasonDesk>> SeasonDesk::open_demo(const std::filesystem::path& file, Clock clock,
                                                          logbook::OpenMode mode) {
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) {
    const auto records = packed_demo();
    if (!records) return records.problems();
    const auto made = logbook::Logbook::create_from(file, *records);
    // Another Redd may have made it meanwhile, and then it is as good.
    if (!made && made.problems().front().code != "file_exists") return made.problems();
  }
  std::unique_ptr<SeasonDesk> desk(new SeasonDesk(file, std::move(clock), mode));
  desk->is_demo_ = true;
  desk->keeps_copies_ = false;  // it can be had again at any time
  const auto look = desk->look();
  if (!look) return look.problems();
  return desk;
}

Result<std::shared_ptr<const Look>> SeasonDesk::look() {
  const std::lock_guard lock(mutex_);
  return look_locked();
}

Result<std::shared_ptr<const Look>> SeasonDesk::look_locked() {
  if (!logbook_) {
    std::error_code ignored;
    if (!std::filesystem::exists(file_, ignored)) return look_;
    auto opened = logbook::Logbook::open(file_, mode_);
    if (!opened) return opened.problems();
    logbook_.emplace(std::move(opened).value());
  }
  const auto last = logbook_->last_id();
  if (!last) return last.problems();
  if (*last == seen_ && look_->of_copies == of_copies_) return look_;

  auto more = logbook_->records_after(seen_);
  if (!more) return more.problems();
  auto next = std::make_shared<Look>(*look_);
  next->of_copies = of_copies_;
  std::ranges::move(more.value().records, std::back_inserter(next->records));
  std::ranges::move(more.value().unreadable, std::back_inserter(next->unreadable));
  // The set-up in force counts from the moment it is written, whatever day is looked at.
  const auto effective = records::effective(next->records, Instant::max());
  const records::SeasonSetup* season = records::find_season(effective);
  const bool same_zone = season && next->season && season->time_zone == next->season->time_zone &&
                         season->first_day == next->season->first_day;
  next->season = season ? std::optional(*season) : std::nullopt;
  if (season && !same_zone) {
    auto zone = zones::season_zone(*season);
    if (!zone) return zone.problems();
    next->zone = std::move(zone).value();
  }
  const bool first_look = seen_ == 0;
  seen_ = *last;
  look_ = std::move(next);
  // What was logged by a Redd that could make no copy, or knew of none, is copied as soon as one can.
  if (first_look && keeps_copies_ && !look_->records.empty()) {
    const auto copies = logbook::copies_of(file_);
    const auto newest = copies ? logbook::newest_whole(*copies) : std::nullopt;
    if (!newest || local_day(look_->zone, newest->made_at) < local_day(look_->zone, look_->records.back().logged_at)) keep_copy_of_day(clock_());
  }
  return of_copies_ == look_->of_copies ? look_ : look_locked();
}

Result<records::Appended> SeasonDesk::add(const records::Entry& entry, Instant now) {
  if (Problems problems = records::problems_of_labels(entry); !problems.empty()) return problems;
  const std::lock_guard lock(mutex_);
  const auto look = look_locked();
  if (!look) return look.problems();
  const auto* setup = std::get_if<records::SeasonSetup>(&entry.body);
  if (setup) {
    Problems problems = problems_of_names(*setup);
    if (!problems.empty()) return problems;
  }
  if (logbook_) {
    auto kept = logbook_->append(entry, now);
    if (kept) keep_copy_of_day(clock_());
    return kept;
  }
  if (!setup)
    return Problem{"no_season", "/kind",
                   "There is no season yet. Set one up first: on the page, or with \"redd init\"."};
  // Checked before the file is made, so that problems name the fields of this one record.
  Problems problems = records::problems_of(entry, {}, zones::season_zone(*setup).value(), now);
  if (!problems.empty()) return problems;
  std::error_code failed;
  std::filesystem::create_directories(file_.parent_path(), failed);
  const records::Record first{1, now, entry};
  auto made = logbook::Logbook::create_from(file_, {&first, 1});
  if (!made) return made.problems();
  logbook_.emplace(std::move(made).value());
  const auto kept = logbook_->records();
  if (!kept) return kept.problems();
  require(kept->records.size() == 1, "SeasonDesk::add", "a new season file must hold its set-up");
  if (look_locked()) keep_copy_of_day(clock_());
  return records::Appended{kept->records.front(), false};
}

Result<std::vector<records::Appended>> SeasonDesk::add_all(const std::vector<records::Entry>& entries, Instant now) {
  if (Problems problems = records::problems_of_labels(entries); !problems.empty()) return problems;
  const std::lock_guard lock(mutex_);
  const auto look = look_locked();
  if (!look) return look.problems();
  if (!logbook_)
    return Problem{"no_season", "", "There is no season yet. Set one up first: on the page, or with \"redd init\"."};
  keep_copy_before_many(entries.size());
  auto kept = logbook_->append_all(entries, now);
  if (kept) keep_copy_of_day(clock_());
  return kept;
}

Result<std::size_t> SeasonDesk::take_in(std::span<const records::Record> file) {
  const std::lock_guard lock(mutex_);
  const auto look = look_locked();
  if (!look) return look.problems();
  const auto fresh = ledger::new_records((*look)->records, file);
  if (!fresh) return fresh.problems();
  for (const records::Record& record : *fresh)
    if (const auto* setup = std::get_if<records::SeasonSetup>(&record.entry.body))
      if (Problems problems = problems_of_names(*setup); !problems.empty()) return problems;
  if (logbook_) {
    std::vector<logbook::DatedEntry> entries;
    for (const records::Record& record : *fresh) entries.push_back({record.entry, record.logged_at});
    keep_copy_before_many(std::max<std::size_t>(entries.size(), entries.empty() ? 0 : many));
    const auto kept = logbook_->append_dated(entries);
    if (!kept) return kept.problems();
    keep_copy_of_day(clock_());
    return fresh->size();
  }
  std::error_code failed;
  std::filesystem::create_directories(file_.parent_path(), failed);
  auto made = logbook::Logbook::create_from(file_, *fresh);
  if (!made) return made.problems();
  logbook_.emplace(std::move(made).value());
  return fresh->size();
}

Result<logbook::KeptCopy> SeasonDesk::keep_copy(logbook::Why why) {
  if (is_demo_) return no_copies_of_the_demo();
  const std::lock_guard lock(mutex_);
  const auto look = look_locked();
  if (!look) return look.problems();
  if (!logbook_ || !(*look)->season)
    return Problem{"no_season", "", "There is no season yet. Set one up first: on the page, or with \"redd init\"."};
  auto copy = logbook_->keep_copy(why, clock_(), (*look)->zone);
  remember(copy);
  return copy;
}

void SeasonDesk::keep_copy_of_day(Instant moment) {
  if (!keeps_copies_ || !logbook_) return;
  // Where what there is can't be read, the making of a copy tells what is wrong.
  const auto copies = logbook::copies_of(file_);
  if (!copies || logbook::copy_is_due(*copies, moment, look_->zone)) remember(logbook_->keep_copy(logbook::Why::daily, clock_(), look_->zone));
}

void SeasonDesk::keep_copy_before_many(std::size_t entries) {
  const auto last = logbook_ ? logbook_->last_id() : Result<records::RecordId>(records::RecordId{0});
  if (keeps_copies_ && logbook_ && entries >= many && !(last && *last == copied_)) remember(logbook_->keep_copy(logbook::Why::before_import, clock_(), look_->zone));
}

void SeasonDesk::remember(const Result<logbook::KeptCopy>& copy) {
  of_copies_.clear();
  if (copy && !copy->whole) of_copies_.push_back(logbook::not_whole(*copy).sentence);
  if (const auto last = logbook_->last_id(); copy && last) copied_ = *last;
  if (!copy)
    for (const Problem& problem : copy.problems()) of_copies_.push_back(problem.sentence);
}

std::vector<records::Kit> SeasonDesk::kit_templates() const { return server::kit_templates(); }

Problem no_copies_of_the_demo() {
  return {"demo_season", "", "The demo is invented and can be had again at any time: no copies are kept of it."};
}

Problems problems_of_names(const records::SeasonSetup& season) {
  Problems problems = desk::problems_of_species(season);
  if (const auto zone = zones::season_zone(season); !zone) problems.insert(problems.end(), zone.problems().begin(), zone.problems().end());
  return problems;
}

std::vector<records::Kit> kit_templates() {
  std::vector<records::Kit> kits;
  for (const assets::Asset& asset : assets::all_assets()) {
    if (!asset.path.starts_with("data/kits/") || !asset.path.ends_with(".toml")) continue;
    auto kit = intake::kit_from_text(asset.text());
    require(kit.has_value(), "kit_templates", "a packed kit can't be read");
    kits.push_back(std::move(kit).value());
  }
  return kits;
}

}  // namespace redd::server
