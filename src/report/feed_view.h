#pragma once
// Food and growth as JSON and as text for a terminal.

#include <string>

#include "report/numbers.h"
#include "season/feed_look.h"
#include "wire/json.h"

namespace redd::report {

/// FeedView of docs/openapi.json: numbers unrounded, each answer with its sentences.
wire::Json feed_json(const season::FeedLook& look, const Reader& reader = {});

/// What `redd feed` prints, wrapped to `width` columns.
std::string feed_text(const season::FeedLook& look, const Reader& reader = {}, int width = 80);

}  // namespace redd::report
