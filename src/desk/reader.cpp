#include "desk/reader.h"

#include <algorithm>
#include <charconv>

namespace redd::desk {
namespace {

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

/// "q=0.8" of "es-MX;q=0.8"; 1 when absent, 0 when it can't be read. Source  RFC 9110, section 12.4.2.
double weight_of(std::string_view parameters) {
  parameters = trimmed(parameters);
  if (parameters.empty()) return 1.0;
  if (!parameters.starts_with("q=") && !parameters.starts_with("Q=")) return 0.0;
  double weight = 0.0;
  const auto read = std::from_chars(parameters.data() + 2, parameters.data() + parameters.size(), weight);
  return read.ec == std::errc() && weight > 0.0 ? std::min(weight, 1.0) : 0.0;
}

bool of_reader(std::string_view key) { return key == "language" || key == "units"; }

}  // namespace

report::Language language_accepted(std::string_view header) {
  report::Language best = report::Language::en;
  double best_weight = 0.0;
  while (!header.empty()) {
    const std::string_view one = header.substr(0, header.find(','));
    header.remove_prefix(std::min(header.size(), one.size() + 1));
    const std::size_t semicolon = one.find(';');
    const auto language = report::language_from_tag(trimmed(one.substr(0, semicolon)));
    const double weight = weight_of(semicolon == std::string_view::npos ? std::string_view() : one.substr(semicolon + 1));
    if (!language || weight <= best_weight) continue;
    best = *language;
    best_weight = weight;
  }
  return best;
}

Result<report::Reader> reader_of(const Request& request) {
  report::Reader reader;
  reader.language = language_accepted(request.header("accept-language").value_or(""));
  bool us = request.header("redd-units") == "us";
  if (const auto language = request.parameter("language")) {
    const auto known = report::language_from_tag(*language);
    if (!known) return Problem{"unknown_word", "language", "language is en or es."};
    reader.language = *known;
  }
  if (const auto units = request.parameter("units")) {
    if (*units != "us" && *units != "metric") return Problem{"unknown_word", "units", "units is metric or us."};
    us = *units == "us";
  }
  reader.fahrenheit = reader.us_gallons = us;
  return reader;
}

report::Reader reader_in(const wire::Json& question) {
  report::Reader reader;
  const auto given = question.find("reader");
  if (given == question.end() || !given->is_object()) return reader;
  const auto word = [&](const char* key) {
    const auto found = given->find(key);
    return found != given->end() && found->is_string() ? found->get<std::string>() : std::string();
  };
  reader.language = report::language_from_tag(word("language")).value_or(report::Language::en);
  reader.fahrenheit = reader.us_gallons = word("units") == "us";
  return reader;
}

Request without_reader(Request request) {
  std::erase_if(request.query, [](const auto& pair) { return of_reader(pair.first); });
  return request;
}

}  // namespace redd::desk
