#include "print/pdf.h"

#include <mutex>

#include <cairo-pdf.h>

#include "print/detail/flow.h"

namespace redd::print {
namespace {

/// ISO 216 and ANSI Letter, in points.
PageSize size_of(Paper paper) { return paper == Paper::a4 ? PageSize{595.276, 841.89} : PageSize{612, 792}; }

cairo_status_t forget(void*, const unsigned char*, unsigned int) { return CAIRO_STATUS_SUCCESS; }

Problem not_drawn(const std::string& why) { return {"not_drawn", "", said("The document could not be drawn: {0}.", why)}; }

void tell(cairo_surface_t* surface, const Document& document) {
  const auto set = [&](cairo_pdf_metadata_t what, const std::string& text) {
    if (!text.empty()) cairo_pdf_surface_set_metadata(surface, what, text.c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, document.title);
  set(CAIRO_PDF_METADATA_AUTHOR, document.author);
  set(CAIRO_PDF_METADATA_SUBJECT, document.subject);
  set(CAIRO_PDF_METADATA_CREATOR, "Redd");
  // The moment that is looked at, not that of drawing: the same season gives the same bytes.
  const std::string made = rfc3339_from_instant(document.made);
  set(CAIRO_PDF_METADATA_CREATE_DATE, made);
  set(CAIRO_PDF_METADATA_MOD_DATE, made);
}

}  // namespace

Paper usual_paper(const report::Reader& reader) { return reader.us_gallons ? Paper::letter : Paper::a4; }

Result<std::string> pdf_of(const Document& document, Paper paper) {
  // Fonts are looked up in shared caches, and one drawing keeps one core busy enough.
  static std::mutex one_at_a_time;
  const std::lock_guard lock(one_at_a_time);
  const PageSize size = size_of(paper);
  int pages = 0;
  {
    Canvas canvas(cairo_pdf_surface_create_for_stream(forget, nullptr, size.width, size.height));
    pages = Flow(canvas, document, size, 0).draw();
    if (!canvas.ok()) return not_drawn(canvas.fault());
  }
  std::string bytes;
  Canvas canvas(cairo_pdf_surface_create_for_stream(gather, &bytes, size.width, size.height));
  tell(canvas.surface(), document);
  canvas.tagged("Document", [&] { Flow(canvas, document, size, pages).draw(); });
  canvas.next_page();
  if (!canvas.ok()) return not_drawn(canvas.fault());
  canvas.finish();
  if (!canvas.ok()) return not_drawn(canvas.fault());
  return bytes;
}

}  // namespace redd::print
