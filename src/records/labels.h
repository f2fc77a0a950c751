#pragma once
// Labels name a team or a role, never a person. No program can know a name; what it can see is an e-mail address or a telephone
// number, and those it refuses. Start at problems_of_labels().

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "records/record.h"

namespace redd::records {

enum class PersonalShape { email, telephone };

/// What a label looks like that must not be kept.
///
/// Out     email: something@host.ending.  telephone: 7 digits or more in a row, at most two signs apart; days (2031-02-04, 4.2.2031), school years
///         (2030-2031) and times (07:50) are none. Nothing for everything else: "Team Newt", "Period 3", "Room 12-14".
/// Source  Assumed: shapes of our own. Fewer than 7 digits are more often a room or a class than a number to call.
std::optional<PersonalShape> personal_shape(std::string_view label);

/// A gentle refusal, or nothing. In: field: the input at fault.
std::optional<Problem> problem_of_label(std::string_view label, std::string_view field);

/// Problems of every label of a new entry: "/author", and "/body/team" or "/body/label" where its kind has one.
Problems problems_of_labels(const Entry& entry);
/// The same of many, fields below "/entries/<index>"; at most 200.
Problems problems_of_labels(std::span<const Entry> entries);

/// How many records of a log carry such a label. What is kept is never changed, so a season that is taken in keeps them and this is told.
std::size_t personal_labels(std::span<const Record> records);

}  // namespace redd::records
