#include "desk/http.h"

#include <algorithm>

#include "desk/calc_json.h"
#include "wire/codec.h"

namespace redd::desk {
namespace {

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same_word(std::string_view a, std::string_view b) {
  return std::ranges::equal(a, b, [](char x, char y) { return lower(x) == lower(y); });
}

std::optional<std::string_view> first(const Pairs& pairs, std::string_view name) {
  for (const auto& [key, value] : pairs)
    if (same_word(key, name)) return value;
  return std::nullopt;
}

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

Problem bad_target(Phrase sentence) {
  return {"bad_target", "", std::move(sentence)};
}

}  // namespace

std::optional<std::string_view> Request::header(std::string_view name) const {
  return first(headers, name);
}

std::optional<std::string_view> Request::parameter(std::string_view name) const {
  for (const auto& [key, value] : query)
    if (key == name) return value;
  return std::nullopt;
}

std::optional<std::string_view> Response::header(std::string_view name) const {
  return first(headers, name);
}

std::optional<std::string> percent_decoded(std::string_view text, bool plus_is_space) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (c == '+' && plus_is_space) {
      c = ' ';
    } else if (c == '%') {
      if (i + 2 >= text.size()) return std::nullopt;
      const int high = hex_digit(text[i + 1]), low = hex_digit(text[i + 2]);
      if (high < 0 || low < 0) return std::nullopt;
      c = static_cast<char>(high * 16 + low);
      i += 2;
    }
    if (c == '\0') return std::nullopt;
    out += c;
  }
  return out;
}

Result<Request> request_from_target(std::string_view method, std::string_view target) {
  if (target.empty() || target.front() != '/') return bad_target("The address must start with a slash.");
  const std::size_t mark = target.find('?');
  const auto path = percent_decoded(target.substr(0, mark), false);
  if (!path) return bad_target("The address holds a broken percent escape.");
  Request request;
  request.method = std::string(method);
  request.path = *path;
  std::string_view rest = mark == std::string_view::npos ? std::string_view() : target.substr(mark + 1);
  while (!rest.empty()) {
    const std::size_t end = rest.find('&');
    const std::string_view part = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
    if (part.empty()) continue;
    const std::size_t equals = part.find('=');
    const auto key = percent_decoded(part.substr(0, equals), true);
    const auto value =
        percent_decoded(equals == std::string_view::npos ? std::string_view() : part.substr(equals + 1), true);
    if (!key || !value) return bad_target("A parameter of the address holds a broken percent escape.");
    request.query.emplace_back(*key, *value);
  }
  return request;
}

Response refusal(int status, const Problems& problems) {
  Response response = json_response(wire::printed(json_from_problems(problems)), status);
  response.problems = problems;
  return response;
}

void word_problems(Response& response, const report::Reader& reader) {
  if (response.problems.empty() || (reader.language == report::Language::en && !reader.fahrenheit)) return;
  response.body = wire::printed(json_from_problems(response.problems, reader));
}

Response refusal(int status, std::string_view code, std::string_view field, const Phrase& sentence) {
  return refusal(status, Problems{{std::string(code), std::string(field), sentence}});
}

Response json_response(std::string json, int status) {
  Response response;
  response.status = status;
  response.body = std::move(json);
  return response;
}

}  // namespace redd::desk
