#include "server/page_files.h"

#include <algorithm>
#include <span>
#include <string>

#include "assets/assets.h"

namespace redd::server {
namespace {

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

/// Calls `use` with each comma-separated item until it says true.
template <class Use>
bool any_item(std::string_view list, Use use) {
  while (true) {
    const std::size_t comma = list.find(',');
    if (use(trimmed(list.substr(0, comma)))) return true;
    if (comma == std::string_view::npos) return false;
    list.remove_prefix(comma + 1);
  }
}

Response not_found() {
  Response response;
  response.status = 404;
  response.content_type = "text/html; charset=utf-8";
  response.body =
      "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Not here</title>"
      "<p>There is no such page in Redd. <a href=\"/\">Go to today's page</a>.</p></html>\n";
  return response;
}

/// A file as it goes over the wire: its bytes, the coding they are in, and what tells this form's tag from the others'.
struct Sent {
  std::span<const std::byte> bytes;
  std::string_view coding;
  std::string_view mark;
};

Sent sent_to(std::string_view accept_encoding, const assets::Asset& asset) {
  if (!asset.brotli.empty() && accepts(accept_encoding, "br")) return {asset.brotli, "br", "-br"};
  if (!asset.gzip.empty() && accepts(accept_encoding, "gzip")) return {asset.gzip, "gzip", "-gz"};
  return {asset.bytes, "", ""};
}

}  // namespace

bool accepts(std::string_view accept_encoding, std::string_view coding) {
  return any_item(accept_encoding, [coding](std::string_view item) {
    const std::size_t semicolon = item.find(';');
    const std::string_view name = trimmed(item.substr(0, semicolon));
    if (name != coding && name != "*") return false;
    if (semicolon == std::string_view::npos) return true;
    const std::string_view weight = trimmed(item.substr(semicolon + 1));
    return weight.find_first_of("123456789") != std::string_view::npos;
  });
}

bool names_tag(std::string_view if_none_match, std::string_view quoted_tag) {
  return any_item(if_none_match, [&](std::string_view item) {
    if (item.starts_with("W/")) item.remove_prefix(2);
    return item == "*" || item == quoted_tag;
  });
}

Response page_file(const Request& request) {
  const std::string path = "web" + (request.path == "/" ? std::string("/index.html") : request.path);
  const auto asset = assets::find_asset(path);
  if (!asset) return not_found();

  const Sent sent = sent_to(request.header("accept-encoding").value_or(""), *asset);
  const std::string tag = "\"" + std::string(asset->sha256.substr(0, 32)) + std::string(sent.mark) + "\"";
  Response response;
  response.headers = {{"ETag", tag}, {"Cache-Control", "no-cache"}};
  if (!asset->gzip.empty()) response.headers.emplace_back("Vary", "Accept-Encoding");
  if (const auto known = request.header("if-none-match"); known && names_tag(*known, tag)) {
    response.status = 304;
    response.content_type.clear();
    return response;
  }
  response.content_type = std::string(asset->content_type);
  response.packed_body = {reinterpret_cast<const char*>(sent.bytes.data()), sent.bytes.size()};
  if (!sent.coding.empty()) response.headers.emplace_back("Content-Encoding", sent.coding);
  return response;
}

}  // namespace redd::server
