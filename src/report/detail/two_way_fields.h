#pragma once
// Numbers that travel as JSON and come back to the last bit: a Writer and a Taker with the same functions, so that each field is named once, in one
// template over both. For what the program itself wrote; what people write is read by wire::Reader, which tells every slip.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "quantities/time.h"
#include "wire/json.h"

namespace redd::report {

/// How an item of a list begins before its fields are taken; specialise it for types that have no empty value.
template <class T>
struct Empty {
  static T made() { return T{}; }
};

/// Puts fields into an object.
class Writer {
 public:
  explicit Writer(wire::Json& object) : object_(object) {}
  void spoil() {}
  void number(const char* key, double& v) { object_[key] = v; }
  void number(const char* key, std::optional<double>& v) { object_[key] = v ? wire::Json(*v) : wire::Json(nullptr); }
  void number(const char* key, std::optional<int>& v) { object_[key] = v ? wire::Json(*v) : wire::Json(nullptr); }
  void whole(const char* key, int& v) { object_[key] = v; }
  void truth(const char* key, bool& v) { object_[key] = v; }
  void text(const char* key, std::string& v) { object_[key] = v; }
  void date(const char* key, Date& v) { object_[key] = iso_from_date(v); }
  void numbers(const char* key, std::vector<double>& v) { object_[key] = v; }
  template <class F>
  void object(const char* key, F&& fields) {
    wire::Json inner = wire::Json::object();
    Writer writer(inner);
    fields(writer);
    object_[key] = std::move(inner);
  }
  template <class T, class F>
  void list(const char* key, std::vector<T>& all, F&& fields) {
    wire::Json array = wire::Json::array();
    for (T& each : all) {
      wire::Json inner = wire::Json::object();
      Writer writer(inner);
      fields(writer, each);
      array.push_back(std::move(inner));
    }
    object_[key] = std::move(array);
  }
  template <class T, class F>
  void maybe(const char* key, std::optional<T>& v, F&& fields) {
    if (v) object(key, [&](Writer& inner) { fields(inner, *v); });
    else object_[key] = nullptr;
  }

 private:
  wire::Json& object_;
};

/// Takes them out again; what is not there or of another kind makes the whole unusable.
class Taker {
 public:
  Taker(const wire::Json& object, bool& ok) : object_(object), ok_(ok) {}
  void spoil() { ok_ = false; }
  void number(const char* key, double& v) {
    if (const wire::Json* j = find(key); j && j->is_number()) v = j->get<double>();
    else ok_ = false;
  }
  void number(const char* key, std::optional<double>& v) {
    if (const wire::Json* j = find(key); j && j->is_number()) v = j->get<double>();
    else if (!j || !j->is_null()) ok_ = false;
  }
  void number(const char* key, std::optional<int>& v) {
    if (const wire::Json* j = find(key); j && j->is_number_integer()) v = j->get<int>();
    else if (!j || !j->is_null()) ok_ = false;
  }
  void whole(const char* key, int& v) {
    if (const wire::Json* j = find(key); j && j->is_number_integer()) v = j->get<int>();
    else ok_ = false;
  }
  void truth(const char* key, bool& v) {
    if (const wire::Json* j = find(key); j && j->is_boolean()) v = j->get<bool>();
    else ok_ = false;
  }
  void text(const char* key, std::string& v) {
    if (const wire::Json* j = find(key); j && j->is_string()) v = j->get<std::string>();
    else ok_ = false;
  }
  void date(const char* key, Date& v) {
    const wire::Json* j = find(key);
    const auto day = j && j->is_string() ? date_from_iso(j->get_ref<const std::string&>()) : std::nullopt;
    if (day) v = *day;
    else ok_ = false;
  }
  void numbers(const char* key, std::vector<double>& v) {
    v.clear();
    const wire::Json* j = find(key);
    if (!j || !j->is_array()) {
      ok_ = false;
      return;
    }
    v.reserve(j->size());
    for (const wire::Json& each : *j) {
      if (!each.is_number()) ok_ = false;
      else v.push_back(each.get<double>());
    }
  }
  template <class F>
  void object(const char* key, F&& fields) {
    const wire::Json* j = find(key);
    if (!j || !j->is_object()) {
      ok_ = false;
      return;
    }
    Taker inner(*j, ok_);
    fields(inner);
  }
  template <class T, class F>
  void list(const char* key, std::vector<T>& all, F&& fields) {
    constexpr std::size_t most = 400;
    const wire::Json* j = find(key);
    all.clear();
    if (!j || !j->is_array() || j->size() > most) {
      ok_ = false;
      return;
    }
    for (const wire::Json& each : *j) {
      if (!each.is_object()) {
        ok_ = false;
        return;
      }
      T item = Empty<T>::made();
      Taker inner(each, ok_);
      fields(inner, item);
      all.push_back(std::move(item));
    }
  }
  template <class T, class F>
  void maybe(const char* key, std::optional<T>& v, F&& fields) {
    v.reset();
    if (const wire::Json* j = find(key); j && j->is_null()) return;
    v = Empty<T>::made();
    object(key, [&](Taker& inner) { fields(inner, *v); });
  }

 private:
  const wire::Json* find(const char* key) const {
    const auto found = object_.find(key);
    return found == object_.end() ? nullptr : &*found;
  }
  const wire::Json& object_;
  bool& ok_;
};

}  // namespace redd::report
