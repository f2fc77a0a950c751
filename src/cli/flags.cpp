#include "cli/flags.h"

#include <algorithm>
#include <charconv>

#include "quantities/verbatim.h"
#include "wire/describe.h"
#include "wire/json.h"

namespace redd::cli {
namespace {

using wire::Json;

/// How people write the units the JSON keys name. A suffix that is not here is a plain number in the key's own unit.
const std::vector<UnitSpelling>& unit_spellings() {
  static const std::vector<UnitSpelling> table{
      {"_c", {"C", "°C", "degC"}},
      {"_f", {"F", "°F", "degF"}},
      {"_l", {"L", "l", "litres", "liters"}},
      {"_us_gal", {"gal", "gallons", "usgal"}},
      {"_cm", {"cm"}},
      {"_mm", {"mm"}},
      {"_in", {"in", "inches"}},
      {"_w", {"W", "watts"}},
      {"_btu_per_h", {"BTU/h", "BTU"}},
      {"_g", {"g", "grams"}},
      {"_oz", {"oz", "ounces"}},
      {"_c_days", {"Cdays", "C-days", "°C-days"}},
      {"_f_units", {"Funits", "F-units", "°F-units"}},
      {"_meq_per_l", {"meq/L", "meq/l", "meq"}},
      {"_german_degrees", {"dH", "dKH", "dGH"}},
      {"_mg_caco3_per_l", {"mg/L-CaCO3", "mgCaCO3/L", "ppm-CaCO3"}},
      {"_mg_n_per_l", {"mg-N/L", "mgN/L"}},
  };
  return table;
}

UnitSpelling spelling_of(std::string_view suffix) {
  for (const UnitSpelling& unit : unit_spellings())
    if (unit.suffix == suffix) return unit;
  return {std::string(suffix), {}};
}

/// Walks describe() and writes down one flag a field.
class FlagLister {
 public:
  explicit FlagLister(std::vector<Flag>& out) : out_(out) {}

  template <class T>
  void number(std::string_view key, const wire::Unit<T>& unit, const T&, wire::Range, std::string_view meaning,
              wire::Absent absent = wire::Absent::is_an_error) {
    quantity(key, unit, meaning, absent == wire::Absent::is_an_error);
  }
  template <class T>
  void number(std::string_view key, const wire::Unit<T>& unit, const std::optional<T>&, wire::Range,
              std::string_view meaning) {
    quantity(key, unit, meaning, false);
  }
  template <class Int>
  void whole(std::string_view key, const Int&, wire::Range, std::string_view meaning) {
    add(key, Flag::Reads::whole, meaning, true);
  }
  template <class Int>
  void whole(std::string_view key, const std::optional<Int>&, wire::Range, std::string_view meaning) {
    add(key, Flag::Reads::whole, meaning, false);
  }
  void truth(std::string_view key, const bool& field, std::string_view meaning) {
    add(key, Flag::Reads::truth, meaning, false).starts_true = field;
  }
  void text(std::string_view key, const std::string&, std::string_view meaning,
            wire::Absent absent = wire::Absent::is_an_error) {
    add(key, Flag::Reads::text, meaning, absent == wire::Absent::is_an_error);
  }
  void text(std::string_view key, const std::optional<std::string>&, std::string_view meaning) {
    add(key, Flag::Reads::text, meaning, false);
  }
  void date(std::string_view key, const Date&, std::string_view meaning) { add(key, Flag::Reads::date, meaning, true); }
  void date(std::string_view key, const std::optional<Date>&, std::string_view meaning) {
    add(key, Flag::Reads::date, meaning, false);
  }
  template <class Enum, std::size_t N>
  void word(std::string_view key, const std::array<std::string_view, N>& words, const Enum&, std::string_view meaning,
            wire::Absent absent = wire::Absent::is_an_error) {
    Flag& flag = add(key, Flag::Reads::word, meaning, absent == wire::Absent::is_an_error);
    flag.words.assign(words.begin(), words.end());
  }
  void numbers(std::string_view key, const std::vector<double>&, wire::Range, std::string_view meaning) { add(key, Flag::Reads::numbers, meaning, false); }
  void texts(std::string_view, const std::vector<std::string>&, std::string_view) {}
  template <class T>
  void list(std::string_view, const std::vector<T>&, std::string_view) {}

