#pragma once
// The strict reader: walks describe() over parsed JSON and collects every problem with its path.

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"
#include "quantities/verbatim.h"
#include "wire/describe.h"
#include "wire/json.h"

namespace redd::wire {

/// Longest text a field may carry, in bytes.
inline constexpr std::size_t longest_text = 2000;
/// Most items of one list (a season's kit has a dozen tests; a card a dozen steps).
inline constexpr std::size_t longest_list = 200;

class Reader {
 public:
  Reader(const Json& object, std::string base, Problems& problems)
      : object_(object), base_(std::move(base)), problems_(problems) {}

  template <class T>
  void number(std::string_view key, const Unit<T>& unit, T& field, Range range, std::string_view meaning,
              Absent absent = Absent::is_an_error) {
    std::optional<T> read;
    number(key, unit, read, range, meaning);
    take(read, field, std::string(key) + std::string(unit.suffix), meaning, absent);
  }
  template <class T>
  void number(std::string_view key, const Unit<T>& unit, std::optional<T>& field, Range range, std::string_view) {
    field.reset();
    const std::string primary = std::string(key) + std::string(unit.suffix);
    std::string given;
    if (const Json* value = find(primary)) {
      given = primary;
      if (const auto v = checked_number(primary, *value, range, nullptr)) field = unit.in(*v);
    }
    for (const Alternate& alternate : unit.alternates) {
      const std::string other = std::string(key) + std::string(alternate.suffix);
      const Json* value = find(other);
      if (!value) continue;
      if (!given.empty()) {
        problem("given_twice", other, said("is the same as \"{0}\" in another unit: give one of them", verbatim(given)));
        continue;
      }
      given = other;
      if (const auto v = checked_number(other, *value, range, alternate.to_primary)) field = unit.in(alternate.to_primary(*v));
    }
  }

  template <class Int>
  void whole(std::string_view key, Int& field, Range range, std::string_view meaning) {
    std::optional<Int> read;
    whole(key, read, range, meaning);
    take(read, field, std::string(key), meaning, Absent::is_an_error);
  }
  template <class Int>
  void whole(std::string_view key, std::optional<Int>& field, Range range, std::string_view) {
    field.reset();
    const Json* value = find(key);
    if (!value) return;
    if (!value->is_number_integer()) return problem("not_a_whole_number", key, said("must be a whole number, not {0}", shown(*value)));
    const auto v = checked_number(key, *value, range, nullptr);
    if (v) field = static_cast<Int>(*v);
  }

  void truth(std::string_view key, bool& field, std::string_view) {
    const Json* value = find(key);
    if (!value) return;
    if (!value->is_boolean()) return problem("not_true_or_false", key, said("must be true or false, not {0}", shown(*value)));
    field = value->get<bool>();
  }

  void text(std::string_view key, std::string& field, std::string_view meaning, Absent absent = Absent::is_an_error) {
    std::optional<std::string> read;
    text(key, read, meaning);
    if (read && read->empty() && absent == Absent::is_an_error) {
      return problem("missing", key, said("is empty: give {0}", meaning));
    }
    take(read, field, std::string(key), meaning, absent);
  }
  void text(std::string_view key, std::optional<std::string>& field, std::string_view);

  void date(std::string_view key, Date& field, std::string_view meaning) {
    std::optional<Date> read;
    date(key, read, meaning);
    take(read, field, std::string(key), meaning, Absent::is_an_error);
  }
  void date(std::string_view key, std::optional<Date>& field, std::string_view);

  template <class Enum, std::size_t N>
  void word(std::string_view key, const std::array<std::string_view, N>& words, Enum& field, std::string_view meaning,
            Absent absent = Absent::is_an_error) {
    std::optional<std::size_t> index;
    word_index(key, words, index);
    std::optional<Enum> read;
    if (index) read = static_cast<Enum>(*index);
    take(read, field, std::string(key), meaning, absent);
  }

  void numbers(std::string_view key, std::vector<double>& field, Range range, std::string_view);
  void texts(std::string_view key, std::vector<std::string>& field, std::string_view);

  template <class T>
  void list(std::string_view key, std::vector<T>& field, std::string_view) {
    field.clear();
    const Json* value = find(key);
    if (!value || !is_short_list(key, *value)) return;
    for (std::size_t i = 0; i < value->size(); ++i) {
      const std::string path = base_ + "/" + std::string(key) + "/" + std::to_string(i);
      T item;
      if (!(*value)[i].is_object()) {
        problems_.push_back({"not_an_object", path, said("{0} must be an object with named fields.", verbatim(path))});
        continue;
      }
      Reader reader((*value)[i], path, problems_);
      describe(reader, item);
      reader.finish();
      field.push_back(std::move(item));
    }
  }

  /// A field somebody else reads; finish() then knows it.
  void expect(std::string_view key) { asked_.emplace(key); }

  /// Refuses fields nobody asked for. Call last.
  void finish();

 private:
  const Json* find(std::string_view key);
  void problem(std::string_view code, std::string_view key, Phrase sentence);
  static Phrase shown(const Json& value);
  bool is_short_list(std::string_view key, const Json& value);
  std::optional<double> checked_number(std::string_view key, const Json& value, Range range, double (*to_primary)(double));
  void word_index(std::string_view key, std::span<const std::string_view> words, std::optional<std::size_t>& index);

  template <class T>
  void take(std::optional<T>& read, T& field, const std::string& key, std::string_view meaning, Absent absent) {
    if (read) {
      field = std::move(*read);
    } else if (absent == Absent::is_an_error && !failed_in(key)) {
      problem("missing", key, said("is missing: give {0}", meaning));
    }
  }
  /// A field that was given but is wrong (in whichever unit) has had its own problem.
  bool failed_in(const std::string& key) const;

  const Json& object_;
  std::string base_;
  Problems& problems_;
  std::set<std::string, std::less<>> asked_;
  std::set<std::string, std::less<>> failed_;
};

}  // namespace redd::wire
