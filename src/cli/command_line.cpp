#include "cli/command_line.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <functional>
#include <list>
#include <map>
#include <ostream>
#include <set>

#include "calc/registry.h"
#include "cli/commands.h"
#include "cli/completion.h"
#include "cli/described_app.h"
#include "cli/import_flags.h"
#include "cli/manual_command.h"
#include "cli/words_of_help.h"
#include "lessons/worksheet.h"

namespace redd::cli {
namespace {

/// CLI11 takes "-2C" for a flag. A real minus sign is not one, and typed_values() turns it back.
constexpr std::string_view minus = "\u2212";

std::string with_real_minus(const std::string& word) {
  const bool negative = word.size() > 1 && word[0] == '-' && (word[1] == '.' || (word[1] >= '0' && word[1] <= '9'));
  return negative ? std::string(minus) + word.substr(1) : word;
}

std::string with_hyphen(std::string word) {
  if (word.starts_with(minus)) word.replace(0, minus.size(), "-");
  return word;
}

/// One flag of a record as CLI11 fills it.
struct Slot {
  std::string name;
  std::vector<std::string> values{};
  std::string truth{};
  CLI::Option* option = nullptr;
  bool is_truth = false;
  bool takes_nothing = false;
  bool joins_words = false;
  std::vector<std::string> words{};  ///< the only ones it takes
};

std::string help_of(const Flag& flag, report::Language language) {
  std::string text = help_text(flag.meaning, language);
  if (!flag.units.empty()) {
    std::string units;
    for (const UnitSpelling& unit : flag.units)
      if (!unit.spellings.empty()) units += (units.empty() ? "" : help_text(" or ", language)) + unit.spellings.front();
    if (!units.empty()) text += help_text(" (in ", language) + units + ")";
  }
  if (flag.reads == Flag::Reads::date) text += help_text(" (YYYY-MM-DD)", language);
  for (std::size_t i = 0; i < flag.words.size(); ++i) text += (i == 0 ? ": " : ", ") + dashed(flag.words[i]);
  return text;
}

/// The flags of one kind on one command.
class RecordFlags {
 public:
  explicit RecordFlags(report::Language language) : language_(language) {}

  void add(CLI::App& command, const Flag& flag, bool positional, bool joins_words) {
    Slot& slot = slots_.emplace_back();
    slot.name = flag.name;
    slot.joins_words = joins_words;
    for (const std::string& word : flag.words) slot.words.push_back(dashed(word));
    const std::string help = help_of(flag, language_);
    const std::string names = positional ? "--" + flag.name + "," + flag.name : "--" + flag.name;
    if (flag.reads == Flag::Reads::truth) {
      slot.is_truth = true;
      slot.option = command.add_flag("--" + flag.name + ",!--not-" + flag.name, slot.truth, help);
      return;
    }
    slot.takes_nothing = flag.name == "below" || flag.name == "above";
    if (flag.reads == Flag::Reads::form && slot.takes_nothing) {
      slot.option = command.add_flag("--" + flag.name, slot.truth, help);
      return;
    }
    const bool is_pair = flag.name == "between" && flag.reads == Flag::Reads::form;
    const char* type = flag.reads == Flag::Reads::text ? "TEXT" : "VALUE";
    if (joins_words) {
      slot.option = command.add_option(names, slot.values, help)->type_name(type)->expected(1, 1000);
    } else if (is_pair) {
      slot.option = command.add_option(names, slot.values, help)->type_name("LOWER UPPER")->expected(2);
    } else {
      slot.option = command.add_option(names, slot.values.emplace_back(), help)->type_name(type);
    }
  }

  /// The only words an option takes; nothing for another's option, and where it takes any.
  std::vector<std::string> words_of(const CLI::Option& option) const {
    const auto slot = std::ranges::find_if(slots_, [&](const Slot& each) { return each.option == &option; });
    return slot == slots_.end() ? std::vector<std::string>{} : slot->words;
  }

  Typed typed() const {
    Typed typed;
    for (const Slot& slot : slots_) {
      if (slot.option->count() == 0) continue;
      std::vector<std::string>& values = typed[slot.name];
      if (slot.is_truth) values = {slot.truth};
      if (slot.is_truth || slot.takes_nothing) continue;
      for (const std::string& value : slot.values) {
        if (slot.joins_words && !values.empty())
          values.front() += " " + value;
        else
          values.push_back(with_hyphen(value));
      }
    }
    return typed;
  }

 private:
  std::list<Slot> slots_{};  // CLI11 keeps references into it
  report::Language language_;
};

struct Everything {
  Everything(const Console& where, report::Language help) : console(where), help_language(help) {}

  const Console& console;
  report::Language help_language;
  Place place{};
  std::string data_dir{}, as_of{}, language{}, units{};
  Writing writing{};
  std::list<RecordFlags> record_flags{};
  std::function<Exit()> command{};  ///< what was asked for; empty: only `redd`

