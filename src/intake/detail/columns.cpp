#include "intake/detail/columns.h"

#include <algorithm>
#include <array>

#include "intake/detail/cells.h"
#include "intake/detail/header_words.h"
#include "intake/detail/kinds.h"
#include "intake/detail/own_numbers.h"
#include "quantities/phrase_parts.h"
#include "quantities/verbatim.h"
#include "records/reading.h"

namespace redd::intake::detail {
namespace {

using Holds = Column::Holds;
using records::Count;
using records::Kit;
using records::Method;
using records::TestUnit;

struct CountWord {
  std::string_view word;
  Count::What what;
  const char* label;
};
constexpr std::array count_words{
    CountWord{"dead_eggs", Count::What::dead_eggs, "dead eggs taken out"}, CountWord{"dead_alevins", Count::What::dead_alevins, "dead alevins taken out"},
    CountWord{"dead_fry", Count::What::dead_fry, "dead fry taken out"}, CountWord{"hatched", Count::What::hatched, "hatched so far"},
    CountWord{"alive", Count::What::alive, "alive in the tank"}};

std::string_view word_of(Count::What what) {
  for (const CountWord& one : count_words)
    if (one.what == what) return one.word;
  broken_promise("word_of", "not a count a column may hold");
}

/// A meaning of the keeper's own words that is not a test.
std::optional<Column> plain_meaning(std::string_view word) {
  if (word == "ignore") return Column{};
  if (word == "temperature") return Column{.holds = Holds::temperature};
  if (word == "note") return Column{.holds = Holds::note};
  if (word == "team") return Column{.holds = Holds::team};
  for (const CountWord& one : count_words)
    if (one.word == word) return Column{.holds = Holds::count, .counted = one.what};
  return std::nullopt;
}

Problem unit_differs(const TestName& name, TestUnit stated) {
  return {"other_unit", "", said("the file gives \"{0}\" in {1}, the kit in {2}: they are not the same number. Convert the column, or choose the test whose card has that unit.", verbatim(name.test->key), records::unit_text(stated), records::unit_text(name.test->unit))};
}

/// Cells of a column that hold something, and how many of them can't be read on the card.
struct OnCard {
  std::size_t filled = 0, off = 0;
};
OnCard on_card(const Table& table, std::size_t column, const TestName& name) {
  OnCard seen;
  for (const CsvRow& row : table.rows) {
    const std::string_view cell = Table::cell(row, column);
    if (is_missing(cell)) continue;
    ++seen.filled;
    seen.off += !reading_of(cell, name, table.decimal_mark, false);
  }
  return seen;
}

/// One column being concluded.
class Concluding {
 public:
  Concluding(const Table& table, std::size_t at, const Settings& settings, const Context& context, Preview& preview)
      : table_(table), at_(at), settings_(settings), context_(context), preview_(preview), header_(table.headers[at]), key_("columns/" + header_) {}

  Result<Column> column() {
    const auto named = settings_.columns.find(header_);
    return named == settings_.columns.end() ? by_header() : as_said(named->second);
  }

 private:
  void guess(std::string value, Certainty certainty, Phrase reason, std::vector<std::string> others = {}) {
    add_guess(preview_, key_, std::move(value), certainty, std::move(reason), std::move(others));
  }

  static Column of(const TestName& name) { return {.holds = Holds::test, .test = name}; }

  Result<Column> as_said(const std::string& word) {
    if (auto plain = plain_meaning(word)) {
      guess(word, Certainty::given, "you said so");
      if (plain->holds == Holds::count)
        if (const auto words = count_named(header_)) plain->running_total = words->running_total;
      return *plain;
    }
    if (const Kit* own = own_numbers_named(word)) {
      guess(word, Certainty::given, "you said so");
      return of({own, &own->tests.front()});
    }
    const auto meant = tests_meant(word, context_.kits, settings_.kit.value_or(""));
    if (meant.size() != 1) return Problem{"setting_does_not_fit", key_, said("\"{0}\" is not one test of this season's kits; say kit/test, temperature, note, team or ignore.", shown(word))};
    const TestName& name = meant.front();
    guess(name.text(), Certainty::given, "you said so");
    if (const auto stated = unit_stated(header_, name.test->quantity); stated && *stated != name.test->unit) {
      Problem problem = unit_differs(name, *stated);
      problem.field = key_;
      problem.sentence = said("Column \"{0}\": {1}", verbatim(header_), problem.sentence);
      return problem;
    }
    return of(name);
  }

