#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <array>

#include "sensors/source.h"

namespace redd::sensors {
namespace {

using thermometer::Failure;

/// The file's text; a sensor's file is short. Nothing when it can't be read.
std::optional<std::string> text_of(const std::filesystem::path& file) {
  const int fd = open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (fd < 0) return std::nullopt;
  std::array<char, 512> buffer{};
  const ssize_t got = ::read(fd, buffer.data(), buffer.size());
  close(fd);
  if (got < 0) return std::nullopt;
  return std::string(buffer.data(), static_cast<std::size_t>(got));
}

std::variant<double, Failure> c_of(const std::filesystem::path& file) {
  const auto text = text_of(file);
  if (!text) return Failure::no_answer;
  const std::string name = file.filename().string();
  if (name == "w1_slave") return thermometer::c_from_w1_slave(*text);
  return thermometer::c_from_thousandths(*text, name == "temperature" ? thermometer::Source::one_wire : thermometer::Source::other);
}

class FileSource final : public Source {
 public:
  explicit FileSource(std::filesystem::path file) : file_(std::move(file)) {}
  std::optional<std::variant<double, Failure>> read() override { return c_of(file_); }

 private:
  std::filesystem::path file_;
};

std::string first_line(const std::filesystem::path& file) {
  const auto text = text_of(file);
  return text ? text->substr(0, text->find('\n')) : std::string();
}

std::vector<std::filesystem::path> entries_of(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> all;
  std::error_code error;
  for (std::filesystem::directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) all.push_back(it->path());
  std::ranges::sort(all);
  return all;
}

}  // namespace

std::unique_ptr<Source> file_source(std::filesystem::path file) { return std::make_unique<FileSource>(std::move(file)); }

std::vector<Found> found_sensors(const std::filesystem::path& sys) {
  std::vector<Found> found;
  std::error_code ignored;
  for (const auto& device : entries_of(sys / "bus/w1/devices"))
    for (const char* name : {"temperature", "w1_slave"})
      if (std::filesystem::exists(device / name, ignored)) {
        found.push_back({device / name, device.filename().string(), c_of(device / name)});
        break;
      }
  for (const auto& chip : entries_of(sys / "class/hwmon"))
    for (const auto& file : entries_of(chip)) {
      const std::string name = file.filename().string();
      if (!name.starts_with("temp") || !name.ends_with("_input")) continue;
      const std::string label = first_line(chip / (name.substr(0, name.size() - 5) + "label"));
      found.push_back({file, first_line(chip / "name") + (label.empty() ? "" : " " + label), c_of(file)});
    }
  return found;
}

Result<std::unique_ptr<Source>> source_of(const Settings& settings) {
  if (settings.mqtt) return mqtt_source(*settings.mqtt);
  return file_source(*settings.file);
}

}  // namespace redd::sensors