  // Words of the single commands.
  std::int64_t id = 0;
  std::string key{}, file{}, tables{};
  WqxAsked wqx{};
  bool json = false, quick = false, all = false, force = false;
  std::string kind{};
  Importing importing{};
  ImportingCalendar calendar{};
  ThermometerAsked thermometer{};
  std::vector<std::string> columns{};
  std::map<std::string, std::string> settings{};
  Serving serving{};
  HeatQuestion heat{};
  Answering answering{};
  WaterQuestion water{};
  EmergencyQuestion emergency{};
  BenchQuestion bench{};
  LessonsQuestion lessons{};
  PlanFile plan_file{};
  bool own = false, list_formulas = false, yes = false, make = false, without_copies = false;
  std::string since{}, target{}, name{};
  std::vector<std::string> inputs{};
  ManualQuestion manual{};
  PassphraseChange passphrase{};
  CodeQuestion code{};
  AuditQuestion audit{};
  std::string shell{};
};

void add_writing(CLI::App& command, Everything& all, bool with_json) {
  command.add_option(
      "--at", all.writing.at,
      "when it happened, at the school's clock: 07:50, 2031-02-14, \"2031-02-14 07:50\", or RFC 3339 (else now)");
  command.add_option("--author", all.writing.author,
                     "who logs this: a team or role label, not a person's name (else $REDD_AUTHOR, else keeper)");
  if (with_json)
    command.add_option("--json", all.writing.json, "the whole body of the record as JSON, instead of flags")
        ->type_name("BODY");
}

std::string words_for(const std::string& kind) {
  static const std::map<std::string, const char*> words{
      {"kit", "A test kit (easier: redd kit use FILE)"},
      {"source_water", "The water that changes are made with: tap, rain barrel"},
      {"reading", "A water test"},
      {"temperature", "A temperature of tank, room or source water"},
      {"water_change", "Water taken out and replaced"},
      {"dose", "A salt or conditioner added"},
      {"set_point", "What the chiller's controller is set to"},
      {"egg_receipt", "Eggs arriving, with what the hatchery says of their age"},
      {"count", "Dead or living animals counted"},
      {"feeding", "Food given"},
      {"filter_work", "Media rinsed, replaced, added or seeded"},
      {"equipment", "Something failed, was restored, switched or serviced"},
      {"milestone", "Eyes, hatch or swim-up seen, or looked for and not yet there (--not-seen)"},
      {"note", "Anything else worth remembering"},
      {"release", "Fish released, where the permit allows it"},
      {"closure", "Days the school is closed, or a day it shuts early (a whole calendar: redd import calendar)"},
      {"duty", "Who looks after the tank from a day to a day: a label, not a name"},
      {"tank_build", "Measures, walls, chiller and room of the tank, for its heat"},
      {"top_up", "Water added for what evaporated: not a water change"},
      {"spoon", "What level spoons of food weigh together, once, so that feedings can be logged in spoons"},
      {"fish_sample", "Some fish weighed together, or measured, and put back"},
      {"advice_answer", "What became of a piece of advice (shorter: redd done, redd skip, redd later)"},
      {"guess", "What a team expects of a reading to come (see redd lessons)"}};
  const auto found = words.find(kind);
  return found == words.end() ? dashed(kind) : found->second;
}

void add_log(CLI::App& app, Everything& all) {
  CLI::App* log_command = app.add_subcommand("log", "Log a reading, a temperature, a water change or anything else");
  log_command->require_subcommand(1);
  for (const std::string_view name : records::kind_names()) {
    const std::string kind(name);
    if (kind == "season_setup" || kind == "undo") continue;  // redd init, redd undo
    CLI::App* command = log_command->add_subcommand(dashed(kind), words_for(kind));
    if (kind.find('_') != std::string::npos) command->alias(kind);
    RecordFlags& flags = all.record_flags.emplace_back(all.help_language);
    const auto positionals = positionals_of(kind);
    for (const Flag& flag : flags_of(kind))
      flags.add(*command, flag, std::ranges::find(positionals, flag.name) != positionals.end(), kind == "note");
    add_writing(*command, all, true);
    command->add_option("--entry-key", all.writing.entry_key, "your own key: sent twice, the record is kept once");
    command->callback([&all, &flags, kind] {
      all.command = [&all, &flags, kind] { return log(all.console, all.place, kind, flags.typed(), all.writing); };
    });
  }
  // After its kinds, which would otherwise take it over.
  log_command->footer(
      "Examples:\n"
      "  redd log reading nitrite --step 0.1          the colour matches the printed step 0.1\n"
      "  redd log reading nitrite --between 0.1 0.25  the colour lies between two steps\n"
      "  redd log reading kh --drops 7                seven drops until the colour turned\n"
      "  redd log temperature 8.4C                    or 47F; the unit must be said\n"
      "  redd log water-change 20L --dechlorinated    or 5gal\n"
      "  redd log count dead-eggs 3 --author \"Team Otter\" --at 07:50\n"
      "\"redd log KIND --help\" shows the flags of a kind.");
}

void add_writers(CLI::App& app, Everything& all) {
  CLI::App* init_command =
      app.add_subcommand("init", "Set up a season of your own (asks for what the flags leave open)");
  RecordFlags& setup = all.record_flags.emplace_back(all.help_language);
  for (const Flag& flag : flags_of("season_setup"))
    if (flag.name != "invented") setup.add(*init_command, flag, false, false);
  add_writing(*init_command, all, true);
  init_command->footer(
      "Example:\n  redd init --name \"Brook trout 2031\" --time-zone America/Denver --first-day 2031-01-06 \\\n"
      "      --volume 210L --elevation-m 640 --species brook_trout --target 8C --egg-day 2031-02-10");
  init_command->callback([&all, &setup] {
    all.command = [&all, &setup] { return init(all.console, all.place, setup.typed(), all.writing); };
  });

  add_log(app, all);

  CLI::App* correct_command =
      app.add_subcommand("correct", "Correct a record: the flags of its kind say what was different");
  correct_command->add_option("id", all.id, "number of the record (redd list)")->required();
  RecordFlags& any = all.record_flags.emplace_back(all.help_language);
  std::set<std::string> known{"json", "at", "author"};
  for (const std::string_view kind : records::kind_names())
    for (const Flag& flag : flags_of(kind))
      if (known.insert(flag.name).second) any.add(*correct_command, flag, false, false);
  add_writing(*correct_command, all, true);
  correct_command->footer(
      "The old record stays in the file; the new one counts. Example:\n  redd correct 42 --step 0.25");
  correct_command->callback([&all, &any] {
    all.command = [&all, &any] { return correct(all.console, all.place, all.id, any.typed(), all.writing); };
  });

  CLI::App* undo_command = app.add_subcommand("undo", "Take a record back (undo the undo to bring it back)");
  CLI::Option* one = undo_command->add_option("id", all.id, "number of the record (redd list)");
  CLI::Option* since = undo_command->add_option("--logged-since", all.since, "take back every record logged since this day or moment instead")->excludes(one);
  undo_command->add_flag("--yes", all.yes, "with --logged-since: the records shown are right")->needs(since);
  undo_command->add_option("--author", all.writing.author, "who takes it back: a label");
  undo_command->callback([&all, one, since] {
    if (one->count() + since->count() == 0) throw CLI::RequiredError("id");
    all.command = [&all] {
      return all.since.empty() ? undo(all.console, all.place, all.id, all.writing) : undo_since(all.console, all.place, all.since, all.yes, all.writing);
    };
  });
}

/// done, skip, later: one command an answer.
void add_answers(CLI::App& app, Everything& all) {
  using Answer = records::AdviceAnswer::Answer;
  const auto add = [&](const char* name, Answer answer_given, const char* words) {
    CLI::App* command = app.add_subcommand(name, words);
    command->add_option("which", all.answering.which, "its number in the list \"redd today\" showed last, or its key")->required();
    if (answer_given == Answer::not_now) command->add_option("--until", all.answering.until, "the day to ask again, YYYY-MM-DD (else tomorrow)");
    command->add_option("--remark", all.answering.remark, "anything to add");
    add_writing(*command, all, false);
    command->callback([&all, answer_given] {
      all.answering.answer = answer_given;
      all.command = [&all] { return answer(all.console, all.place, all.answering, all.writing); };
    });
  };
  add("done", Answer::done, "A thing of today's list is done");
  add("skip", Answer::skipped, "Leave a thing out this time; an alarm stays");
  add("later", Answer::not_now, "Ask again another day; an alarm stays");
}

void add_lookers(CLI::App& app, Everything& all) {
  CLI::App* today_command = app.add_subcommand("today", "What today's records mean and what to do");
  today_command->add_flag("--json", all.json, "everything, as the page gets it");
  today_command->add_flag("--quick", all.quick, "at once, without the filter's outlook (which takes a second or so)");
  today_command->add_flag("--all", all.all, "every action, not only the first five, and what was put aside");
  today_command->callback([&all] { all.command = [&all] { return today(all.console, all.place, {all.json, all.quick, all.all}); }; });

  CLI::App* outlook_command = app.add_subcommand("outlook", "When the filter will be ready, what it can carry, what the next tests should read");
  outlook_command->add_flag("--json", all.json, "as JSON");
  outlook_command->callback([&all] { all.command = [&all] { return outlook(all.console, all.place, {all.json, false}); }; });

  CLI::App* plan_command = app.add_subcommand("plan", "Which temperature to set when, so that hatch and first feeding fall on good days");
  CLI::Option* plan_json = plan_command->add_flag("--json", all.json, "as JSON");
  CLI::Option* ics = plan_command->add_option("--ics", all.plan_file.file, "write the plan and its tasks as an iCalendar file; - for standard output")->type_name("FILE")->excludes(plan_json);
  plan_command->add_flag("--closures", all.plan_file.closures, "with --ics: also the days the school is closed")->needs(ics);
  plan_command->add_flag("--force", all.plan_file.force, "with --ics: replace the file")->needs(ics);
  plan_command->callback([&all] {
    all.command = [&all] { return all.plan_file.file.empty() ? plan(all.console, all.place, {all.json, false}) : plan_file(all.console, all.place, all.plan_file); };
  });

  CLI::App* heat_command = app.add_subcommand("heat", "What the chiller can hold, how long the tank stays cold without it, what bottles and foam buy");
  heat_command->add_option("--target", all.heat.target, "water temperature to hold, with its unit: 9C or 48F (else the set-point)");
  heat_command->add_option("--room", all.heat.room, "room temperature, with its unit (else as planned for the coming week)");
  heat_command->add_option("--humidity", all.heat.humidity_percent, "relative humidity of the room in percent");
  heat_command->add_flag("--json", all.heat.json, "as JSON");
  heat_command->callback([&all] { all.command = [&all] { return heat(all.console, all.place, all.heat); }; });

  CLI::App* feed_command = app.add_subcommand("feed", "How much food today and tomorrow, who feeds while closed, how the fish grow");
  feed_command->add_flag("--json", all.json, "as JSON");
  feed_command->add_flag("--quick", all.quick, "at once, without what the filter can carry (which takes a second or so)");
  feed_command->callback([&all] { all.command = [&all] { return feed(all.console, all.place, {all.json, all.quick}); }; });
  CLI::App* loading_command = app.add_subcommand("loading", "How many eggs or fry this tank carries on each day to come, and what limits it first");
  loading_command->add_flag("--json", all.json, "as JSON");
  loading_command->add_flag("--quick", all.quick, "at once, without the filter's outlook: then ammonia can't be judged");
  loading_command->callback([&all] { all.command = [&all] { return loading(all.console, all.place, {all.json, all.quick}); }; });
  CLI::App* water_command = app.add_subcommand("water", "Which water changes the coming weeks need, or what a change you propose would do");
  water_command->add_option("--change", all.water.change, "a change to try: \"30 %\", or a volume with its unit: 60L or 15gal; nothing is kept");
  water_command->add_option("--source", all.water.source, "with --change: key of the source water (else the one last used)");
  water_command->add_option("--temp", all.water.temperature, "with --change: temperature of the new water, with its unit: 9C or 48F (else tempered)");
  water_command->add_flag("--vacuum", all.water.vacuum, "with --change: the bottom is vacuumed with it");
  water_command->add_flag("--straight-from-tap", all.water.unaired, "with --change: the new water has not stood and bubbled");
  water_command->add_flag("--with-chlorine", all.water.chlorinated, "with --change: the new water is not dechlorinated");
  water_command->add_flag("--json", all.water.json, "as JSON");
  water_command->add_flag("--quick", all.water.quick, "at once, without the filter's outlook (which takes a second or so)");
  water_command->callback([&all] { all.command = [&all] { return water(all.console, all.place, all.water); }; });
  CLI::App* bench_command = app.add_subcommand("bench", "The next sitting of water tests: in which order, and how long it takes");
  bench_command->add_option("--hands", all.bench.hands, "pairs of hands, 1 or 2")->check(CLI::Range(1, 2));
  bench_command->add_option("--kit", all.bench.kit, "key of the kit; not needed when only one is in use");
  bench_command->add_option("--tests", all.bench.tests, "these tests only")->delimiter(',');
  bench_command->add_flag("--json", all.bench.json, "as JSON");
  bench_command->callback([&all] { all.command = [&all] { return bench(all.console, all.place, all.bench); }; });

  CLI::App* emergency_command = app.add_subcommand("emergency", "What to do when something fails, how long this tank holds, whom to call");
  emergency_command->add_option("which", all.emergency.which, "one kind, e.g. power-cut; without it all in short");
  emergency_command->add_flag("--card", all.emergency.card, "all on one page, to print and hang beside the tank");
  emergency_command->add_flag("--json", all.emergency.json, "as JSON");
  emergency_command->callback([&all] { all.command = [&all] { return emergency(all.console, all.place, all.emergency); }; });

  CLI::App* counts_command = app.add_subcommand("counts", "The brood in numbers: alive, losses against what is expected, survival");
  counts_command->add_flag("--json", all.json, "as JSON");
  counts_command->callback([&all] { all.command = [&all] { return counts(all.console, all.place, all.json); }; });

  CLI::App* report_command = app.add_subcommand("report", "The whole season to hand on: animals, dates, water, releases, who kept it");
  report_command->add_flag("--json", all.json, "as JSON");
  report_command->callback([&all] { all.command = [&all] { return report(all.console, all.place, all.json); }; });
  CLI::App* next_year_command = app.add_subcommand("next-year", "What this season teaches the next one, with its numbers and how sure");
  next_year_command->add_flag("--json", all.json, "as JSON");
  next_year_command->callback([&all] { all.command = [&all] { return next_year(all.console, all.place, all.json); }; });

  CLI::App* lessons_command = app.add_subcommand("lessons", "The guessing game, readings by team, and worksheets from the tank's own data");
  CLI::Option* level = lessons_command->add_option("--level", all.lessons.level, "print the worksheet for younger (8 to 10) or older (11 to 14)")->check(CLI::IsMember({"younger", "older"}));
  lessons_command->add_option("--sheet", all.lessons.sheet, "number of the worksheet; another number chooses other days and amounts")->check(CLI::Range(1, redd::lessons::most_sheets));
  lessons_command->add_flag("--answers", all.lessons.answers, "with --level: its answers instead")->needs(level);
  lessons_command->add_flag("--json", all.lessons.json, "as JSON");
  lessons_command->callback([&all] { all.command = [&all] { return lessons(all.console, all.place, all.lessons); }; });

  CLI::App* milestones_command = app.add_subcommand("milestones", "When eyes, hatch and swim-up are expected");
  milestones_command->add_flag("--json", all.json, "as JSON");
  milestones_command->callback(
      [&all] { all.command = [&all] { return milestones(all.console, all.place, all.json); }; });

  CLI::App* list_command = app.add_subcommand("list", "Records, newest first, with their numbers");
  list_command->add_option("--kind", all.kind, "only this kind, e.g. water-change");
  list_command->add_flag("--all", all.all, "all of them, not only the newest 30");
  list_command->add_flag("--json", all.json, "as JSON");
  list_command->callback([&all] {
    all.command = [&all] {
      return list(all.console, all.place,
                  {all.kind.empty() ? std::nullopt : std::optional(kind_from_typed(all.kind)), all.all, all.json});
    };
  });
}

void add_kits(CLI::App& app, Everything& all) {
  CLI::App* kit_command = app.add_subcommand("kit", "Test kits: your own card as a file");
  kit_command->require_subcommand(1);
  kit_command->add_subcommand("list", "Kits in use, and templates")->callback([&all] {
    all.command = [&all] { return kit_list(all.console, all.place); };
  });
  CLI::App* show = kit_command->add_subcommand("show", "A kit in use, as a file to edit");
  show->add_option("key", all.key, "key of the kit; not needed when only one is in use");
  show->callback([&all] { all.command = [&all] { return kit_show(all.console, all.place, all.key); }; });
  CLI::App* copy = kit_command->add_subcommand("template", "A template, as a file to edit to match your card");
  copy->add_option("key", all.key, "key of the template")->required();
  copy->callback([&all] { all.command = [&all] { return kit_template(all.console, all.key); }; });
  CLI::App* check = kit_command->add_subcommand("check", "Check a kit file; nothing is kept");
  check->add_option("file", all.file, "TOML or JSON file, - for standard input")->type_name("FILE")->required();
  check->callback([&all] { all.command = [&all] { return kit_check(all.console, all.file); }; });
  CLI::App* use = kit_command->add_subcommand("use", "Use this kit from now on");
  use->add_option("kit", all.file, "TOML or JSON file, - for standard input, or the key of a template")->type_name("FILE")->required();
  add_writing(*use, all, false);
  use->callback([&all] { all.command = [&all] { return kit_use(all.console, all.place, all.file, all.writing); }; });
}

void add_import_flags(CLI::App& command, Everything& all, const std::string& what) {
  command.add_option("file", all.file, "CSV file, - for standard input")->type_name("FILE")->required();
  for (const ImportFlag& flag : import_flags(what))
    command.add_option_function<std::string>(
        "--" + dashed(flag.setting),
        [&all, name = std::string(flag.setting)](const std::string& word) { all.settings[name] = word; }, flag.help);
  command
      .add_option("--column", all.columns,
                  "what a column holds: HEADER=MEANING, meaning a test, kit/test, temperature, note, team or ignore")
      ->take_all()
      ->expected(1);
  command.add_flag("--yes", all.importing.yes, "the guesses shown are right: keep the records");
  command.add_flag("--keep-good-rows", all.importing.keep_good_rows, "keep the good rows although there are bad ones");
  command.add_flag("--json", all.importing.json, "the preview as JSON");
  command.callback([&all, what] {
    all.command = [&all, what] {
      all.importing.what = what;
      all.importing.file = all.file;
      all.importing.settings = all.settings;
      for (const std::string& column : all.columns) {
        const std::size_t equals = column.rfind('=');
        if (equals == std::string::npos || equals == 0)
          return complain(all.console,
                          {{"wrong_column", "--column",
                            "--column \"" + column + "\": " + help_text("it must be HEADER=MEANING, for example --column \"pH=ph\".", all.help_language)}});
        all.importing.settings["columns/" + column.substr(0, equals)] = column.substr(equals + 1);
      }
      return import_table(all.console, all.place, all.importing);
    };
  });
}

void add_import_and_export(CLI::App& app, Everything& all) {
  CLI::App* import_command = app.add_subcommand("import", "Readings, temperatures, a school calendar or a whole season from a file");
  import_command->require_subcommand(1);
  add_import_flags(*import_command->add_subcommand("readings", "Test readings from a CSV file"), all,
                   "readings");
  add_import_flags(*import_command->add_subcommand("temperatures", "A logger's temperatures from a CSV file"), all,
                   "temperatures");
  CLI::App* calendar = import_command->add_subcommand("calendar", "Days the school is closed, from its iCalendar file (.ics)");
  calendar->add_option("file", all.calendar.file, ".ics file, - for standard input")->type_name("FILE")->required();
  calendar->add_flag("--all", all.calendar.all, "every whole-day event, not only those that sound like a closed school");
  calendar->add_flag("--yes", all.calendar.yes, "the closures shown are right: keep them");
  calendar->add_flag("--keep-good-rows", all.calendar.keep_good_rows, "keep them although other events can't be read");
  calendar->add_flag("--json", all.calendar.json, "the preview as JSON");
  calendar->add_option("--author", all.calendar.author, "label the records carry");
  calendar->callback([&all] { all.command = [&all] { return import_calendar(all.console, all.place, all.calendar); }; });
  import_command->footer(
      "The file is read and shown first; what was guessed is named with the flag that decides it.\n"
      "Importing the same file again adds nothing.");
  CLI::App* season =
      import_command->add_subcommand("season", "A season saved on a page or by \"redd export\": all of it, or what continues the same season");
  season->add_option("file", all.file, "file, folder or .zip of tables; - for standard input")->type_name("FILE")->required();
  season->callback([&all] { all.command = [&all] { return import_season(all.console, all.place, all.file); }; });

  CLI::App* export_command = app.add_subcommand("export", "The whole season as one file");
  export_command->add_option("file", all.file, "file to write (else standard output)")->type_name("FILE");
  export_command->add_option("--csv", all.tables, "folder or .zip to write instead: CSV tables with every column's unit and meaning")->type_name("FILE");
  export_command->add_option("--wqx", all.wqx.file, "file to write instead, - for standard output: the tests as the long table of the public WQX conventions")->type_name("FILE");
  export_command->add_option("--organization", all.wqx.labels.organization, "WQX: identifier the agency gave your organization");
  export_command->add_option("--project", all.wqx.labels.project, "WQX: identifier of the project");
  export_command->add_option("--location", all.wqx.labels.location, "WQX: identifier of the monitoring location");
  export_command->add_flag("--force", all.force, "replace the file if it exists");
  export_command->callback([&all] {
    all.command = [&all] {
      if (!all.tables.empty()) return export_tables(all.console, all.place, all.tables, all.force);
      if (!all.wqx.file.empty()) return export_wqx(all.console, all.place, all.wqx, all.force);
      return export_season(all.console, all.place, all.file, all.force);
    };
  });

  CLI::App* edition_command = app.add_subcommand("edition", "Redd in one HTML file, for a computer on which nothing can be installed");
  edition_command->add_option("file", all.file, "file to write")->type_name("FILE")->default_str("redd.html");
  edition_command->add_flag("--force", all.force, "replace the file if it exists");
  edition_command->callback(
      [&all] { all.command = [&all] { return edition(all.console, all.file.empty() ? "redd.html" : all.file, all.force); }; });
}

void add_safety(CLI::App& app, Everything& all) {
  CLI::App* copies_command = app.add_subcommand("copies", "Copies of the season that Redd keeps by itself, each read to see whether it is whole");
  copies_command->add_flag("--make", all.make, "make one now");
  copies_command->callback([&all] { all.command = [&all] { return copies(all.console, all.place, all.make); }; });

  CLI::App* restore_command = app.add_subcommand("restore", "Put a copy of the season back (what is there now is kept as a copy first)");
  restore_command->add_option("copy", all.key, "number of the copy (redd copies), a day (the newest whole one of that day or before), or a file")->type_name("FILE")->required();
  restore_command->add_flag("--yes", all.yes, "what is shown is right: put it back");
  restore_command->callback([&all] { all.command = [&all] { return restore(all.console, all.place, all.key, all.yes); }; });

  CLI::App* check_command = app.add_subcommand("check", "Whether the season file is whole: every page, every record, none missing");
  check_command->add_option("file", all.file, "another file than the season, such as a copy made by hand")->type_name("FILE");
  check_command->callback([&all] { all.command = [&all] { return check(all.console, all.place, all.file); }; });

  CLI::App* salvage_command = app.add_subcommand("salvage", "Read what can be read out of a damaged season file, into a new one");
  salvage_command->add_option("damaged", all.file, "the damaged file; it is not changed")->type_name("FILE")->required();
  salvage_command->add_option("new", all.target, "the file to make")->type_name("FILE")->required();
  salvage_command->add_flag("--without-copies", all.without_copies, "from the damaged file alone, not also from copies of the same season");
  salvage_command->callback([&all] { all.command = [&all] { return salvage(all.console, all.file, all.target, all.without_copies); }; });

  CLI::App* delete_command = app.add_subcommand("delete-season", "Delete the season and every copy of it here, for good (asks for its name)");
  delete_command->add_option("--name", all.name, "the season's name, instead of being asked for it");
  delete_command->callback([&all] { all.command = [&all] { return delete_season(all.console, all.place, all.name); }; });
}

void add_serving(CLI::App& app, Everything& all) {
  CLI::App* serve_command = app.add_subcommand("serve", "Serve the page on this machine until stopped");
  CLI::App* demo_command = app.add_subcommand("demo", "Serve the invented demo season (as serve --demo)");
  for (CLI::App* command : {serve_command, demo_command}) {
    command->add_option("--port", all.serving.port, "port on this machine")->capture_default_str();
    command->add_flag("--no-browser", all.serving.no_browser, "only say the address, open no browser");
    CLI::Option* shared = command->add_flag("--on-network", all.serving.on_network, "also for the devices of the classroom, over the local network: with TLS, and only after signing in");
    command->add_option("--network-port", all.serving.network_port, "with --on-network: its port")->capture_default_str()->needs(shared);
    command->add_option("--certificate", all.serving.certificate, "with --on-network: the school's certificate with its chain, PEM (else Redd makes its own)")->type_name("FILE")->needs(shared);
    command->add_option("--key", all.serving.key, "with --certificate: its key, PEM")->type_name("FILE")->needs(shared);
  }
  serve_command->add_flag("--new", all.own, "your own season, to be set up on the page (the default; not the demo)");
  demo_command->add_flag("--fresh", all.serving.fresh, "begin the demo anew, without what was logged in it");
  serve_command->callback([&all] {
    all.command = [&all] {
      if (all.own && all.place.demo)
        return complain(all.console, {{"exclusive_flags", "--new", help_text("--new and --demo exclude each other.", all.help_language)}});
      return serve(all.console, all.place, all.serving);
    };
  });
  demo_command->callback([&all] {
    all.command = [&all] {
      all.place.demo = true;
      return serve(all.console, all.place, all.serving);
    };
  });
}

/// Sharing a season in the classroom.
void add_classroom(CLI::App& app, Everything& all) {
  CLI::App* passphrase_command = app.add_subcommand("passphrase", "Set the keeper's passphrase, without which Redd can't be shared (asks for it, unseen)");
  CLI::Option* from = passphrase_command->add_option("--from-file", all.passphrase.file, "a file that holds it, - for standard input")->type_name("FILE");
  passphrase_command->add_flag("--remove", all.passphrase.remove, "remove it instead")->excludes(from);
  passphrase_command->callback([&all] { all.command = [&all] { return passphrase(all.console, all.place, all.passphrase); }; });

  CLI::App* code_command = app.add_subcommand("code", "Make a bench code for a team, on the Redd that serves on this machine");
  code_command->add_option("--team", all.code.team, "the team's label; the code then logs under it only (else for any team)");
  code_command->add_option("--minutes", all.code.minutes, "how long it holds, 5 to 600 (else 120)");
  CLI::Option* list = code_command->add_flag("--list", all.code.list, "show the codes and sessions that are open instead");
  code_command->add_flag("--end-all", all.code.end_all, "end all codes and sessions instead")->excludes(list);
  code_command->add_option("--port", all.code.port, "port of that Redd on this machine")->capture_default_str();
  code_command->callback([&all] { all.command = [&all] { return code(all.console, all.code); }; });

  CLI::App* audit_command = app.add_subcommand("audit", "Who did what and when: records, sign-ins, bench codes");
  audit_command->add_option("--limit", all.audit.limit, "so many rows, newest first")->capture_default_str()->check(CLI::Range(1, 100000));
  audit_command->add_flag("--json", all.audit.json, "as JSON");
  audit_command->callback([&all] { all.command = [&all] { return audit(all.console, all.place, all.audit); }; });
}

void add_thermometer(CLI::App& app, Everything& all) {
  CLI::App* command = app.add_subcommand("thermometer", "Read the live thermometer once, try its alarm, or find a sensor");
  auto* find = command->add_flag("--find", all.thermometer.find, "list the temperature files of this machine");
  auto* tried = command->add_flag("--try", all.thermometer.try_alarm, "send a test alarm on every way that is set up");
  auto* settings = command->add_flag("--settings", all.thermometer.settings, "print a settings file to start from");
  find->excludes(tried)->excludes(settings);
  tried->excludes(settings);
  command->footer(
      "The settings are the file thermometer.conf beside the season, readable by its owner alone.\n"
      "\"redd serve\" reads the sensor as long as it runs.");
  command->callback([&all] { all.command = [&all] { return thermometer(all.console, all.place, all.thermometer); }; });
}

void add_formulas(CLI::App& app, Everything& all) {
  CLI::App* calc_command =
      app.add_subcommand("calc", "Any formula by name: redd calc oxygen_saturation temperature_c=8 elevation_m=640");
  calc_command->add_option("name", all.key, "name of the formula (redd calc --list)");
  calc_command->add_option("inputs", all.inputs, "key=value, keys carry their units");
  calc_command->add_flag("--list", all.list_formulas, "all formulas: inputs, units, ranges, sources");
  calc_command->add_flag("--json", all.json, "as JSON, numbers unrounded");
  calc_command->callback([&all] {
    all.command = [&all] {
      if (all.list_formulas) return calc_list(all.console, all.json);
      if (!all.key.empty()) return calc(all.console, all.key, all.inputs, all.json);
      all.console.err << "redd: " << help_text("calc needs the name of a formula; redd calc --list shows them.", all.help_language) << "\n";
      return Exit::usage;
    };
  });
  app.add_subcommand("engine", "Answer questions in JSON, one a line, from standard input")->callback([&all] {
    all.command = [&all] { return engine(all.console); };
  });
}

/// Words an option is known to take, beside those that its own check names.
std::vector<std::string> known_words(const Everything& all, const CommandText& command, const CLI::Option& option) {
  for (const RecordFlags& flags : all.record_flags)
    if (auto words = flags.words_of(option); !words.empty()) return words;
  const std::string what = command.name() + " " + option.get_name();
  std::vector<std::string> words;
  if (what == "redd calc name")
    for (const calc::Formula& formula : calc::all_formulas()) words.emplace_back(formula.name);
  if (what == "redd list --kind")
    for (const std::string_view kind : records::kind_names()) words.push_back(dashed(kind));
  if (what == "redd kit template key" || what == "redd kit use kit")
    for (const records::Kit& kit : server::kit_templates()) words.push_back(kit.key);
  return words;
}

/// What Redd tells of itself to man and to shells.
void add_manual(CLI::App& app, Everything& all, const std::string& version) {
  const auto described = [&app, &all] {
    return description_of(app, all.help_language, [&all](const CommandText& command, const CLI::Option& option) { return known_words(all, command, option); });
  };
  CLI::App* manual_command = app.add_subcommand("manual", "A page of the manual, for man: redd manual log | man -l -");
  manual_command->add_option("command", all.manual.command, "the command it is about (else Redd as a whole)");
  manual_command->add_option("--into", all.manual.folder, "write all pages into this folder instead")->type_name("DIR");
  manual_command->add_option("--date", all.manual.day, "day to print at the foot, YYYY-MM-DD");
  manual_command->callback([&all, described, version] {
    all.command = [&all, described, version] { return manual(all.console, described(), {version, all.manual.day, all.help_language}, all.manual); };
  });
  CLI::App* completion_command = app.add_subcommand("completion", "A script with which a shell completes Redd's words");
  completion_command->add_option("shell", all.shell, "which shell")->required()->check(CLI::IsMember({"bash", "zsh", "fish"}));
  completion_command->footer("Example:\n  source <(redd completion bash)");
  completion_command->callback([&all, described] {
    all.command = [&all, described] {
      const CommandText text = described();
      all.console.out << (all.shell == "bash" ? bash_completion(text) : all.shell == "zsh" ? zsh_completion(text) : fish_completion(text));
      return Exit::ok;
    };
  });
}

/// The flags any command takes, before or after its name.
void add_place(CLI::App& app, Everything& all) {
  app.add_option("--data", all.data_dir, "folder of the season files (else $REDD_DATA, else ~/.local/share/redd)")
      ->type_name("DIR");
  app.add_flag("--demo", all.place.demo, "work on the invented demo season");
  app.add_option("--language", all.language, "en or es (else $REDD_LANGUAGE, else en)")->check(CLI::IsMember({"en", "es"}))->type_name("LANGUAGE");
  app.add_option("--units", all.units, "metric, or us for °F and US gallons (else $REDD_UNITS, else metric)")->check(CLI::IsMember({"metric", "us"}))->type_name("UNITS");
  app.add_option("--as-of", all.as_of, "look at this day (2031-02-14) or moment (\"2031-02-14 07:50\"); in the demo the story's now")
      ->type_name("DAY");
}

int usage_problem(const Console& console, const CLI::App& app, const CLI::ParseError& error) {
  std::string where = "redd";
  for (const CLI::App* at = &app; !at->get_subcommands().empty();) {
    at = at->get_subcommands().front();
    where += " " + at->get_name();
  }
  std::string words = error.what();
  while (!words.empty() && (words.back() == '\n' || words.back() == ' ')) words.pop_back();
  console.err << "redd: " << words << "\nHelp: " << where << " --help\n";
  return static_cast<int>(Exit::usage);
}

}  // namespace

void print_guide(const Console& console) {
  console.out <<
      R"(Redd keeps the log of a cold-water tank from filling to release and says what today's readings mean.

  redd demo                                look at an invented season in the browser
  redd init                                set up your own season
  redd kit list                            test kits: start from a template, make it match your card
  redd log reading nitrite --step 0.1      log a test; also --between 0.1 0.25, --drops 7, --number 7.4
  redd log temperature 8.4C                log a temperature (or 47F)
  redd today                               what it means and what to do
  redd done 1                              that is done; also redd skip 1, redd later 1
  redd outlook                             when the filter will be ready, and what it can carry
  redd plan                                which temperature to set when
  redd heat                                what the chiller can hold, and for how long without it
  redd counts                              how many live, and whether more die than is usual
  redd loading                             how many eggs or fry the tank carries, day by day
  redd water                               which water changes are needed; --change "30 %" to try one
  redd bench                               the next water tests in order, and how long they take
  redd lessons                             guess the next reading; --level younger for a worksheet
  redd emergency power-cut                 what to do when something fails; --card to print
  redd milestones                          when eyes, hatch and swim-up are expected
  redd report                              the whole season, to hand on
  redd next-year                           what it teaches the next one
  redd list                                records; redd correct ID, redd undo ID
  redd serve                               the page, on this machine only
  redd serve --on-network                  also for the classroom's devices; redd passphrase, redd code
  redd audit                               who did what, and when
  redd copies                              copies kept by itself; redd restore, redd check
  redd calc --list                         every formula by name

"redd COMMAND --help" says more. "redd --demo COMMAND" tries a command on the invented season.
)";
}

