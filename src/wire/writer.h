#pragma once
// The writer: walks describe() and fills a JSON object, leaving absent optionals and empty lists out.

#include "wire/describe.h"
#include "wire/json.h"

namespace redd::wire {

class Writer {
 public:
  explicit Writer(Json& out) : out_(out) {}

  template <class T>
  void number(std::string_view key, const Unit<T>& unit, const T& field, Range, std::string_view,
              Absent = Absent::is_an_error) {
    out_[std::string(key) + std::string(unit.suffix)] = unit.out(field);
  }
  template <class T>
  void number(std::string_view key, const Unit<T>& unit, const std::optional<T>& field, Range range, std::string_view meaning) {
    if (field) number(key, unit, *field, range, meaning);
  }
  template <class Int>
  void whole(std::string_view key, const Int& field, Range, std::string_view) {
    out_[std::string(key)] = field;
  }
  template <class Int>
  void whole(std::string_view key, const std::optional<Int>& field, Range, std::string_view) {
    if (field) out_[std::string(key)] = *field;
  }
  void truth(std::string_view key, const bool& field, std::string_view) { out_[std::string(key)] = field; }
  void text(std::string_view key, const std::string& field, std::string_view, Absent = Absent::is_an_error) {
    out_[std::string(key)] = field;
  }
  void text(std::string_view key, const std::optional<std::string>& field, std::string_view) {
    if (field) out_[std::string(key)] = *field;
  }
  void date(std::string_view key, const Date& field, std::string_view) { out_[std::string(key)] = iso_from_date(field); }
  void date(std::string_view key, const std::optional<Date>& field, std::string_view) {
    if (field) out_[std::string(key)] = iso_from_date(*field);
  }
  template <class Enum, std::size_t N>
  void word(std::string_view key, const std::array<std::string_view, N>& words, const Enum& field, std::string_view,
            Absent = Absent::is_an_error) {
    out_[std::string(key)] = std::string(words[static_cast<std::size_t>(field)]);
  }
  void numbers(std::string_view key, const std::vector<double>& field, Range, std::string_view) { values(key, field); }
  void texts(std::string_view key, const std::vector<std::string>& field, std::string_view) { values(key, field); }
  template <class T>
  void list(std::string_view key, const std::vector<T>& field, std::string_view) {
    if (field.empty()) return;
    Json& array = out_[std::string(key)] = Json::array();
    for (const T& item : field) {
      Json object = Json::object();
      Writer writer(object);
      T copy = item;
      describe(writer, copy);
      array.push_back(std::move(object));
    }
  }

 private:
  template <class T>
  void values(std::string_view key, const std::vector<T>& field) {
    if (!field.empty()) out_[std::string(key)] = field;
  }
  Json& out_;
};

}  // namespace redd::wire
