// desk/reader.h
// For whom an answer is worded: the language and the units a request asks for.
#pragma once

#include "desk/http.h"
#include "report/numbers.h"
#include "wire/json.h"

namespace redd::desk {

/// The reader of a request, in UTC until a season's zone is known.
///
/// In      "language" (en, es) and "units" (metric, us) of the address, for links that can't carry headers; else the headers
///         Accept-Language and Redd-Units. A language nobody has written, or an unknown header, gives English and metric.
/// Errors  unknown_word: a parameter of the address that is none of these.
Result<report::Reader> reader_of(const Request& request);

/// The reader of a question to the core: "reader": {"language": "es", "units": "us"} in it. What is left out, or unknown, is English
/// and metric.
report::Reader reader_in(const wire::Json& question);

/// The best of an Accept-Language header, e.g. "fr, es-MX;q=0.8, en;q=0.5" -> Spanish.
report::Language language_accepted(std::string_view header);

/// The request without "language" and "units": handlers need not know them.
Request without_reader(Request request);

}  // namespace redd::desk
