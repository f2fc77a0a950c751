// done, skip, later: what became of a piece of advice.
#include <algorithm>
#include <cstdlib>
#include <ostream>

#include "advice/answers.h"
#include "cli/commands.h"
#include "cli/shown_list.h"
#include "quantities/verbatim.h"
#include "report/numbers.h"
#include "report/record_text.h"
#include "season/season.h"
#include "server/filter_keeper.h"

namespace redd::cli {
namespace {

bool is_number(const std::string& which) {
  return !which.empty() && which.size() < 4 && std::ranges::all_of(which, [](char c) { return c >= '0' && c <= '9'; });
}

const advice::Action* find_action(const advice::Advice& advice, const std::string& key, bool part_of_another) {
  for (const auto* list : {&advice.actions, &advice.put_aside})
    for (const advice::Action& a : *list)
      if (a.key == key || (part_of_another && advice::answers(key, a.key))) return &a;
  return nullptr;
}

/// The key meant: as typed, or of that number in the list last shown; without one in the list of now.
Result<std::string> key_meant(const advice::Advice& advice, const std::optional<std::vector<std::string>>& shown, const std::string& which) {
  if (!is_number(which)) return which;
  const auto number = static_cast<std::size_t>(std::atoi(which.c_str()));
  const std::size_t count = shown ? shown->size() : advice.actions.size();
  if (number >= 1 && number <= count) return shown ? (*shown)[number - 1] : advice.actions[number - 1].key;
  return Problem{"unknown_action", "", said("There is no action {0} today: there are {1} (redd today --all).", verbatim(which), count)};
}

/// In      quick: the advice without the filter, whose actions may be told apart otherwise.
Result<advice::Action> action_meant(const advice::Advice& advice, const advice::Advice& quick, const std::optional<std::vector<std::string>>& shown, const std::string& which) {
  const auto key = key_meant(advice, shown, which);
  if (!key) return key.problems();
  for (const bool part : {false, true})
    for (const auto* one : {&advice, &quick})
      if (const advice::Action* found = find_action(*one, *key, part)) return *found;
  if (is_number(which)) return Problem{"unknown_action", "", said("Number {0} was \"{1}\" when the list was last shown, and it is not asked any more: look again (redd today).", which, verbatim(*key))};
  std::string known;
  for (const auto* list : {&advice.actions, &advice.put_aside})
    for (const advice::Action& a : *list) known += (known.empty() ? "" : ", ") + a.key;
  return Problem{"unknown_action", "", known.empty() ? said("\"{0}\" is not asked today.", verbatim(which)) : said("\"{0}\" is not asked today; the keys are: {1}.", verbatim(which), verbatim(known))};
}

}  // namespace

Exit answer(const Console& console, const Place& place, const Answering& given, const Writing& writing) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  // With the filter and without it: either list may be the one that was shown.
  server::FilterWorker worker;
  const auto found = worker.outlook(*opened->look, opened->now, [](double) { return true; });
  const auto view = season::look_at_day({opened->look->zone}, opened->look->records, opened->now, found.outlook.get());
  if (!view) return complain(console, view.problems());
  const auto quick = season::look_at_day({opened->look->zone}, opened->look->records, opened->now);
  if (!quick) return complain(console, quick.problems());
  const auto action = action_meant(view->advice, quick->advice, last_shown(place, local_day(opened->look->zone, opened->now)), given.which);
  if (!action) return complain(console, action.problems());
  records::AdviceAnswer body{given.answer, action->key, std::nullopt, given.remark};
  if (given.until) {
    body.until = date_from_iso(*given.until);
    if (!body.until) return complain(console, {{"not_a_date", "--until", said("--until {0} is not a day: write it as 2031-02-14.", verbatim(*given.until))}});
  }
  records::Entry entry;
  entry.at = opened->now;
  if (writing.at) {
    const auto typed = instant_from_typed(*writing.at, opened->look->zone, opened->now);
    if (!typed) return complain(console, typed.problems());
    entry.at = *typed;
  }
  entry.author = author_of(writing);
  entry.body = body;
  const auto kept = opened->desk->add(entry, opened->written_at());
  if (!kept) return complain(console, as_flags("advice_answer", kept.problems()));
  const report::Reader reader = console.in_zone(opened->look->zone);
  console.out << console.say(said("Kept as record {0}: {1}.", kept->record.id, verbatim(report::record_text(kept->record.entry.body, opened->look->records, reader)))) << "\n  "
              << report::text_of(action->what, reader) << "\n";
  if (action->tone == advice::Tone::alarm && action->aim == advice::Aim::animals)
    console.out << console.say("An alarm stays on the list until a new test or record ends it.") << "\n";
  else if (given.answer == records::AdviceAnswer::Answer::done)
    console.out << console.say("If it changed the tank, log that too: redd log --help") << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
