// Handlers of what goes on paper or into another program: the season report as PDF and HTML, charts as SVG and PNG.
#include "desk/asked.h"
#include "desk/handlers.h"
#include "print/chart_file.h"
#include "print/charts.h"
#include "print/html.h"
#include "print/pdf.h"
#include "print/season_document.h"
#include "server/own_routes.h"

namespace redd::server {
namespace {

using print::Audience;
using wire::Json;

Response file(std::string bytes, std::string_view type, const std::string& name) {
  Response response;
  response.content_type = type;
  response.body = std::move(bytes);
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"" + name + "\"");
  return response;
}

/// One of a few words of the address; the first when none is given.
Result<std::string_view> word_of(const Call& call, std::string_view parameter, std::initializer_list<std::string_view> words) {
  const auto given = call.request.parameter(parameter);
  if (!given) return *words.begin();
  std::string all;
  for (const auto word : words) {
    if (*given == word) return word;
    all += (all.empty() ? "" : ", ") + std::string(word);
  }
  return Problem{"unknown_word", std::string(parameter), said("This is one of: {0}.", all)};
}

/// An agency's own questions with the answers, in the body of a POST.
Result<std::vector<print::Pair>> questions_of(const Call& call) {
  std::vector<print::Pair> pairs;
  if (call.request.body.empty()) return pairs;
  const auto body = wire::parsed(call.request.body);
  if (!body) return body.problems();
  const Problem wrong{"wrong_shape", "/questions", "Questions are a list of at most 50, each with a question and an answer of at most 2,000 characters."};
  if (!body->is_object() || body->size() > 1) return wrong;
  const auto list = body->find("questions");
  if (list == body->end()) return body->empty() ? Result<std::vector<print::Pair>>(pairs) : Result<std::vector<print::Pair>>(wrong);
  if (!list->is_array() || list->size() > 50) return wrong;
  for (const Json& one : *list) {
    if (!one.is_object() || one.size() != 2 || !one.contains("question") || !one.contains("answer")) return wrong;
    const Json &question = one["question"], &answer = one["answer"];
    if (!question.is_string() || !answer.is_string()) return wrong;
    pairs.emplace_back(question.get<std::string>(), answer.get<std::string>());
    if (pairs.back().first.size() > 8000 || pairs.back().second.size() > 8000) return wrong;
  }
  return pairs;
}

Result<print::Document> document_of(const Call& call) {
  const auto audience = word_of(call, "for", {"agency", "class"});
  if (!audience) return audience.problems();
  auto questions = questions_of(call);
  if (!questions) return questions.problems();
  const auto asked = desk::asked_of(call);
  if (!asked) return asked.problems();
  const Audience whom = *audience == "class" ? Audience::classroom : Audience::agency;
  const auto doubts = desk::doubts_of(*asked->look, call.desk.clock());
  auto parts = print::season_parts({asked->look->zone}, asked->look->records, asked->now, doubts, whom, call.reader);
  if (!parts) return parts.problems();
  parts.value().questions = std::move(questions).value();
  return print::season_document(*parts, whom, call.reader);
}

}  // namespace

Response report_pdf(const Call& call) {
  const bool letter_first = print::usual_paper(call.reader) == print::Paper::letter;
  const auto paper = letter_first ? word_of(call, "paper", {"letter", "a4"}) : word_of(call, "paper", {"a4", "letter"});
  if (!paper) return desk::refused(paper.problems());
  const auto document = document_of(call);
  if (!document) return desk::refused(document.problems());
  auto pdf = print::pdf_of(*document, *paper == "letter" ? print::Paper::letter : print::Paper::a4);
  if (!pdf) return refusal(500, pdf.problems());
  return file(std::move(pdf).value(), "application/pdf", "redd-season-report.pdf");
}

Response report_html(const Call& call) {
  const auto document = document_of(call);
  if (!document) return desk::refused(document.problems());
  auto html = print::html_of(*document);
  if (!html) return refusal(500, html.problems());
  return file(std::move(html).value(), "text/html; charset=utf-8", "redd-season-report.html");
}

Response chart(const Call& call) {
  const std::string& asked_for = call.parts.front();
  const auto dot = asked_for.rfind('.');
  const std::string name = asked_for.substr(0, dot), kind = dot == std::string::npos ? "" : asked_for.substr(dot + 1);
  if (kind != "svg" && kind != "png") return refusal(404, "no_such_chart", "file", "A chart's address ends in .svg or .png.");
  const auto asked = desk::asked_of(call);
  if (!asked) return desk::refused(asked.problems());
  const season::Setup setup{asked->look->zone};
  const auto day = season::look_at_day(setup, asked->look->records, asked->now);
  if (!day) return desk::refused(day.problems());
  const auto counts = season::look_at_counts(setup, asked->look->records, asked->now);
  if (!counts) return desk::refused(counts.problems());
  const auto drawn = print::chart_of(name, *day, *counts, call.reader);
  if (!drawn) return refusal(404, drawn.problems());
  auto bytes = kind == "svg" ? print::svg_of(*drawn) : print::png_of(*drawn);
  if (!bytes) return refusal(500, bytes.problems());
  return file(std::move(bytes).value(), kind == "svg" ? "image/svg+xml" : "image/png", "redd-" + name + "." + kind);
}

}  // namespace redd::server
