// desk/http.h
// A request and a response as plain values, so that every handler can be tested without a socket.
// Start at Request; server/serve.h turns bytes into one and a Response back into bytes.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "quantities/result.h"
#include "report/numbers.h"

namespace redd::desk {

using Pairs = std::vector<std::pair<std::string, std::string>>;

struct Request {
  std::string method = "GET";
  std::string path = "/";  ///< percent-decoded, always with a leading slash
  Pairs query{};           ///< decoded, in the order given
  Pairs headers{};         ///< names in lower case
  std::string body{};
  std::string from{};      ///< address of the device on the local network; empty: this machine

  /// Value of a header (name in lower case), or nothing.
  std::optional<std::string_view> header(std::string_view name) const;
  /// First value of a query parameter, or nothing.
  std::optional<std::string_view> parameter(std::string_view name) const;
};

struct Response {
  int status = 200;
  std::string content_type = "application/json";
  std::string body{};
  std::string_view packed_body{};  ///< used instead of `body` when not empty; must outlive the program (a packed file)
  Pairs headers{};
  Problems problems{};  ///< what `body` says in English, to be worded for another reader

  std::string_view bytes() const { return packed_body.empty() ? std::string_view(body) : packed_body; }
  /// First value of a header, compared without regard to case, or nothing.
  std::optional<std::string_view> header(std::string_view name) const;
};

/// The path and the query of a request target such as "/api/day?as_of=2031-02-14".
///
/// Errors  bad_target: no leading slash, a broken percent escape, or a control character.
Result<Request> request_from_target(std::string_view method, std::string_view target);

/// Percent-decoded text ("+" is a space in a query); nothing for a broken escape or a NUL.
std::optional<std::string> percent_decoded(std::string_view text, bool plus_is_space);

/// {"problems":[…]} with this status.
Response refusal(int status, const Problems& problems);
Response refusal(int status, std::string_view code, std::string_view field, const Phrase& sentence);
/// Says a refusal's problems in the reader's language and units. Any other response stays as it is.
void word_problems(Response& response, const report::Reader& reader);

/// JSON text as a response.
Response json_response(std::string json, int status = 200);

}  // namespace redd::desk