 private:
  Flag& add(std::string_view key, Flag::Reads reads, std::string_view meaning, bool required) {
    out_.push_back({dashed(key), std::string(key), reads, std::string(meaning), required});
    return out_.back();
  }
  template <class T>
  void quantity(std::string_view key, const wire::Unit<T>& unit, std::string_view meaning, bool required) {
    // A field whose whole name is its unit ("ph") has no stem of its own.
    Flag& flag = add(key.empty() ? unit.suffix : key, Flag::Reads::quantity, meaning, required);
    if (key.empty()) flag.stem.clear();
    flag.units.push_back(spelling_of(unit.suffix));
    for (const wire::Alternate& alternate : unit.alternates) flag.units.push_back(spelling_of(alternate.suffix));
    if (flag.units.size() == 1 && unit.suffix.empty()) flag.reads = Flag::Reads::number;
  }
  std::vector<Flag>& out_;
};

/// A reading's form and numbers are one flag each on the command line: --step 0.1, --between 0.1 0.25, --drops 7.
void add_reading_forms(std::vector<Flag>& flags) {
  std::erase_if(flags, [](const Flag& f) { return f.stem == "form" || f.stem == "value" || f.stem == "upper_value"; });
  const auto form = [&](const char* name, const char* meaning) {
    flags.push_back({name, name, Flag::Reads::form, meaning, false});
  };
  form("step", "the colour matches this printed step");
  form("between", "the colour lies between two neighbouring printed steps: --between 0.1 0.25");
  form("below", "the colour is paler than the first step");
  form("above", "the colour is stronger than the last step");
  form("drops", "drops counted until the colour turned");
  form("number", "number read from a meter");
}

std::optional<double> number_from(std::string_view text) {
  double value = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, value);
  if (read.ec != std::errc() || read.ptr != end || text.empty()) return std::nullopt;
  return value;
}

Problem not_a_number(const Flag& flag, const std::string& value) {
  const bool comma = value.find(',') != std::string::npos;
  return {"not_a_number", "--" + flag.name,
          said("--{0} must be a number, not \"{1}\"{2}.", verbatim(flag.name), verbatim(value), comma ? " (write the decimal point as a dot)" : "")};
}

std::string unit_choices(const Flag& flag) {
  std::string text;
  for (const UnitSpelling& unit : flag.units)
    if (!unit.spellings.empty()) text += (text.empty() ? "" : " or ") + unit.spellings.front();
  return text;
}

/// "8.4C" into its number and the key the unit belongs to.
std::optional<Problem> put_quantity(const Flag& flag, const std::string& value, Json& body) {
  const std::size_t letters = value.find_first_not_of("+-.0123456789eE ");
  std::size_t split = letters == std::string::npos ? value.size() : letters;
  while (split > 0 && value[split - 1] == ' ') --split;
  const auto number = number_from(value.substr(0, split));
  if (!number || value.find(',') != std::string::npos) return not_a_number(flag, value);
  std::string unit = value.substr(split);
  unit.erase(0, unit.find_first_not_of(' ') == std::string::npos ? unit.size() : unit.find_first_not_of(' '));
  if (unit.empty()) {
    if (flag.units.size() > 1)
      return Problem{"needs_unit", "--" + flag.name,
                     said("--{0} {1} lacks its unit: write {2}{3} or {4}{5} if that is what it is.", verbatim(flag.name), verbatim(value), verbatim(value), verbatim(flag.units[0].spellings.front()), verbatim(value), verbatim(flag.units[1].spellings.front()))};
    body[flag.stem + flag.units.front().suffix] = *number;
    return std::nullopt;
  }
  for (const UnitSpelling& known : flag.units) {
    if (std::ranges::find(known.spellings, unit) == known.spellings.end()) continue;
    body[flag.stem + known.suffix] = *number;
    return std::nullopt;
  }
  const std::string choices = unit_choices(flag);
  return Problem{"unknown_unit", "--" + flag.name,
                 said("\"{0}\" is not a unit of --{1}{2}", verbatim(std::string(unit)), verbatim(flag.name), choices.empty() ? ": give a plain number." : said("; use {0}.", choices))};
}

void forget(const Flag& flag, Json& body) {
  if (flag.reads == Flag::Reads::form)
    for (const char* key : {"form", "value", "upper_value"}) body.erase(key);
  for (const UnitSpelling& unit : flag.units) body.erase(flag.stem + unit.suffix);
  body.erase(flag.stem);
}

std::optional<Problem> put_form(const Flag& flag, const std::vector<std::string>& values, Json& body) {
  static const std::map<std::string, std::string> forms{{"step", "step"},         {"between", "between"},
                                                        {"below", "below_first"}, {"above", "above_last"},
                                                        {"drops", "drops"},       {"number", "number"}};
  body["form"] = forms.at(flag.name);
  if (flag.name == "below" || flag.name == "above") return std::nullopt;
  const std::size_t wanted = flag.name == "between" ? 2 : 1;
  if (values.size() != wanted)
    return Problem{
        "wrong_count", "--" + flag.name,
        said(wanted == 2 ? "--{0} takes two steps: the lower and the upper." : "--{0} takes one number.", verbatim(flag.name))};
  const char* keys[] = {"value", "upper_value"};
  for (std::size_t i = 0; i < wanted; ++i) {
    const auto number = number_from(values[i]);
    if (!number) return not_a_number(flag, values[i]);
    body[keys[i]] = *number;
  }
  return std::nullopt;
}

std::optional<Problem> put(const Flag& flag, const std::vector<std::string>& values, Json& body) {
  if (flag.reads == Flag::Reads::form) return put_form(flag, values, body);
  if (values.empty())
    return Problem{"missing_value", "--" + flag.name, said("--{0} needs a value: {1}.", verbatim(flag.name), flag.meaning)};
  const std::string& value = values.back();
  switch (flag.reads) {
    case Flag::Reads::quantity:
      return put_quantity(flag, value, body);
    case Flag::Reads::number: {
      const auto number = number_from(value);
      if (!number) return not_a_number(flag, value);
      body[flag.stem] = *number;
      return std::nullopt;
    }
    case Flag::Reads::numbers: {
      body[flag.stem] = Json::array();
      for (std::size_t at = value.find_first_not_of(" ,"); at != std::string::npos;) {
        const std::size_t end = std::min(value.find_first_of(" ,", at), value.size());
        const auto number = number_from(std::string_view(value).substr(at, end - at));
        if (!number) return not_a_number(flag, value.substr(at, end - at));
        body[flag.stem].push_back(*number);
        at = value.find_first_not_of(" ,", end);
      }
      return std::nullopt;
    }
    case Flag::Reads::whole: {
      long long whole = 0;
      const char* end = value.data() + value.size();
      const auto read = std::from_chars(value.data(), end, whole);
      if (read.ec != std::errc() || read.ptr != end)
        return Problem{"not_a_whole_number", "--" + flag.name,
                       said("--{0} must be a whole number, not \"{1}\".", verbatim(flag.name), verbatim(value))};
      body[flag.stem] = whole;
      return std::nullopt;
    }
    case Flag::Reads::truth:
      body[flag.stem] = value == "true";
      return std::nullopt;
    case Flag::Reads::word: {
      std::string word = value;
      std::ranges::replace(word, '-', '_');
      body[flag.stem] = word;
      return std::nullopt;
    }
    case Flag::Reads::text:
    case Flag::Reads::date:
      body[flag.stem] = value;
      return std::nullopt;
    case Flag::Reads::form:
      break;
  }
  broken_promise("put", "unknown way of reading a flag");
}

}  // namespace

