#include "print/html.h"

#include <optional>

#include "print/chart_file.h"
#include "print/detail/markup.h"

namespace redd::print {
namespace {

constexpr const char* style = R"(
:root { color-scheme: light; }
body { font: 1rem/1.5 "DejaVu Sans", Verdana, sans-serif; color: #1a262b; background: #fff; max-width: 52rem; margin: 0 auto; padding: 1.5rem; overflow-wrap: break-word; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .3rem; }
h2 { font-size: 1.25rem; margin: 2rem 0 .5rem; padding-top: .5rem; border-top: 2px solid #0f5c70; break-after: avoid; }
h3 { font-size: 1rem; margin: 1.3rem 0 .4rem; break-after: avoid; }
p { margin: .4rem 0; white-space: pre-line; }
.main { font-size: 1.1rem; font-weight: 600; }
.soft { color: #4d5a5f; }
.boxed { border: 2px dashed #4d5a5f; padding: .4rem .7rem; font-weight: 600; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; margin: .5rem 0; }
th, td { text-align: left; vertical-align: top; padding: .3rem .6rem .3rem 0; border-bottom: 1px solid #d1d9db; }
thead th { border-bottom: 1.5px solid #4d5a5f; font-size: .9rem; }
tbody th { font-weight: 600; }
tr { break-inside: avoid; }
caption { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
dl { display: grid; grid-template-columns: repeat(auto-fill, minmax(13rem, 1fr)); gap: .7rem 1.5rem; margin: 1rem 0; }
dt { color: #4d5a5f; font-size: .9rem; }
dd { margin: 0; }
.pairs { columns: 15rem; display: block; }
.pairs div { display: flex; justify-content: space-between; gap: 1rem; border-bottom: 1px solid #d1d9db; padding: .15rem 0; break-inside: avoid; }
.pairs dt { font-size: 1rem; }
figure { margin: 1rem 0; break-inside: avoid; }
img { max-width: 100%; height: auto; }
.sign { display: flex; flex-wrap: wrap; gap: 1.5rem; margin-top: 3rem; }
.sign span { flex: 1 1 14rem; border-bottom: 1.5px solid #1a262b; }
@media print { body { padding: 0; font-size: 10pt; } .scroll { overflow: visible; } }
)";

class Page {
 public:
  Result<std::string> of(const Document& document) {
    out_ = "<!doctype html>\n<html lang=\"" + escaped(document.language) + "\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
           "<meta name=\"generator\" content=\"Redd\">\n"
           "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'\">\n";
    if (!document.author.empty()) out_ += "<meta name=\"author\" content=\"" + escaped(document.author) + "\">\n";
    out_ += "<title>" + escaped(document.title) + "</title>\n<style>" + style + "</style>\n</head>\n<body>\n<main>\n";
    element("h1", document.title);
    for (const Block& block : document.blocks) {
      std::visit([&](const auto& one) { put(one); }, block);
      if (problem_) return *problem_;
    }
    return out_ + "</main>\n</body>\n</html>\n";
  }

 private:
  void element(const char* name, const std::string& text, const char* attributes = "") {
    out_ += std::string("<") + name + attributes + ">" + escaped(text) + "</" + name + ">\n";
  }

  void put(const Heading& one) { element(one.level == 2 ? "h2" : "h3", one.text); }
  void put(const Paragraph& one) {
    using enum Paragraph::Look;
    element("p", one.text, one.look == main ? " class=\"main\"" : one.look == soft ? " class=\"soft\"" : one.look == boxed ? " class=\"boxed\"" : "");
  }
  void pairs(const std::vector<Pair>& rows, const char* attributes) {
    out_ += std::string("<dl") + attributes + ">\n";
    for (const auto& [name, text] : rows) out_ += "<div><dt>" + escaped(name) + "</dt><dd>" + escaped(text) + "</dd></div>\n";
    out_ += "</dl>\n";
  }
  void put(const Facts& one) { pairs(one.rows, ""); }
  void put(const Pairs& one) { pairs(one.rows, " class=\"pairs\""); }
  void put(const Table& one) {
    // A wide table scrolls by itself, and can be reached by the keyboard.
    out_ += "<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"" + escaped(one.name) + "\">\n<table>\n";
    element("caption", one.name);
    out_ += "<thead><tr>";
    for (const auto& head : one.head) element("th", head, " scope=\"col\"");
    out_ += "</tr></thead>\n<tbody>\n";
    for (const auto& row : one.rows) {
      out_ += "<tr>";
      for (std::size_t i = 0; i < row.size(); ++i) element(i == 0 ? "th" : "td", row[i], i == 0 ? " scope=\"row\"" : "");
      out_ += "</tr>\n";
    }
    out_ += "</tbody>\n</table>\n</div>\n";
  }
  void put(const Bullets& one) {
    out_ += "<ul>\n";
    for (const auto& row : one.rows) element("li", row);
    out_ += "</ul>\n";
  }
  void put(const Figure& one) {
    const auto svg = svg_of(one.chart);
    if (!svg) {
      problem_ = svg.problems().front();
      return;
    }
    const std::string words = one.chart.title + (one.chart.unit.empty() ? "" : " (" + one.chart.unit + ")") + ". " + one.chart.description;
    out_ += "<figure><img alt=\"" + escaped(words) + "\" src=\"data:image/svg+xml;base64," + base64(*svg) + "\"></figure>\n";
  }
  void put(const Signature& one) {
    out_ += "<p class=\"sign\">";
    for (const auto& label : one.labels) element("span", label);
    out_ += "</p>\n";
  }

  std::string out_{};
  std::optional<Problem> problem_{};
};

}  // namespace

Result<std::string> html_of(const Document& document) { return Page().of(document); }

}  // namespace redd::print
