#pragma once
// A document as PDF: for paper, and to send. No browser is needed. Start at pdf_of().

#include <string>

#include "print/document.h"
#include "quantities/result.h"

namespace redd::print {

enum class Paper { a4, letter };

/// What somebody with these units most likely has in the printer.
Paper usual_paper(const report::Reader& reader);

/// The file, with title, author, bookmarks, page numbers, and the structure that readers for the blind follow. Fonts are inside. Same document,
/// same bytes, on machines with the same fonts.
/// Shape   some tenths of a second; one at a time.
/// Errors  not_drawn: what came of it would be a broken file, so there is none.
Result<std::string> pdf_of(const Document& document, Paper paper);

}  // namespace redd::print
