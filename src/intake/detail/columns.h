#pragma once
// Which column of a wide table is what: by the keeper's word, by its header, and by whether its numbers stand on the card. What is
// not certain is asked. Start at columns_of().

#include <optional>
#include <string>
#include <vector>

#include "intake/detail/observation.h"
#include "intake/detail/table.h"

namespace redd::intake::detail {

/// What one column holds.
struct Column {
  enum class Holds { nothing, test, temperature, count, note, team, test_name, value, upper_value, unit, kit_name } holds = Holds::nothing;
  std::optional<TestName> test{};
  std::optional<records::Count::What> counted{};
  bool running_total = false;  ///< count: its header says that each number holds all so far
  char unit = 'c';
};

/// What the columns of a table hold, with the guesses that say so.
/// Errors  setting_does_not_fit, other_unit.
Result<std::vector<Column>> columns_of(const Table& table, const Settings& settings, const Context& context, Preview& preview);

/// What a header says without a kit: temperature, animals counted, note, team or nothing.
Column plain_column(std::string_view header);

/// The kit's test of a name in a cell or header, the keeper's word before it. Adds the question which one is meant.
/// In      unit: what the file says the numbers count, where it says.
/// Out     several: the first is meant until the keeper says. Empty: no test.
std::vector<TestName> tests_or_own_numbers(std::string_view name, std::optional<records::TestUnit> stated, const Context& context, std::string_view kit);

/// The unit of the temperatures in a column, with its guess.
char temperature_unit(const Table& table, std::size_t column, const Settings& settings, Preview& preview);

/// "dead eggs taken out".
Phrase count_label(records::Count::What what);

/// Words a column may be given, with how they are said.
std::vector<Meaning> column_meanings(const Context& context);

/// The columns as shown for the mapping step.
std::vector<ShownColumn> shown_columns(const Table& table);

}  // namespace redd::intake::detail
