#include "wire/columns.h"

#include <algorithm>
#include <array>

#include "wire/describe.h"

namespace redd::wire {
namespace {

/// Endings of a field's name and the unit they stand for, longest first where one ends another.
constexpr std::array<std::pair<std::string_view, std::string_view>, 24> units{{
    {"_mg_n_per_l", "mg/L as N"}, {"_mg_no3_per_l", "mg/L as NO3"}, {"_mg_o2_per_l", "mg/L O2"}, {"_mg_per_l", "mg/L"}, {"_meq_per_l", "meq/L"},
    {"_mmol_per_l", "mmol/L"}, {"_l_per_min", "L/min"}, {"_per_kwh", "per kWh"}, {"_w_per_k", "W/K"}, {"_c_days", "°C days"}, {"_per_day", "per day"},
    {"_percent", "%"}, {"_fraction", "1"}, {"_hours", "h"}, {"_days", "days"}, {"_minutes", "min"}, {"_mg", "mg"}, {"_mm", "mm"}, {"_cm", "cm"},
    {"_c", "°C"}, {"_l", "L"}, {"_g", "g"}, {"_w", "W"}, {"elevation_m", "m"},
}};

class Columns {
 public:
  template <class T>
  void number(std::string_view key, const Unit<T>& unit, const T&, Range range, std::string_view meaning, Absent = Absent::is_an_error) {
    add(std::string(key) + std::string(unit.suffix), Column::Type::number, meaning, true).range = range;
  }
  template <class T>
  void number(std::string_view key, const Unit<T>& unit, const std::optional<T>&, Range range, std::string_view meaning) {
    add(std::string(key) + std::string(unit.suffix), Column::Type::number, meaning, false).range = range;
  }
  template <class Int>
  void whole(std::string_view key, const Int&, Range range, std::string_view meaning) { add(key, Column::Type::whole, meaning, true).range = range; }
  template <class Int>
  void whole(std::string_view key, const std::optional<Int>&, Range range, std::string_view meaning) { add(key, Column::Type::whole, meaning, false).range = range; }
  void truth(std::string_view key, const bool&, std::string_view meaning) { add(key, Column::Type::truth, meaning, true); }
  void text(std::string_view key, const std::string&, std::string_view meaning, Absent absent = Absent::is_an_error) {
    add(key, Column::Type::text, meaning, absent == Absent::is_an_error);
  }
  void text(std::string_view key, const std::optional<std::string>&, std::string_view meaning) { add(key, Column::Type::text, meaning, false); }
  void date(std::string_view key, const Date&, std::string_view meaning) { add(key, Column::Type::date, meaning, true); }
  void date(std::string_view key, const std::optional<Date>&, std::string_view meaning) { add(key, Column::Type::date, meaning, false); }
  template <class Enum, std::size_t N>
  void word(std::string_view key, const std::array<std::string_view, N>& words, const Enum&, std::string_view meaning, Absent = Absent::is_an_error) {
    add(key, Column::Type::text, meaning, true).words.assign(words.begin(), words.end());
  }
  void numbers(std::string_view key, const std::vector<double>&, Range, std::string_view meaning) { add(key, Column::Type::list, meaning, false); }
  void texts(std::string_view key, const std::vector<std::string>&, std::string_view meaning) { add(key, Column::Type::list, meaning, false); }
  template <class T>
  void list(std::string_view key, const std::vector<T>&, std::string_view meaning) { add(key, Column::Type::list, meaning, false); }

  std::vector<Column> take() { return std::move(columns_); }

 private:
  Column& add(std::string_view name, Column::Type type, std::string_view meaning, bool filled) {
    return columns_.emplace_back(Column{std::string(name), type, std::string(meaning), filled, {}, {}});
  }
  std::vector<Column> columns_;
};

}  // namespace

std::vector<Column> columns_of_kind(std::string_view kind) {
  auto body = records::body_of_kind(kind);
  require(body.has_value(), "columns_of_kind", "no such kind of record");
  Columns columns;
  std::visit([&](auto& b) { describe(columns, b); }, *body);
  return columns.take();
}

std::string_view unit_of_field(std::string_view name) {
  const auto found = std::ranges::find_if(units, [&](const auto& unit) { return name.ends_with(unit.first); });
  return found == units.end() ? std::string_view() : found->second;
}

}  // namespace redd::wire
