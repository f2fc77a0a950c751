#include "wire/csv_table.h"

#include <algorithm>
#include <charconv>

namespace redd::wire {
namespace {

constexpr std::size_t most_rows = 500'000;
constexpr std::size_t most_cells = 1000;

/// Reads cell after cell; knows where it is.
class Scanner {
 public:
  Scanner(std::string_view text, char delimiter) : text_(text), delimiter_(delimiter) {}

  Result<std::vector<CsvRow>> rows() {
    std::vector<CsvRow> rows;
    while (at_ < text_.size()) {
      CsvRow row{line_, {}};
      do {
        auto cell = next_cell(row.cells.size() + 1);
        if (!cell) return cell.problems();
        row.cells.push_back(std::move(cell).value());
        if (row.cells.size() > most_cells)
          return Problem{"too_many_cells", "line " + std::to_string(row.line), said("Line {0} has more than 1,000 cells: this is not a table of readings.", row.line)};
      } while (take(delimiter_));
      end_line();
      if (std::ranges::all_of(row.cells, &std::string::empty)) continue;
      rows.push_back(std::move(row));
      if (rows.size() > most_rows) return Problem{"file_too_large", "", "The file has more than 500,000 rows: split it, or thin it in the logger's own program."};
    }
    return rows;
  }

 private:
  bool take(char c) {
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }
  bool at_line_end() const { return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r'; }
  void end_line() {
    if (take('\r')) take('\n');
    else take('\n');
    ++line_;
  }

  Result<std::string> next_cell(std::size_t column) {
    std::string cell;
    if (!take('"')) {
      while (!at_line_end() && text_[at_] != delimiter_) cell += text_[at_++];
      return cell;
    }
    const std::size_t opened = line_;
    while (true) {
      if (at_ >= text_.size()) return problem(opened, column, "a quote is opened and never closed");
      const char c = text_[at_++];
      if (c == '"' && !take('"')) break;
      if (c == '\n') ++line_;
      cell += c;
    }
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    if (!at_line_end() && text_[at_] != delimiter_) return problem(line_, column, "there is text after a closing quote");
    return cell;
  }

  static Problem problem(std::size_t line, std::size_t column, const std::string& what) {
    const Phrase where = said("line {0}, column {1}", line, column);
    return {"bad_quotes", where, said("In {0} {1}: write a quote inside a cell twice (\"\").", where, what)};
  }

  std::string_view text_;
  char delimiter_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
};

bool is_plain_number(std::string_view text) {
  if (text.starts_with('+')) text.remove_prefix(1);
  std::string point(text);
  std::ranges::replace(point, ',', '.');
  double value = 0;
  const auto [end, error] = std::from_chars(point.data(), point.data() + point.size(), value);
  return !point.empty() && error == std::errc() && end == point.data() + point.size() && (point.back() >= '0' && point.back() <= '9');
}

constexpr std::string_view formula_starts = "=+-@\t\r";

}  // namespace

Result<std::vector<CsvRow>> read_csv(std::string_view text, char delimiter) { return Scanner(text, delimiter).rows(); }

std::string csv_cell(std::string_view text, char delimiter) {
  std::string cell(text);
  // A text that already begins with an apostrophe gets one more, so that reading back is exact.
  const bool runs = !cell.empty() && formula_starts.find(cell.front()) != std::string_view::npos && !is_plain_number(cell);
  const bool looks_guarded = cell.size() > 1 && cell.front() == '\'' && (formula_starts.find(cell[1]) != std::string_view::npos || cell[1] == '\'');
  if (runs || looks_guarded) cell.insert(cell.begin(), '\'');
  if (cell.find_first_of(std::string{'"', '\n', '\r', delimiter}) == std::string::npos && !cell.starts_with(' ') && !cell.ends_with(' ')) return cell;
  std::string quoted = "\"";
  for (const char c : cell) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

std::string csv_row(const std::vector<std::string>& cells, char delimiter) {
  std::string row;
  for (std::size_t i = 0; i < cells.size(); ++i) row += (i ? std::string(1, delimiter) : "") + csv_cell(cells[i], delimiter);
  return row + "\r\n";
}

std::string without_guard(std::string_view cell) {
  const bool guarded = cell.size() > 1 && cell.front() == '\'' && (formula_starts.find(cell[1]) != std::string_view::npos || cell[1] == '\'');
  return std::string(guarded ? cell.substr(1) : cell);
}

}  // namespace redd::wire
