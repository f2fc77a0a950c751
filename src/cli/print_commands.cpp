// report --pdf and --html, and chart: what goes on paper or into another program.
#include <ostream>

#include "cli/commands.h"
#include "print/chart_file.h"
#include "print/charts.h"
#include "print/html.h"
#include "print/pdf.h"
#include "print/season_document.h"
#include "quantities/verbatim.h"

namespace redd::cli {
namespace {

using print::Audience;

/// Writes to a file, or to standard output for "-", which then says nothing else.
Exit hand_out(const Console& console, const std::string& to, const Result<std::string>& made, bool force) {
  if (!made) return complain(console, made.problems());
  if (to == "-") {
    console.out << *made;
    return Exit::ok;
  }
  if (const Problems problems = write_file(to, *made, force); !problems.empty()) return complain(console, problems);
  console.out << console.say(said("Written to {0}", verbatim(to))) << "\n";
  return Exit::ok;
}

}  // namespace

Exit report_files(const Console& console, const Place& place, const ReportFiles& wanted) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const Audience whom = wanted.classroom ? Audience::classroom : Audience::agency;
  const auto doubts = server::doubts_of(*opened->look, server::system_now());
  auto parts = print::season_parts({opened->look->zone}, opened->look->records, opened->now, doubts, whom, console.reader);
  if (!parts) return complain(console, parts.problems());
  for (const std::string& one : wanted.questions) {
    const auto equals = one.find('=');
    parts.value().questions.emplace_back(one.substr(0, equals), equals == std::string::npos ? "" : one.substr(equals + 1));
  }
  const print::Document document = print::season_document(*parts, whom, console.reader);
  if (!wanted.pdf.empty()) {
    const auto paper = wanted.paper == "letter" ? print::Paper::letter : wanted.paper == "a4" ? print::Paper::a4 : print::usual_paper(console.reader);
    if (const Exit end = hand_out(console, wanted.pdf, print::pdf_of(document, paper), wanted.force); end != Exit::ok) return end;
  }
  return wanted.html.empty() ? Exit::ok : hand_out(console, wanted.html, print::html_of(document), wanted.force);
}

Exit chart_files(const Console& console, const Place& place, const ChartFiles& wanted) {
  const auto opened = open_season(place);
  if (!opened) return complain(console, opened.problems());
  const season::Setup setup{opened->look->zone};
  const auto day = season::look_at_day(setup, opened->look->records, opened->now);
  if (!day) return complain(console, day.problems());
  const auto counts = season::look_at_counts(setup, opened->look->records, opened->now);
  if (!counts) return complain(console, counts.problems());
  const auto chart = print::chart_of(wanted.name, *day, *counts, console.reader);
  if (!chart) return complain(console, chart.problems());
  if (wanted.svg.empty() && wanted.png.empty()) {
    // What the picture shows, in words.
    console.out << chart->title << (chart->unit.empty() ? "" : " (" + chart->unit + ")") << "\n" << wrapped(chart->empty.empty() ? chart->description : chart->empty, 80) << "\n";
    return Exit::ok;
  }
  if (!wanted.svg.empty())
    if (const Exit end = hand_out(console, wanted.svg, print::svg_of(*chart), wanted.force); end != Exit::ok) return end;
  return wanted.png.empty() ? Exit::ok : hand_out(console, wanted.png, print::png_of(*chart), wanted.force);
}

}  // namespace redd::cli
