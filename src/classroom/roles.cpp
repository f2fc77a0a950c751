#include "classroom/roles.h"

#include <algorithm>
#include <array>

#include "quantities/verbatim.h"

namespace redd::classroom {
namespace {

constexpr std::array<std::string_view, 4> names{"nobody", "bench", "keeper", "this_machine"};

constexpr OpenAddress open[] = {
    {"GET", "/api/classroom", Role::nobody, "to know that signing in is asked for"},
    {"POST", "/api/classroom/sign-in", Role::nobody, "to sign in"},
    {"POST", "/api/classroom/sign-out", Role::nobody, "signing out twice does no harm"},
    {"GET", "/api/season", Role::bench, "whether there is a season, and its day"},
    {"GET", "/api/day", Role::bench, "what is due at the bench today, and what the tests should read"},
    {"GET", "/api/kits", Role::bench, "the cards that are read"},
    {"GET", "/api/thermometer", Role::bench, "what the live thermometer alarms of, on every screen"},
    {"POST", "/api/bench", Role::bench, "order and length of a sitting; keeps nothing"},
    {"POST", "/api/records", Role::bench, "a reading or a temperature, see below"},
};

constexpr std::array<std::string_view, 2> bench_kinds{"reading", "temperature"};

/// A sitting that is typed in after class, and a clock that runs ahead. Assumed: nobody reads a card for longer than a day.
constexpr std::chrono::hours longest_ago{24};
constexpr std::chrono::minutes furthest_ahead{10};

}  // namespace

std::string_view name_of(Role role) { return names[static_cast<std::size_t>(role)]; }

std::optional<Role> role_of(std::string_view name) {
  const auto found = std::ranges::find(names, name);
  if (found == names.end()) return std::nullopt;
  return static_cast<Role>(found - names.begin());
}

std::span<const OpenAddress> open_addresses() { return open; }

Role lowest_role(std::string_view method, std::string_view path) {
  if (method == "HEAD") method = "GET";
  for (const OpenAddress& each : open)
    if (each.method == method && each.path == path) return each.lowest;
  const bool is_api = path == "/api" || path.starts_with("/api/");
  return is_api || path == "/redd.html" ? Role::keeper : Role::nobody;
}

bool bench_may_log(std::string_view kind) { return std::ranges::find(bench_kinds, kind) != bench_kinds.end(); }
std::span<const std::string_view> kinds_of_the_bench() { return bench_kinds; }

Problems problems_of_bench_entry(const records::Entry& entry, std::string_view label, Instant now) {
  Problems problems;
  if (!bench_may_log(records::kind_name(entry.body)))
    problems.push_back({"not_yours", "/kind", "With a bench code only readings and temperatures can be added. Ask the keeper for anything else."});
  if (entry.supersedes)
    problems.push_back({"not_yours", "/supersedes", "With a bench code nothing that is logged can be corrected. Ask the keeper, or add the reading anew."});
  const auto* reading = std::get_if<records::Reading>(&entry.body);
  if (!label.empty() && entry.author != label)
    problems.push_back({"not_yours", "/author", said("This code is for {0}: log under that label.", verbatim(label))});
  if (!label.empty() && reading && reading->team && *reading->team != label)
    problems.push_back({"not_yours", "/body/team", said("This code is for {0}: log under that label.", verbatim(label))});
  if (entry.at < now - longest_ago || entry.at > now + furthest_ahead)
    problems.push_back({"not_yours", "/at", "With a bench code only readings of the last 24 hours can be added."});
  return problems;
}

}  // namespace redd::classroom