  Result<Column> by_header() {
    const auto meant = tests_meant(header_, context_.kits, settings_.kit.value_or(""));
    if (!meant.empty()) return on_a_kit(meant);
    if (const auto quantity = quantity_named(header_)) return without_kit(*quantity);
    Column plain = plain_column(header_);
    if (plain.holds == Holds::count && !plain.counted) {
      guess("dead_eggs", Certainty::open, "its header does not say whether eggs, alevins or fry died; a column that holds more than one is taken in in parts, with from and to", {"dead_eggs", "dead_alevins", "dead_fry", "ignore"});
      plain.counted = Count::What::dead_eggs;
      return plain;
    }
    const char* word = plain.holds == Holds::temperature ? "temperature" : plain.holds == Holds::note ? "note" : plain.holds == Holds::team ? "team" : "ignore";
    guess(plain.counted ? std::string(word_of(*plain.counted)) : word, plain.holds == Holds::nothing ? Certainty::likely : Certainty::certain,
          plain.holds == Holds::nothing ? "its header is not a test of this season's kits, so it is left out" : "its header says so");
    return plain;
  }

  Result<Column> on_a_kit(std::vector<TestName> meant) {
    const records::Quantity quantity = meant.front().test->quantity;
    const auto stated = unit_stated(header_, quantity);
    if (stated) {
      std::vector<TestName> fitting;
      std::ranges::copy_if(meant, std::back_inserter(fitting), [&](const TestName& name) { return name.test->unit == *stated; });
      if (fitting.empty()) return in_another_unit(meant, *stated);
      meant = std::move(fitting);
    }
    std::vector<std::string> others;
    for (const TestName& name : meant) others.push_back(name.text());
    // A column of numbers that the card does not have was read on another one: what they count is not known then.
    const OnCard seen = on_card(table_, at_, meant.front());
    const bool another_card = meant.size() == 1 && seen.off > 0 && seen.off * 5 > seen.filled && seen.filled >= 3;
    if (another_card)
      for (const Kit* own : own_numbers_of(quantity)) others.push_back(own->tests.front().key);
    others.emplace_back("ignore");
    const Phrase reason = another_card ? said("{0} of its {1} results can't be read on this card: say on which card they were, or what the numbers count", seen.off, seen.filled)
                                       : Phrase(meant.size() > 1 ? "more than one test measures this" : "its header names what this test measures");
    guess(meant.front().text(), meant.size() > 1 || another_card ? Certainty::open : Certainty::likely, reason, std::move(others));
    return of(meant.front());
  }

  Result<Column> in_another_unit(const std::vector<TestName>& meant, TestUnit stated) {
    const Kit* own = own_numbers_in(meant.front().test->quantity, stated);
    if (!own) {
      Problem problem = unit_differs(meant.front(), stated);
      problem.field = key_;
      problem.sentence = said("Column \"{0}\": {1}", verbatim(header_), problem.sentence);
      return problem;
    }
    const records::KitTest& test = own->tests.front();
    guess(test.key, Certainty::likely, said("its header gives {0}, which no card of this season counts: kept as numbers of an older log, ± {1} (assumed)", records::unit_text(stated), as_typed(*test.accuracy)), {test.key, "ignore"});
    return of({own, &test});
  }

  Result<Column> without_kit(records::Quantity quantity) {
    const auto may_be = own_numbers_of(quantity);
    if (may_be.empty()) {
      guess("ignore", Certainty::likely, "its header is not a test of this season's kits, so it is left out");
      return Column{};
    }
    const auto stated = unit_stated(header_, quantity);
    const Kit* own = stated ? own_numbers_in(quantity, *stated) : nullptr;
    if (!own && may_be.size() == 1) own = may_be.front();
    std::vector<std::string> others;
    for (const Kit* kit : may_be) others.push_back(kit->tests.front().key);
    others.emplace_back("ignore");
    if (!own) {
      const records::KitTest& first = may_be.front()->tests.front();
      guess(first.key, Certainty::open, "no kit of this season measures this, and the header does not say what the numbers count", std::move(others));
      return of({may_be.front(), &first});
    }
    const records::KitTest& test = own->tests.front();
    guess(test.key, Certainty::likely, said("no kit of this season measures this: kept as numbers of an older log, ± {0} {1} (assumed)", as_typed(*test.accuracy), records::unit_text(test.unit)), std::move(others));
    return of({own, &test});
  }