std::string dashed(std::string_view key) {
  std::string text(key);
  std::ranges::replace(text, '_', '-');
  return text;
}

std::string kind_from_typed(std::string_view typed) {
  std::string kind(typed);
  std::ranges::replace(kind, '-', '_');
  return kind;
}

std::vector<std::string> positionals_of(std::string_view kind) {
  static const std::map<std::string, std::vector<std::string>, std::less<>> table{{"temperature", {"temperature"}},
                                                                                  {"water_change", {"volume"}},
                                                                                  {"dose", {"substance", "mass"}},
                                                                                  {"set_point", {"temperature"}},
                                                                                  {"egg_receipt", {"count"}},
                                                                                  {"count", {"what", "count"}},
                                                                                  {"feeding", {"mass"}},
                                                                                  {"filter_work", {"work"}},
                                                                                  {"equipment", {"equipment", "event"}},
                                                                                  {"milestone", {"milestone"}},
                                                                                  {"note", {"text"}},
                                                                                  {"release", {"count", "place"}},
                                                                                  {"closure", {"name", "from", "to"}},
                                                                                  {"duty", {"label", "from", "to"}},
                                                                                  {"source_water", {"key"}},
                                                                                  {"spoon", {"spoons", "mass"}},
                                                                                  {"fish_sample", {"count", "mass"}},
                                                                                  {"guess", {"question", "team"}},
                                                                                  {"reading", {"test"}}};
  const auto found = table.find(kind);
  return found == table.end() ? std::vector<std::string>{} : found->second;
}

