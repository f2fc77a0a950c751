// kit …: test kits in force, templates, and kits from files.
#include <algorithm>
#include <ostream>

#include "cli/commands.h"
#include "intake/kit_file.h"
#include "quantities/verbatim.h"
#include "records/reading.h"
#include "wire/codec.h"

namespace redd::cli {
namespace {

Phrase method_text(const records::KitTest& test) {
  switch (test.method) {
    case records::Method::colour_steps:
      return said("{0} colour steps", test.steps.size());
    case records::Method::drop_count:
      return "drops counted";
    case records::Method::meter:
      return "meter";
  }
  broken_promise("method_text", "unknown method");
}

void print_tests(const Console& console, const records::Kit& kit) {
  std::vector<std::vector<std::string>> rows;
  for (const records::KitTest& test : kit.tests)
    rows.push_back(
        {"  " + test.key, console.say(records::quantity_text(test.quantity)), console.say(records::unit_text(test.unit)), console.say(method_text(test))});
  console.out << kit.key << ": " << kit.name << "\n" << table(rows);
}

Exit unknown_kit(const Console& console, const std::string& key, const std::vector<records::Kit>& kits,
                 const char* where) {
  std::string known;
  for (const records::Kit& kit : kits) known += (known.empty() ? "" : ", ") + kit.key;
  return complain(
      console, {{"unknown_kit", "",
                 said("There is no kit \"{0}\" {1}{2}", verbatim(key), where, known.empty() ? "." : said("; there are: {0}.", verbatim(known)))}});
}

/// A kit file, or a template by its key.
Result<records::Kit> kit_from_file(const Console& console, const std::string& file) {
  const auto templates = server::kit_templates();
  const auto ready = std::ranges::find(templates, file, &records::Kit::key);
  if (ready != templates.end()) return *ready;
  const auto text = file_text(console, file);
  if (!text) return text.problems();
  auto kit = intake::kit_from_text(*text);
  if (!kit) return kit.problems();
  Problems problems = records::problems_of(*kit);
  if (!problems.empty()) return problems;
  return kit;
}

}  // namespace

Exit kit_list(const Console& console, const Place& place) {
  const auto opened = open_season(place);
  if (opened) {
    const auto kits = server::kits_in_force(*opened->look, opened->now);
    console.out << console.say(kits.empty() ? "No kit is in use yet." : "In use:") << "\n";
    for (const records::Kit& kit : kits) print_tests(console, kit);
  } else if (opened.problems().front().code != "no_season") {
    return complain(console, opened.problems());
  }
  console.out << "\n"
              << console.say("Templates. If one matches your own card: redd kit use KEY. If not: redd kit template KEY > my-kit.toml, edit it until it does, then redd kit use my-kit.toml.")
              << "\n";
  for (const records::Kit& kit : server::kit_templates()) print_tests(console, kit);
  return Exit::ok;
}

Exit kit_show(const Console& console, const Place& place, const std::string& key) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const auto kits = server::kits_in_force(*opened->look, opened->now);
  const auto kit = key.empty() && kits.size() == 1 ? kits.begin() : std::ranges::find(kits, key, &records::Kit::key);
  if (kit == kits.end()) return unknown_kit(console, key, kits, "in use");
  console.out << intake::toml_from_kit(*kit);
  return Exit::ok;
}

Exit kit_template(const Console& console, const std::string& key) {
  const auto kits = server::kit_templates();
  const auto kit = std::ranges::find(kits, key, &records::Kit::key);
  if (kit == kits.end()) return unknown_kit(console, key, kits, "among the templates");
  console.out << intake::toml_from_kit(*kit);
  return Exit::ok;
}

Exit kit_check(const Console& console, const std::string& file) {
  const auto kit = kit_from_file(console, file);
  if (!kit) return complain(console, kit.problems());
  console.out << console.say("This kit can be used.") << "\n";
  print_tests(console, *kit);
  return Exit::ok;
}

Exit kit_use(const Console& console, const Place& place, const std::string& file, const Writing& writing) {
  const auto kit = kit_from_file(console, file);
  if (!kit) return complain(console, kit.problems());
  return log(console, place, "kit", {}, {writing.at, writing.author, wire::json_from_body(*kit), writing.entry_key});
}

}  // namespace redd::cli
