#pragma once
// The fields of a kind of record as columns of a table: the same describe() as reader, writer and schema.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "wire/fields.h"

namespace redd::wire {

struct Column {
  enum class Type { text, number, whole, truth, date, list };
  std::string name{};     ///< the field's name as it is written, with its unit
  Type type = Type::text;
  std::string meaning{};
  bool filled = false;    ///< a record can't be without it
  std::optional<Range> range{};
  std::vector<std::string> words{};  ///< of an enumeration
};

/// In      kind: one of records::kind_names().
/// Out     in the order in which the fields are written; other spellings of a field (°F, gallons) are left out.
std::vector<Column> columns_of_kind(std::string_view kind);

/// The unit that the ending of a field's name stands for, "mg/L as N" for "_mg_n_per_l"; empty when it has none.
std::string_view unit_of_field(std::string_view name);

}  // namespace redd::wire
