#include "sensors/settings.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <functional>
#include <map>

#include "quantities/verbatim.h"

namespace redd::sensors {
namespace {

constexpr std::size_t largest_file = 64 * 1024;

std::string_view trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(" \t\r");
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(" \t\r") - from + 1);
}

/// Reads line after line into the settings; each problem names its line.
class Lines {
 public:
  Result<Settings> read(std::string_view text) {
    while (!text.empty()) {
      ++line_;
      const std::size_t end = std::min(text.find('\n'), text.size());
      take(trimmed(text.substr(0, end)));
      text.remove_prefix(std::min(end + 1, text.size()));
    }
    finish();
    if (!problems_.empty()) return problems_;
    return settings_;
  }

 private:
  void complain(const char* code, Phrase sentence) {
    problems_.push_back({code, said("line {0}", line_), said("Line {0}: {1}", line_, std::move(sentence))});
  }

  void take(std::string_view line) {
    if (line.empty() || line.front() == '#') return;
    const std::size_t equals = line.find('=');
    if (equals == std::string_view::npos) return complain("not_a_setting", "write it as name = value.");
    const std::string name(trimmed(line.substr(0, equals)));
    const std::string value(trimmed(line.substr(equals + 1)));
    const auto known = names().find(name);
    if (known == names().end()) return complain("unknown_name", said("\"{0}\" is not a setting of the thermometer.", verbatim(name.substr(0, 40))));
    if (value.empty() || value.size() > 1000) return complain("missing", said("{0} has no value; leave the line out, or write one.", verbatim(name)));
    if (std::ranges::any_of(value, [](unsigned char c) { return c < 0x20 || c == 0x7F; })) return complain("not_allowed", "control characters are not allowed.");
    if (!seen_.insert({name, line_}).second) return complain("given_twice", said("{0} is given twice.", verbatim(name)));
    known->second(value);
  }

