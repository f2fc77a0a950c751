// export --csv and --wqx, and a saved season in any of its forms back.
#include <algorithm>
#include <filesystem>
#include <ostream>

#include "cli/commands.h"
#include "ledger/season_file.h"
#include "ledger/season_tables.h"

namespace redd::cli {
namespace {

namespace fs = std::filesystem;

Problems write_folder(const std::string& folder, const std::vector<ledger::NamedFile>& files, bool force) {
  std::error_code failed;
  const fs::path root(folder);
  if (!force && fs::exists(root / files.front().name, failed))
    return {{"file_exists", folder, said("{0} exists already. Choose another name, or replace it with --force.", folder)}};
  fs::create_directories(root / "data", failed);
  if (failed) return {{"cannot_write", folder, said("{0} can't be written: {1}.", folder, failed.message())}};
  // datapackage.json last: a folder without it is no season, so half of one is never taken for a whole.
  if (force) fs::remove(root / files.front().name, failed);
  for (std::size_t i = files.size(); i-- > 0;)
    if (Problems problems = write_file((root / files[i].name).string(), files[i].bytes, true); !problems.empty()) return problems;
  return {};
}

/// datapackage.json and data/*.csv of a folder, in order of name.
Result<std::vector<ledger::NamedFile>> files_in(const Console& console, const std::string& folder) {
  std::vector<std::string> names{"datapackage.json"};
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(fs::path(folder) / "data", failed))
    if (entry.path().extension() == ".csv") names.push_back("data/" + entry.path().filename().string());
  std::ranges::sort(names);
  std::vector<ledger::NamedFile> files;
  for (const std::string& name : names) {
    const fs::path path = fs::path(folder) / name;
    if (!fs::exists(path, failed)) continue;
    auto text = file_text(console, path.string());
    if (!text) return text.problems();
    files.push_back({name, std::move(text).value()});
  }
  return files;
}

}  // namespace

Exit export_tables(const Console& console, const Place& place, const std::string& to, bool force) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  // Tables with a hole in them would be taken for a good copy.
  if (!opened->look->unreadable.empty()) return complain(console, opened->look->unreadable.front().problems);
  const auto files = ledger::season_tables(opened->look->records);
  const Problems problems = to.ends_with(".zip") ? write_file(to, ledger::stored_zip(files), force) : write_folder(to, files, force);
  if (!problems.empty()) return complain(console, problems);
  console.out << console.say(said("{0} records written to {1}", opened->look->records.size(), to)) << "\n";
  return Exit::ok;
}

Exit export_wqx(const Console& console, const Place& place, const WqxAsked& asked, bool force) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const std::string text = report::wqx_csv(records::effective(opened->look->records, opened->now), asked.labels);
  if (asked.file == "-") {
    console.out << text << std::flush;
    return console.out ? Exit::ok : complain(console, {{"cannot_write", "", "The season could not be written to its end."}});
  }
  if (const Problems problems = write_file(asked.file, text, force); !problems.empty()) return complain(console, problems);
  console.out << console.say(said("The tests of the season were written to {0}", asked.file)) << "\n";
  return Exit::ok;
}

Result<std::vector<records::Record>> records_of_saved(const Console& console, const std::string& path) {
  std::error_code ignored;
  if (path != "-" && fs::is_directory(path, ignored)) {
    const auto files = files_in(console, path);
    if (!files) return files.problems();
    return ledger::records_of_season_tables(*files);
  }
  const auto text = file_text(console, path);
  if (!text) return text.problems();
  if (!text->starts_with("PK")) return ledger::records_of_season_file(*text);
  const auto files = ledger::files_of_stored_zip(*text);
  if (!files) return files.problems();
  return ledger::records_of_season_tables(*files);
}

}  // namespace redd::cli