std::vector<Flag> flags_of(std::string_view kind) {
  std::vector<Flag> flags;
  auto body = records::body_of_kind(kind);
  if (!body) return flags;
  FlagLister lister(flags);
  std::visit([&](auto& b) { wire::describe(lister, b); }, *body);
  if (kind == "reading") add_reading_forms(flags);
  const auto first = positionals_of(kind);
  std::ranges::stable_sort(flags, {}, [&](const Flag& f) { return std::ranges::find(first, f.name) - first.begin(); });
  return flags;
}

Result<std::string> body_json(std::string_view kind, const Typed& typed, const std::optional<std::string>& before) {
  Json body = Json::object();
  if (before) {
    auto tree = wire::parsed(*before);
    if (!tree) return tree.problems();
    body = std::move(tree).value();
  }
  const std::vector<Flag> flags = flags_of(kind);
  Problems problems;
  std::string form;
  for (const auto& [name, values] : typed) {
    const auto flag = std::ranges::find(flags, name, &Flag::name);
    if (flag == flags.end()) {
      std::string known;
      for (const Flag& each : flags) known += (known.empty() ? "--" : ", --") + each.name;
      problems.push_back(
          {"unknown_flag", "--" + name,
           said("--{0} does not belong to a {1}; its flags are {2}.", verbatim(name), kind, verbatim(known))});
      continue;
    }
    if (flag->reads == Flag::Reads::form) {
      if (!form.empty()) {
        problems.push_back({"exclusive_flags", "--" + name,
                            said("--{0} and --{1} exclude each other: a reading has one answer.", verbatim(name), verbatim(form))});
        continue;
      }
      form = name;
    }
    forget(*flag, body);
    if (auto problem = put(*flag, values, body)) problems.push_back(std::move(*problem));
  }
  if (!problems.empty()) return problems;
  return wire::printed(body);
}

Problems as_flags(std::string_view kind, const Problems& problems) {
  const std::vector<Flag> flags = flags_of(kind);
  Problems result = problems;
  for (Problem& problem : result) {
    std::string key = problem.field;
    if (key.starts_with("/body")) key.erase(0, 5);
    if (key.starts_with("/")) key.erase(0, 1);
    if (kind == "reading" && (key == "form" || key == "value" || key == "upper_value")) {
      problem.field = "--step, --between, --below, --above, --drops or --number";
      continue;
    }
    for (const Flag& flag : flags) {
      bool is_it = key == flag.stem && !key.empty();
      for (const UnitSpelling& unit : flag.units) is_it = is_it || key == flag.stem + unit.suffix;
      if (is_it) problem.field = "--" + flag.name;
    }
    if (key == "at" || key == "author" || key == "entry_key") problem.field = "--" + dashed(key);
    // Said by the command itself, not by a flag: the number of a record, the name of a kind.
    if (key == "supersedes" || key == "kind" || (kind == "undo" && key == "target")) problem.field.clear();
  }
  return result;
}

}  // namespace redd::cli