  const Table& table_;
  std::size_t at_;
  const Settings& settings_;
  const Context& context_;
  Preview& preview_;
  const std::string& header_;
  std::string key_;
};

}  // namespace

Phrase count_label(Count::What what) {
  for (const CountWord& one : count_words)
    if (one.what == what) return one.label;
  broken_promise("count_label", "not a count a column may hold");
}

Column plain_column(std::string_view header) {
  if (names_temperature(header)) return {.holds = Holds::temperature};
  if (names_note(header)) return {.holds = Holds::note};
  if (names_team(header)) return {.holds = Holds::team};
  if (const auto counted = count_named(header)) return {.holds = Holds::count, .counted = counted->what, .running_total = counted->running_total};
  return {};
}

Result<std::vector<Column>> columns_of(const Table& table, const Settings& settings, const Context& context, Preview& preview) {
  std::vector<Column> columns(table.headers.size());
  Problems problems;
  for (std::size_t i = 0; i < table.headers.size(); ++i) {
    if (i == table.date_column || i == table.time_column) continue;
    auto column = Concluding(table, i, settings, context, preview).column();
    if (!column) {
      problems.insert(problems.end(), column.problems().begin(), column.problems().end());
      continue;
    }
    columns[i] = *column;
    if (columns[i].holds == Holds::temperature) columns[i].unit = temperature_unit(table, i, settings, preview);
  }
  if (!problems.empty()) return problems;
  return columns;
}

std::vector<TestName> tests_or_own_numbers(std::string_view name, std::optional<TestUnit> stated, const Context& context, std::string_view kit) {
  if (const Kit* own = own_numbers_named(name)) return {{own, &own->tests.front()}};
  auto meant = tests_meant(name, context.kits, kit);
  if (!meant.empty()) return meant;
  const auto quantity = quantity_named(name);
  if (!quantity) return {};
  if (const Kit* own = stated ? own_numbers_in(*quantity, *stated) : nullptr) return {{own, &own->tests.front()}};
  for (const Kit* own : own_numbers_of(*quantity)) meant.push_back({own, &own->tests.front()});
  return meant;
}

char temperature_unit(const Table& table, std::size_t column, const Settings& settings, Preview& preview) {
  const auto once = [&](std::string value, Certainty certainty, Phrase reason) {
    if (std::ranges::find(preview.guesses, "unit", &Guess::key) == preview.guesses.end())
      add_guess(preview, "unit", std::move(value), certainty, std::move(reason), {"c", "f"});
  };
  if (settings.unit) {
    once(*settings.unit, Certainty::given, "you said so");
    return settings.unit->front();
  }
  if (const auto unit = stated_unit(table.headers[column])) {
    once(std::string(1, *unit), Certainty::certain, "the header of the column says so");
    return *unit;
  }
  std::vector<double> values;
  bool each_says = true;  // "10.5 °C" in the cells themselves
  for (const CsvRow& row : table.rows) {
    const std::string_view cell = Table::cell(row, column);
    if (is_missing(cell)) continue;
    each_says = each_says && marked_temperature(cell, table.decimal_mark).unit;
    if (const auto v = number(cell, table.decimal_mark)) values.push_back(*v);
  }
  if (each_says && values.empty()) return 'c';
  std::ranges::sort(values);
  const bool warm = !values.empty() && values[values.size() / 2] > 30;
  once(warm ? "f" : "c", Certainty::open, "the file names no unit of temperature");
  return warm ? 'f' : 'c';
}

std::vector<Meaning> column_meanings(const Context& context) {
  std::vector<Meaning> all{{"time_column", "date, or date and time"}, {"temperature", "temperature of the tank"}};
  for (const Kit& kit : context.kits) {
    if (is_own_numbers(kit)) continue;
    for (const records::KitTest& test : kit.tests)
      all.push_back({kit.key + "/" + test.key, said("{0} ({1}), read on {2}", records::quantity_text(test.quantity), records::unit_text(test.unit), verbatim(kit.name.empty() ? kit.key : kit.name))});
  }
  for (const Kit& kit : own_number_kits()) {
    const records::KitTest& test = kit.tests.front();
    all.push_back({test.key, said("{0} ({1}), on a kit of the past", records::quantity_text(test.quantity), records::unit_text(test.unit))});
  }
  for (const CountWord& one : count_words) all.push_back({std::string(one.word), one.label});
  all.push_back({"note", "note"});
  all.push_back({"team", "team"});
  all.push_back({"ignore", "leave it out"});
  return all;
}

std::vector<ShownColumn> shown_columns(const Table& table) {
  constexpr std::size_t most_samples = 3;
  std::vector<ShownColumn> shown_ones;
  for (std::size_t i = 0; i < table.headers.size(); ++i) {
    ShownColumn column{table.headers[i], i == table.date_column ? "date" : i == table.time_column ? "time" : "", {}};
    for (const CsvRow& row : table.rows) {
      const std::string_view cell = Table::cell(row, i);
      if (column.samples.size() == most_samples) break;
      if (!cell.empty()) column.samples.push_back(shown(cell));
    }
    shown_ones.push_back(std::move(column));
  }
  return shown_ones;
}

}  // namespace redd::intake::detail