  void number(const std::string& value, double low, double high, const std::function<void(double)>& set) {
    double read = 0;
    const auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), read);
    if (error != std::errc() || end != value.data() + value.size() || !(read >= low && read <= high))
      return complain("out_of_range", said("\"{0}\" is not a number from {1} to {2}.", verbatim(value.substr(0, 40)), static_cast<int>(std::floor(low)), static_cast<int>(std::ceil(high))));
    set(read);
  }
  void truth(const std::string& value, bool& field) {
    if (value != "yes" && value != "no") return complain("out_of_range", said("\"{0}\" is neither yes nor no.", verbatim(value.substr(0, 40))));
    field = value == "yes";
  }
  MqttSettings& mqtt() { return settings_.mqtt ? *settings_.mqtt : settings_.mqtt.emplace(); }
  MailSettings& mail() { return settings_.mail ? *settings_.mail : settings_.mail.emplace(); }
  WebhookSettings& webhook() { return settings_.webhook ? *settings_.webhook : settings_.webhook.emplace(); }

  using Take = std::function<void(const std::string&)>;
  const std::map<std::string, Take>& names() {
    if (!names_.empty()) return names_;
    names_ = {
        {"name", [this](const std::string& v) {
           if (v.size() > 24 || !std::ranges::all_of(v, [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; }))
             return complain("not_allowed", "name is a short word of small letters, digits and dashes.");
           settings_.name = v;
         }},
        {"file", [this](const std::string& v) { settings_.file = v; }},
        {"every_seconds", [this](const std::string& v) { number(v, 5, 600, [this](double n) { settings_.every = std::chrono::seconds(std::llround(n)); }); }},
        {"resolution_c", [this](const std::string& v) { number(v, 0.001, 2, [this](double n) { settings_.resolution_c = n; }); }},
        {"low_c", [this](const std::string& v) { number(v, -1, 30, [this](double n) { settings_.low_c = n; }); }},
        {"high_c", [this](const std::string& v) { number(v, 0, 35, [this](double n) { settings_.high_c = n; }); }},
        {"silent_after_minutes", [this](const std::string& v) { number(v, 2, 720, [this](double n) { settings_.silent_after = std::chrono::seconds(std::llround(n * 60)); }); }},
        {"language", [this](const std::string& v) {
           if (v != "en" && v != "es") return complain("not_allowed", "language is en or es.");
           settings_.spanish = v == "es";
         }},
        {"desktop", [this](const std::string& v) { truth(v, settings_.desktop); }},
        {"mqtt_host", [this](const std::string& v) { mqtt().host = v; }},
        {"mqtt_port", [this](const std::string& v) { number(v, 1, 65535, [this](double n) { mqtt().port = static_cast<int>(n); }); }},
        {"mqtt_topic", [this](const std::string& v) { mqtt().topic = v; }},
        {"mqtt_field", [this](const std::string& v) { mqtt().field = v; }},
        {"mqtt_user", [this](const std::string& v) { mqtt().user = v; }},
        {"mqtt_password", [this](const std::string& v) { mqtt().password = v; }},
        {"mqtt_tls", [this](const std::string& v) { truth(v, mqtt().tls); }},
        {"mqtt_ca_file", [this](const std::string& v) { mqtt().ca_file = v; }},
        {"mail_to", [this](const std::string& v) { mail().to = v; }},
        {"mail_from", [this](const std::string& v) { mail().from = v; }},
        {"mail_server", [this](const std::string& v) { mail().server = v; }},
        {"mail_user", [this](const std::string& v) { mail().user = v; }},
        {"mail_password", [this](const std::string& v) { mail().password = v; }},
        {"webhook_url", [this](const std::string& v) { webhook().url = v; }},
        {"webhook_token", [this](const std::string& v) { webhook().token = v; }},
    };
    return names_;
  }

  void lacks(const char* code, Phrase sentence) { problems_.push_back({code, "", std::move(sentence)}); }

  static bool is_address(const std::string& text) {
    const std::size_t at = text.find('@');
    return at > 0 && at != std::string::npos && at + 1 < text.size() && text.find_first_of(" <>,;\"\r\n") == std::string::npos && text.front() != '-';
  }

  /// What no line shows alone.
  void finish() {
    const Settings& s = settings_;
    if (!s.file && !s.mqtt) lacks("missing", "Say where the temperature comes from: file = /sys/… or mqtt_host and mqtt_topic.");
    if (s.file && s.mqtt) lacks("given_twice", "Say either file or mqtt_host, not both.");
    if (s.mqtt && (s.mqtt->host.empty() || s.mqtt->topic.empty())) lacks("missing", "mqtt needs mqtt_host and mqtt_topic.");
    // A topic for many is no sensor: two temperatures would be taken for one.
    if (s.mqtt && s.mqtt->topic.find_first_of("#+") != std::string::npos) lacks("not_allowed", "mqtt_topic must name one topic, without # or +.");
    if (s.low_c && s.high_c && *s.low_c >= *s.high_c) lacks("marks_crossed", "low_c must be below high_c.");
    if (s.silent_after < 3 * s.every) lacks("out_of_range", "silent_after_minutes must be at least three times every_seconds.");
    if (s.mail && !is_address(s.mail->to)) lacks("missing", "mail_to must be one e-mail address.");
    if (s.mail && !is_address(s.mail->from)) lacks("missing", "mail_from must be one e-mail address.");
    if (s.mail && s.mail->server != "sendmail" && !s.mail->server.starts_with("smtps://") && !s.mail->server.starts_with("smtp://"))
      lacks("not_allowed", "mail_server must be sendmail, smtps://host:465 or smtp://host:587.");
    if (s.webhook) {
      const bool here = s.webhook->url.starts_with("http://127.0.0.1:") || s.webhook->url.starts_with("http://localhost:");
      if (!s.webhook->url.starts_with("https://") && !here) lacks("not_allowed", "webhook_url must begin with https:// (http only to this machine).");
    }
  }

  Settings settings_;
  Problems problems_;
  int line_ = 0;
  std::map<std::string, int> seen_;
  std::map<std::string, Take> names_;
};

}  // namespace

Result<Settings> settings_from_text(std::string_view text) { return Lines().read(text); }

Result<std::optional<Settings>> read_settings(const std::filesystem::path& file) {
  const int fd = open(file.c_str(), O_RDONLY | O_CLOEXEC);
  if (fd < 0) {
    if (errno == ENOENT) return std::optional<Settings>();
    return Problem{"cannot_read", "", said("The thermometer's settings {0} can't be read.", verbatim(file.string()))};
  }
  struct stat info {};
  const bool known = fstat(fd, &info) == 0 && S_ISREG(info.st_mode);
  if (!known || info.st_size > static_cast<off_t>(largest_file) || (info.st_mode & 077) != 0) {
    close(fd);
    if (known && (info.st_mode & 077) != 0)
      return Problem{"readable_by_others", "", said("The thermometer's settings may hold passwords, and others can read them. Shut them: chmod 600 {0}", verbatim(file.string()))};
    return Problem{"cannot_read", "", said("The thermometer's settings {0} can't be read.", verbatim(file.string()))};
  }
  std::string text(static_cast<std::size_t>(info.st_size), '\0');
  const ssize_t got = ::read(fd, text.data(), text.size());
  close(fd);
  if (got < 0) return Problem{"cannot_read", "", said("The thermometer's settings {0} can't be read.", verbatim(file.string()))};
  text.resize(static_cast<std::size_t>(got));
  auto settings = settings_from_text(text);
  if (!settings) return settings.problems();
  return std::optional<Settings>(std::move(settings).value());
}

}  // namespace redd::sensors
