#pragma once
// The sorts of file that can be imported. Each turns a table into good rows, bad rows and entries of the preview.

#include "intake/detail/table.h"

namespace redd::intake::detail {

/// Words in the settings that no setting takes.
Problems problems_of(const Settings& settings);

/// A table of temperatures over time.
Result<bool> read_logger(const Table& table, const Settings& settings, const Context& context, Preview& preview);

/// Test readings: one a row (long), or a row a test day with a column a test (wide).
Result<bool> read_readings_long(const Table& table, const Settings& settings, const Context& context, Preview& preview);
Result<bool> read_readings_wide(const Table& table, const Settings& settings, const Context& context, Preview& preview);

/// Whether any column of the table stands for a test of the kits.
bool has_test_columns(const Table& table, const Settings& settings, const Context& context);
/// Whether the table has a column that names tests and one that gives values.
bool is_long(const Table& table);

/// The temperature column, when there is one.
std::optional<std::size_t> temperature_column(const Table& table);

/// Numbers that sensors and loggers write instead of a temperature.
bool is_sensor_fault(double value, char unit);

/// 'c' or 'f' when a header or title says so, else nothing.
std::optional<char> stated_unit(std::string_view text);

}  // namespace redd::intake::detail
