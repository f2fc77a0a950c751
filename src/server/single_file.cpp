#include "server/single_file.h"

#include "assets/assets.h"
#include "server/season_desk.h"
#include "wire/codec.h"
#include "wire/json.h"

namespace redd::server {
namespace {

using wire::Json;

std::string_view text_of(std::span<const std::byte> bytes) { return {reinterpret_cast<const char*>(bytes.data()), bytes.size()}; }

/// What a Content-Security-Policy names a script or style by.
std::string hash_source(std::string_view hex) {
  const auto digit = [](char c) { return c <= '9' ? c - '0' : c - 'a' + 10; };
  std::string bytes;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2) bytes += static_cast<char>(digit(hex[i]) * 16 + digit(hex[i + 1]));
  return "'sha256-" + base64(bytes) + "'";
}

/// Kits to start from and the day the invented season opens on, as the page hands them to the core.
std::string shelf_text() {
  Json kits = Json::array();
  for (const records::Kit& kit : kit_templates()) kits.push_back(wire::parsed(wire::json_from_body(kit)).value());
  const auto day = packed_opening_day();
  std::string text = wire::printed({{"kits", std::move(kits)}, {"opening_day", day ? Json(iso_from_date(*day)) : Json(nullptr)}});
  // Inside a script element only "<" could be taken for markup; in JSON it stands in strings alone.
  for (std::size_t at = 0; (at = text.find('<', at)) != std::string::npos;) text.replace(at, 1, "\\u003c");
  return text;
}

struct Parts {
  assets::Asset script, style, worker, core, icon, demo;
};

Result<Parts> parts() {
  Parts found{};
  Problems missing;
  const auto take = [&](const char* path, assets::Asset& part) {
    if (const auto asset = assets::find_asset(path)) part = *asset;
    else missing.push_back({"no_page", "", said("This build of Redd carries no {0}: build it again with tools/build-web.", path)});
  };
  take("web/assets/one.js", found.script);
  take("web/assets/redd.css", found.style);
  take("web/assets/engine.js", found.worker);
  take("web/assets/redd_core.wasm", found.core);
  take("web/favicon.svg", found.icon);
  take("data/demo/season.jsonl", found.demo);
  if (!missing.empty()) return missing;
  return found;
}

std::string packed(const char* id, const assets::Asset& asset) {
  return std::string("    <script type=\"application/octet-stream\" id=\"") + id + "\">" + base64(text_of(asset.gzip)) + "</script>\n";
}

}  // namespace

std::string base64(std::string_view bytes) {
  constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto byte = [&](std::size_t k) { return i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U; };
    const unsigned three = byte(0) << 16 | byte(1) << 8 | byte(2);
    text += letters[three >> 18 & 63];
    text += letters[three >> 12 & 63];
    text += i + 1 < bytes.size() ? letters[three >> 6 & 63] : '=';
    text += i + 2 < bytes.size() ? letters[three & 63] : '=';
  }
  return text;
}

Result<std::string> single_file() {
  const auto found = parts();
  if (!found) return found.problems();
  const Parts& p = *found;
  require(!p.core.gzip.empty() && !p.worker.gzip.empty() && !p.demo.gzip.empty(), "single_file", "a part is not packed");
  require(p.script.text().find("</script") == std::string_view::npos && p.style.text().find("</style") == std::string_view::npos, "single_file",
          "the page's own script or style would end early");
  std::string html = "<!doctype html>\n<html lang=\"en\">\n  <head>\n    <!-- Written by Redd. Do not edit. -->\n    <meta charset=\"utf-8\" />\n";
  // Nothing may be asked of any network; only this very script and style, and the worker made of them, may run.
  html += "    <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src " + hash_source(p.script.sha256) +
          " 'wasm-unsafe-eval' blob:; style-src " + hash_source(p.style.sha256) +
          "; img-src data:; worker-src blob:; connect-src 'none'; base-uri 'none'; form-action 'none'\" />\n";
  html += "    <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />\n    <meta name=\"color-scheme\" content=\"light dark\" />\n"
          "    <meta name=\"theme-color\" content=\"#0b3944\" />\n    <title>Redd</title>\n";
  html += "    <link rel=\"icon\" type=\"image/svg+xml\" href=\"data:image/svg+xml;base64," + base64(p.icon.text()) + "\" />\n";
  html += "    <style>" + std::string(p.style.text()) + "</style>\n  </head>\n  <body>\n    <noscript><p>Redd's page needs JavaScript.</p></noscript>\n    <div id=\"page\"></div>\n";
  html += packed("redd-core", p.core) + packed("redd-worker", p.worker) + packed("redd-demo", p.demo);
  html += "    <script type=\"application/json\" id=\"redd-shelf\">" + shelf_text() + "</script>\n";
  html += "    <script type=\"module\">" + std::string(p.script.text()) + "</script>\n  </body>\n</html>\n";
  return html;
}

Response single_file_response() {
  // Half a megabyte of work that never changes while the program runs.
  static const Result<std::string> file = single_file();
  if (!file) return refusal(404, file.problems());
  Response response;
  response.content_type = "text/html; charset=utf-8";
  response.packed_body = *file;
  response.headers = {{"Cache-Control", "no-cache"}, {"Content-Disposition", "attachment; filename=\"redd.html\""}};
  return response;
}

}  // namespace redd::server
