#pragma once
// The schema printer: walks describe() and writes JSON Schema (draft 2020-12), the same ranges the reader enforces.

#include <type_traits>

#include "wire/describe.h"
#include "wire/json.h"

namespace redd::wire {

template <class T>
Json schema_of(T& example);

class Schema {
 public:
  Schema() { out_ = {{"type", "object"}, {"additionalProperties", false}, {"properties", Json::object()}, {"required", Json::array()}}; }

  template <class T>
  void number(std::string_view key, const Unit<T>& unit, const T&, Range range, std::string_view meaning,
              Absent absent = Absent::is_an_error) {
    const std::string primary = std::string(key) + std::string(unit.suffix);
    property(primary, number_schema(range, meaning));
    // Given in another unit instead, the primary key is absent: only a field without alternates can be "required".
    for (const Alternate& alternate : unit.alternates)
      property(std::string(key) + std::string(alternate.suffix),
               {{"type", "number"}, {"description", std::string(meaning) + " (instead of " + primary + ")"}});
    if (absent == Absent::is_an_error && unit.alternates.empty()) out_["required"].push_back(primary);
  }
  template <class T>
  void number(std::string_view key, const Unit<T>& unit, const std::optional<T>&, Range range, std::string_view meaning) {
    number(key, unit, unit.in(0.0), range, meaning, Absent::keeps_default);
  }
  template <class Int>
  void whole(std::string_view key, const Int&, Range range, std::string_view meaning) {
    Json schema = number_schema(range, meaning);
    schema["type"] = "integer";
    property(key, schema);
    out_["required"].push_back(std::string(key));
  }
  template <class Int>
  void whole(std::string_view key, const std::optional<Int>&, Range range, std::string_view meaning) {
    Json schema = number_schema(range, meaning);
    schema["type"] = "integer";
    property(key, schema);
  }
  void truth(std::string_view key, const bool&, std::string_view meaning) { simple(key, "boolean", meaning, true); }
  void text(std::string_view key, const std::string&, std::string_view meaning, Absent absent = Absent::is_an_error) {
    simple(key, "string", meaning, absent == Absent::keeps_default);
  }
  void text(std::string_view key, const std::optional<std::string>&, std::string_view meaning) { simple(key, "string", meaning, true); }
  void date(std::string_view key, const Date&, std::string_view meaning) { date_property(key, meaning, false); }
  void date(std::string_view key, const std::optional<Date>&, std::string_view meaning) { date_property(key, meaning, true); }
  template <class Enum, std::size_t N>
  void word(std::string_view key, const std::array<std::string_view, N>& words, const Enum&, std::string_view meaning,
            Absent absent = Absent::is_an_error) {
    Json list = Json::array();
    for (const auto w : words) list.push_back(std::string(w));
    property(key, {{"enum", list}, {"description", std::string(meaning)}});
    if (absent == Absent::is_an_error) out_["required"].push_back(std::string(key));
  }
  void numbers(std::string_view key, const std::vector<double>&, Range range, std::string_view meaning) {
    property(key, {{"type", "array"}, {"items", number_schema(range, meaning)}});
  }
  void texts(std::string_view key, const std::vector<std::string>&, std::string_view meaning) {
    property(key, {{"type", "array"}, {"items", {{"type", "string"}, {"description", std::string(meaning)}}}});
  }
  template <class T>
  void list(std::string_view key, const std::vector<T>&, std::string_view meaning) {
    T example;
    property(key, {{"type", "array"}, {"description", std::string(meaning)}, {"items", schema_of(example)}});
  }

  Json take() { return std::move(out_); }

 private:
  static Json number_schema(Range range, std::string_view meaning) {
    return {{"type", "number"}, {"minimum", range.low}, {"maximum", range.high}, {"description", std::string(meaning)}};
  }
  void property(std::string_view key, Json schema) { out_["properties"][std::string(key)] = std::move(schema); }
  void simple(std::string_view key, const char* type, std::string_view meaning, bool optional) {
    property(key, {{"type", type}, {"description", std::string(meaning)}});
    if (!optional) out_["required"].push_back(std::string(key));
  }
  void date_property(std::string_view key, std::string_view meaning, bool optional) {
    property(key, {{"type", "string"}, {"format", "date"}, {"description", std::string(meaning)}});
    if (!optional) out_["required"].push_back(std::string(key));
  }
  Json out_;
};

template <class T>
Json schema_of(T& example) {
  Schema schema;
  describe(schema, example);
  return schema.take();
}

}  // namespace redd::wire