int run(const Console& console, const std::vector<std::string>& arguments, const std::string& version) {
  CLI::App app("Redd keeps the log of a cold-water tank and says what today's readings mean.", "redd");
  app.set_help_flag("-h,--help", "Print this help message and exit");
  app.set_version_flag("--version", "redd " + version, "Print the program's version and exit");
  app.fallthrough();
  app.require_subcommand(0, 1);
  Console worded = console;
  Everything all(worded, help_language(arguments));
  add_place(app, all);
  add_writers(app, all);
  add_lookers(app, all);
  add_answers(app, all);
  add_kits(app, all);
  add_import_and_export(app, all);
  add_safety(app, all);
  add_serving(app, all);
  add_classroom(app, all);
  add_thermometer(app, all);
  add_formulas(app, all);
  add_manual(app, all, version);
  translate_help(app, all.help_language);

  std::vector<std::string> words;
  std::ranges::transform(arguments, std::back_inserter(words), with_real_minus);
  std::ranges::reverse(words);  // CLI11 takes them from the back
  try {
    app.parse(words);
  } catch (const CLI::CallForHelp&) {
    console.out << app.help();  // of the command that was named, if one was
    return 0;
  } catch (const CLI::CallForVersion&) {
    console.out << "redd " << version << "\n";
    return 0;
  } catch (const CLI::ParseError& error) {
    return usage_problem(console, app, error);
  }
  worded.reader.language = all.help_language;
  worded.reader.fahrenheit = worded.reader.us_gallons = (all.units.empty() ? environment("REDD_UNITS").value_or("") : all.units) == "us";
  if (!all.data_dir.empty()) all.place.data_dir = all.data_dir;
  if (!all.as_of.empty()) all.place.as_of = all.as_of;
  if (!all.command) {
    print_guide(console);
    return 0;
  }
  return static_cast<int>(all.command());
}

}  // namespace redd::cli
