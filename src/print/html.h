#pragma once
// A document as one HTML file that needs nothing else: no script, no address, no font. For who listens, it is the form to hand on.

#include <string>

#include "print/document.h"
#include "quantities/result.h"

namespace redd::print {

/// The file. Charts are pictures inside it, with what they show in words. Same document, same bytes.
/// Errors  not_drawn
Result<std::string> html_of(const Document& document);

}  // namespace redd::print
