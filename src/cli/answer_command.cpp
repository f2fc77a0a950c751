// done, skip, later: what became of a piece of advice.
#include <algorithm>
#include <cstdlib>
#include <ostream>

#include "advice/answers.h"
#include "cli/commands.h"
#include "report/numbers.h"
#include "report/record_text.h"
#include "season/season.h"
#include "server/filter_keeper.h"

namespace redd::cli {
namespace {

/// The action meant: by its number in `redd today`, or by its key; what was put aside has only a key.
Result<advice::Action> action_meant(const advice::Advice& advice, const std::string& which) {
  const bool is_number = !which.empty() && which.size() < 4 && std::ranges::all_of(which, [](char c) { return c >= '0' && c <= '9'; });
  if (is_number) {
    const std::size_t number = static_cast<std::size_t>(std::atoi(which.c_str()));
    if (number >= 1 && number <= advice.actions.size()) return advice.actions[number - 1];
    return Problem{"unknown_action", "", said("There is no action {0} today: there are {1} (redd today --all).", which, advice.actions.size())};
  }
  std::string known;
  for (const auto* list : {&advice.actions, &advice.put_aside})
    for (const advice::Action& a : *list) {
      if (a.key == which || advice::answers(which, a.key)) return a;
      known += (known.empty() ? "" : ", ") + a.key;
    }
  return Problem{"unknown_action", "", said("\"{0}\" is not asked today{1}", which, known.empty() ? "." : said("; the keys are: {0}.", known))};
}

}  // namespace

Exit answer(const Console& console, const Place& place, const Answering& given, const Writing& writing) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  // The same list as `redd today` shows, filter and all, so that its numbers mean the same.
  server::FilterWorker worker;
  const auto found = worker.outlook(*opened->look, opened->now, [](double) { return true; });
  const auto view = season::look_at_day({opened->look->zone}, opened->look->records, opened->now, found.outlook.get());
  if (!view) return complain(console, view.problems());
  const auto action = action_meant(view->advice, given.which);
  if (!action) return complain(console, action.problems());
  records::AdviceAnswer body{given.answer, action->key, std::nullopt, given.remark};
  if (given.until) {
    body.until = date_from_iso(*given.until);
    if (!body.until) return complain(console, {{"not_a_date", "--until", said("--until {0} is not a day: write it as 2031-02-14.", *given.until)}});
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
  const auto kept = opened->desk->add(entry, opened->now);
  if (!kept) return complain(console, as_flags("advice_answer", kept.problems()));
  const report::Reader reader = console.in_zone(opened->look->zone);
  console.out << console.say(said("Kept as record {0}: {1}.", kept->record.id, report::record_text(kept->record.entry.body, opened->look->records, reader))) << "\n  "
              << report::text_of(action->what, reader) << "\n";
  if (action->tone == advice::Tone::alarm && action->aim == advice::Aim::animals)
    console.out << console.say("An alarm stays on the list until a new test or record ends it.") << "\n";
  else if (given.answer == records::AdviceAnswer::Answer::done)
    console.out << console.say("If it changed the tank, log that too: redd log --help") << "\n";
  return Exit::ok;
}

}  // namespace redd::cli
