#pragma once
// Bodies of every kind with random contents inside the allowed ranges, made by walking the same description of the
// fields that the reader and the writer walk.

#include <random>
#include <string>
#include <vector>

#include "records/record.h"
#include "wire/describe.h"

namespace redd::test {

class RandomFill {
 public:
  explicit RandomFill(unsigned seed) : random_(seed) {}

  template <class T>
  void number(std::string_view, const wire::Unit<T>& unit, T& field, wire::Range range, std::string_view, wire::Absent = wire::Absent::is_an_error) {
    field = unit.in(in_range(range));
  }
  template <class T>
  void number(std::string_view, const wire::Unit<T>& unit, std::optional<T>& field, wire::Range range, std::string_view) {
    field.reset();
    if (coin()) field = unit.in(in_range(range));
  }
  template <class Int>
  void whole(std::string_view, Int& field, wire::Range range, std::string_view) { field = static_cast<Int>(std::floor(in_range(range))); }
  template <class Int>
  void whole(std::string_view, std::optional<Int>& field, wire::Range range, std::string_view) {
    field.reset();
    if (coin()) field = static_cast<Int>(std::floor(in_range(range)));
  }
  void truth(std::string_view, bool& field, std::string_view) { field = coin(); }
  void text(std::string_view, std::string& field, std::string_view, wire::Absent = wire::Absent::is_an_error) { field = any_text(); }
  void text(std::string_view, std::optional<std::string>& field, std::string_view) {
    field.reset();
    if (coin()) field = any_text();
  }
  void date(std::string_view, Date& field, std::string_view) { field = any_date(); }
  void date(std::string_view, std::optional<Date>& field, std::string_view) {
    field.reset();
    if (coin()) field = any_date();
  }
  template <class Enum, std::size_t N>
  void word(std::string_view, const std::array<std::string_view, N>&, Enum& field, std::string_view, wire::Absent = wire::Absent::is_an_error) {
    field = static_cast<Enum>(random_() % N);
  }
  void numbers(std::string_view, std::vector<double>& field, wire::Range range, std::string_view) {
    field.clear();
    for (unsigned n = random_() % 6; n > 0; --n) field.push_back(in_range(range));
  }
  void texts(std::string_view, std::vector<std::string>& field, std::string_view) {
    field.clear();
    for (unsigned n = random_() % 6; n > 0; --n) field.push_back(any_text());
  }
  template <class T>
  void list(std::string_view, std::vector<T>& field, std::string_view) {
    field.clear();
    for (unsigned n = random_() % 4; n > 0; --n) {
      T item;
      wire::describe(*this, item);
      field.push_back(item);
    }
  }

  bool coin() { return random_() % 2 == 0; }
  std::string any_text() {
    static const std::vector<std::string> pieces{"a", "Z", "7", " ", "\"", "\\", "/", "\n", "\t", "é", "水", "🐟", "<b>", "'", "{", ",", "=1+1"};
    std::string text = "x";
    for (unsigned n = random_() % 20; n > 0; --n) text += pieces[random_() % pieces.size()];
    return text;
  }
  Date any_date() { return *date_from_iso("1990-01-01") + std::chrono::days(random_() % 60000); }
  double in_range(wire::Range range) {
    const unsigned pick = random_() % 10;
    if (pick == 0) return range.low;
    if (pick == 1) return range.high;
    return range.low + (range.high - range.low) * std::uniform_real_distribution<>()(random_);
  }

 private:
  std::mt19937 random_;
};

inline records::Body any_body(std::string_view kind, unsigned seed) {
  records::Body body = *records::body_of_kind(kind);
  RandomFill fill(seed);
  std::visit([&](auto& b) { wire::describe(fill, b); }, body);
  return body;
}

}  // namespace redd::test
