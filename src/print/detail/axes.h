#pragma once
// Marks of a chart's axes, and numbers taken out of the views' JSON.

#include <optional>

#include "print/chart.h"
#include "report/numbers.h"
#include "wire/json.h"

namespace redd::print {

double day_number(Date day);
/// Of "2031-02-14".
double day_number(const wire::Json& day);
/// Of "2031-02-14T07:00:00Z", by the school's own clock.
double day_number(const wire::Json& at, const ZoneOffsets& zone);

std::string string_of(const wire::Json& text);
/// Nothing for null.
std::optional<double> number_of(const wire::Json& number);

/// Fills `days`: weeks in a short span, else months, no more than about eight.
void mark_days(Chart& chart, const report::Reader& reader);
/// Fills `values`: three to six round numbers between low and high. whole: none between two whole ones.
void mark_values(Chart& chart, const report::Reader& reader, bool whole = false);

}  // namespace redd::print
