#pragma once
// Dates and times as people and loggers write them. A cell is first taken apart (stamp()), then a whole column decides
// in which order day, month and year stand (order_of()); one cell alone often can't.

#include <array>
#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"
#include "quantities/time.h"

namespace redd::intake::detail {

enum class DateOrder { ymd, dmy, mdy, serial_1900, serial_1904 };

std::string_view word_of(DateOrder order);
std::optional<DateOrder> order_named(std::string_view word);

/// A cell taken apart.
struct Stamp {
  std::array<int, 3> parts{};        ///< as written, left to right
  std::array<int, 3> widths{};       ///< digits of each part
  int named_month = -1;              ///< which part was written as a word
  char separator = '-';
  std::optional<double> serial{};    ///< a spreadsheet's day number instead of parts
  std::optional<std::chrono::seconds> time{};    ///< since midnight
  std::optional<std::chrono::seconds> offset{};  ///< from UTC, when the cell says
};

/// Takes a date (and time) apart; nothing when the cell is not one. Plain numbers are not dates.
std::optional<Stamp> stamp(std::string_view cell);

/// A spreadsheet's day number, 1954 to 2119 or so; a column of them must be asked for by its header.
std::optional<Stamp> serial_stamp(std::string_view cell, char decimal_mark);

/// A time of day: 7:05, 07:05:30, 7:05 PM, 07:05:30.25.
std::optional<std::chrono::seconds> time_of_day(std::string_view cell);

/// The local time a stamp means when read in this order; nothing when there is no such day. Without a time: midnight.
std::optional<std::chrono::local_seconds> local_time_of(const Stamp& stamp, DateOrder order);

/// What a column says about its order.
struct OrderVerdict {
  DateOrder order = DateOrder::ymd;      ///< the best reading
  std::vector<DateOrder> possible{};     ///< every order that fits all or nearly all cells
  std::string reason{};
  bool by_header = false;                ///< the header states it
};

/// In      header: of the column. from, to: days the dates should lie in, used to prefer one order over another only.
/// Errors  mixed_date_orders when no single order fits.
Result<OrderVerdict> order_of(std::span<const Stamp> stamps, std::string_view header, Date from, Date to);

}  // namespace redd::intake::detail
