#include "sensors/outlets.h"

#include <curl/curl.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstring>
#include <memory>
#include <mutex>
#include <thread>

#include "quantities/verbatim.h"
#include "wire/json.h"

extern char** environ;

namespace redd::sensors {
namespace {

using namespace std::chrono;

constexpr seconds patience{20};

/// Runs a program with text on its standard input. Nothing goes through a shell.
/// Out     nothing when it ended well, else why not.
std::optional<Phrase> run(const std::vector<std::string>& words, const std::string& input) {
  int ends[2];
  if (pipe2(ends, O_CLOEXEC) != 0) return Phrase("no pipe could be made");
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, ends[0], 0);
  posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&actions, 2, "/dev/null", O_WRONLY, 0);
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  pid_t child = 0;
  const int failed = posix_spawnp(&child, arguments[0], &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  close(ends[0]);
  if (failed != 0) {
    close(ends[1]);
    return said("the program {0} can't be started: {1}", verbatim(words[0]), verbatim(std::strerror(failed)));
  }
  // A message is far shorter than a pipe holds, so writing never waits; a program that is gone must not end this one.
  fcntl(ends[1], F_SETFL, O_NONBLOCK);
  sigset_t broken, before;
  sigemptyset(&broken);
  sigaddset(&broken, SIGPIPE);
  pthread_sigmask(SIG_BLOCK, &broken, &before);
  const bool written = input.empty() || write(ends[1], input.data(), input.size()) == static_cast<ssize_t>(input.size());
  close(ends[1]);
  const timespec at_once{};
  while (sigtimedwait(&broken, nullptr, &at_once) > 0) {}
  pthread_sigmask(SIG_SETMASK, &before, nullptr);
  const auto until = steady_clock::now() + patience;
  int status = 0;
  while (waitpid(child, &status, WNOHANG) == 0) {
    if (steady_clock::now() > until) {
      kill(child, SIGKILL);
      waitpid(child, &status, 0);
      return said("the program {0} did not end", verbatim(words[0]));
    }
    std::this_thread::sleep_for(milliseconds(20));
  }
  if (!written || !WIFEXITED(status) || WEXITSTATUS(status) != 0) return said("the program {0} failed", verbatim(words[0]));
  return std::nullopt;
}

struct FreeCurl {
  void operator()(CURL* c) const { curl_easy_cleanup(c); }
};
struct FreeList {
  void operator()(curl_slist* list) const { curl_slist_free_all(list); }
};
using Curl = std::unique_ptr<CURL, FreeCurl>;

Curl new_curl() {
  static std::once_flag once;
  std::call_once(once, [] { curl_global_init(CURL_GLOBAL_DEFAULT); });
  Curl curl(curl_easy_init());
  if (!curl) return curl;
  // Signals belong to the program, and certificates are always checked.
  curl_easy_setopt(curl.get(), CURLOPT_NOSIGNAL, 1L);
  curl_easy_setopt(curl.get(), CURLOPT_TIMEOUT, static_cast<long>(patience.count()));
  curl_easy_setopt(curl.get(), CURLOPT_SSL_VERIFYPEER, 1L);
  curl_easy_setopt(curl.get(), CURLOPT_SSL_VERIFYHOST, 2L);
  curl_easy_setopt(curl.get(), CURLOPT_FOLLOWLOCATION, 0L);
  curl_easy_setopt(curl.get(), CURLOPT_PROXY, "");
  return curl;
}

std::size_t forget(char*, std::size_t size, std::size_t count, void*) { return size * count; }

std::optional<Phrase> to_webhook(const WebhookSettings& settings, const Message& message) {
  const Curl curl = new_curl();
  if (!curl) return Phrase("no memory");
  curl_slist* list = curl_slist_append(nullptr, "Content-Type: application/json");
  list = curl_slist_append(list, "Expect:");
  if (settings.token) list = curl_slist_append(list, ("Authorization: Bearer " + *settings.token).c_str());
  const std::unique_ptr<curl_slist, FreeList> headers(list);
  const std::string body = webhook_body(message);
  curl_easy_setopt(curl.get(), CURLOPT_URL, settings.url.c_str());
  curl_easy_setopt(curl.get(), CURLOPT_PROTOCOLS_STR, "http,https");
  curl_easy_setopt(curl.get(), CURLOPT_HTTPHEADER, headers.get());
  curl_easy_setopt(curl.get(), CURLOPT_POSTFIELDS, body.c_str());
  curl_easy_setopt(curl.get(), CURLOPT_POSTFIELDSIZE, static_cast<long>(body.size()));
  curl_easy_setopt(curl.get(), CURLOPT_WRITEFUNCTION, forget);
  if (const CURLcode code = curl_easy_perform(curl.get()); code != CURLE_OK) return verbatim(curl_easy_strerror(code));
  long status = 0;
  curl_easy_getinfo(curl.get(), CURLINFO_RESPONSE_CODE, &status);
  if (status < 200 || status >= 300) return said("the address answered {0}", status);
  return std::nullopt;
}

struct Upload {
  const std::string& text;
  std::size_t at = 0;
};
std::size_t read_upload(char* buffer, std::size_t size, std::size_t count, void* object) {
  auto& upload = *static_cast<Upload*>(object);
  const std::size_t n = std::min(size * count, upload.text.size() - upload.at);
  std::memcpy(buffer, upload.text.data() + upload.at, n);
  upload.at += n;
  return n;
}

std::optional<Phrase> to_mail_server(const MailSettings& settings, const Message& message) {
  const Curl curl = new_curl();
  if (!curl) return Phrase("no memory");
  const std::string text = mail_text(settings, message);
  Upload upload{text};
  const std::string from = "<" + settings.from + ">", to = "<" + settings.to + ">";
  const std::unique_ptr<curl_slist, FreeList> receivers(curl_slist_append(nullptr, to.c_str()));
  curl_easy_setopt(curl.get(), CURLOPT_URL, settings.server.c_str());
  curl_easy_setopt(curl.get(), CURLOPT_PROTOCOLS_STR, "smtp,smtps");
  // Never a password in the clear: what begins as smtp must turn to TLS.
  curl_easy_setopt(curl.get(), CURLOPT_USE_SSL, static_cast<long>(CURLUSESSL_ALL));
  if (settings.user) curl_easy_setopt(curl.get(), CURLOPT_USERNAME, settings.user->c_str());
  if (settings.password) curl_easy_setopt(curl.get(), CURLOPT_PASSWORD, settings.password->c_str());
  curl_easy_setopt(curl.get(), CURLOPT_MAIL_FROM, from.c_str());
  curl_easy_setopt(curl.get(), CURLOPT_MAIL_RCPT, receivers.get());
  curl_easy_setopt(curl.get(), CURLOPT_UPLOAD, 1L);
  curl_easy_setopt(curl.get(), CURLOPT_READFUNCTION, read_upload);
  curl_easy_setopt(curl.get(), CURLOPT_READDATA, &upload);
  if (const CURLcode code = curl_easy_perform(curl.get()); code != CURLE_OK) return verbatim(curl_easy_strerror(code));
  return std::nullopt;
}

std::optional<Phrase> to_mail(const MailSettings& settings, const Message& message) {
  if (settings.server != "sendmail") return to_mail_server(settings, message);
  // By its usual place: a service's PATH may lack it.
  const char* program = access("/usr/sbin/sendmail", X_OK) == 0 ? "/usr/sbin/sendmail" : "sendmail";
  return run({program, "-i", "-f", settings.from, "--", settings.to}, mail_text(settings, message));
}

/// A text as one line of a mail's head: ASCII as it is, anything else as an encoded word (RFC 2047).
std::string head_text(const std::string& text) {
  std::string plain;
  bool ascii = true;
  for (const unsigned char c : text) {
    if (c < 0x20) continue;
    ascii = ascii && c < 0x7F;
    plain += static_cast<char>(c);
  }
  if (ascii) return plain;
  constexpr char digits[] = "0123456789ABCDEF";
  // An encoded word holds 75 characters at most and whole letters only.
  constexpr std::size_t most = 60;
  std::string out, word;
  const auto close_word = [&] {
    if (!word.empty()) out += (out.empty() ? "" : "\r\n ") + ("=?UTF-8?Q?" + word + "?=");
    word.clear();
  };
  for (std::size_t i = 0; i < plain.size(); ++i) {
    const auto c = static_cast<unsigned char>(plain[i]);
    if ((c & 0xC0) != 0x80 && word.size() + 12 > most) close_word();
    if ((c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z')) word += static_cast<char>(c);
    else if (c == ' ') word += '_';
    else word += std::string("=") + digits[c >> 4] + digits[c & 15];
  }
  close_word();
  return out;
}

}  // namespace

std::string mail_text(const MailSettings& settings, const Message& message) {
  std::string body;
  for (const char c : message.text + "\n") body += c == '\n' ? "\r\n" : std::string(1, c);
  return "From: <" + settings.from + ">\r\nTo: <" + settings.to + ">\r\nSubject: " + head_text(message.title) +
         "\r\nAuto-Submitted: auto-generated\r\nMIME-Version: 1.0\r\nContent-Type: text/plain; charset=utf-8\r\nContent-Transfer-Encoding: 8bit\r\n\r\n" + body;
}

std::string webhook_body(const Message& message) {
  return wire::printed(wire::Json{{"alarm", message.alarm}, {"what", message.what}, {"at", message.at}, {"title", message.title}, {"text", message.text}});
}

std::vector<Sent> send_all(const Settings& settings, const Message& message) {
  std::vector<Sent> sent;
  if (settings.desktop)
    sent.push_back({"desktop", run({"notify-send", "--app-name=Redd", message.what == "ends" ? "--urgency=normal" : "--urgency=critical", "--", message.title, message.text}, "")});
  if (settings.mail) sent.push_back({"mail", to_mail(*settings.mail, message)});
  if (settings.webhook) sent.push_back({"webhook", to_webhook(*settings.webhook, message)});
  return sent;
}

}  // namespace redd::sensors
