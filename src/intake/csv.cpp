#include "intake/csv.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace redd::intake {
namespace {

constexpr std::size_t largest_file = 32u << 20;

void append_utf8(std::string& out, std::uint32_t code) {
  const auto add = [&](std::uint32_t byte) { out += static_cast<char>(byte); };
  if (code < 0x80) {
    add(code);
  } else if (code < 0x800) {
    add(0xC0 | code >> 6);
    add(0x80 | (code & 0x3F));
  } else if (code < 0x10000) {
    add(0xE0 | code >> 12);
    add(0x80 | (code >> 6 & 0x3F));
    add(0x80 | (code & 0x3F));
  } else {
    add(0xF0 | code >> 18);
    add(0x80 | (code >> 12 & 0x3F));
    add(0x80 | (code >> 6 & 0x3F));
    add(0x80 | (code & 0x3F));
  }
}

/// Length of the well-formed UTF-8 sequence at the start of the text, or 0.
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xC2 && lead < 0xE0 ? 2 : lead >= 0xE0 && lead < 0xF0 ? 3 : lead >= 0xF0 && lead < 0xF5 ? 4 : 0;
  if (length == 0 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0) != 0x80) return 0;
  // Overlong forms, surrogates and codes beyond the last.
  if ((lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xED && byte(1) > 0x9F) || (lead == 0xF0 && byte(1) < 0x90) || (lead == 0xF4 && byte(1) > 0x8F)) return 0;
  return length;
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = sequence_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

std::string from_utf16(std::string_view bytes, bool big_endian) {
  const auto unit = [&](std::size_t i) {
    const auto a = static_cast<unsigned char>(bytes[i]), b = static_cast<unsigned char>(bytes[i + 1]);
    return static_cast<std::uint32_t>(big_endian ? a << 8 | b : b << 8 | a);
  };
  std::string out;
  for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
    std::uint32_t code = unit(i);
    if (code >= 0xD800 && code < 0xDC00 && i + 3 < bytes.size() && unit(i + 2) >= 0xDC00 && unit(i + 2) < 0xE000) {
      code = 0x10000 + ((code - 0xD800) << 10) + (unit(i + 2) - 0xDC00);
      i += 2;
    } else if (code >= 0xD800 && code < 0xE000) {
      code = 0xFFFD;
    }
    append_utf8(out, code);
  }
  return out;
}

/// The one byte range where Windows-1252 differs from Latin-1.
/// Source  WHATWG Encoding Standard, index windows-1252 (from memory).
constexpr std::array<std::uint16_t, 32> windows_1252{
    0x20AC, 0xFFFD, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0xFFFD, 0x017D, 0xFFFD,
    0xFFFD, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0xFFFD, 0x017E, 0x0178};

std::string from_windows_1252(std::string_view bytes) {
  std::string out;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    append_utf8(out, byte >= 0x80 && byte < 0xA0 ? windows_1252[byte - 0x80] : byte);
  }
  return out;
}

}  // namespace

Result<DecodedText> decoded(std::string_view bytes) {
  if (bytes.size() > largest_file) return Problem{"file_too_large", "", "The file is larger than 32 MB: split it, or thin it in the logger's own program."};
  DecodedText result;
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) {
    result = {from_utf16(bytes.substr(2), bytes[0] == '\xFE'), "UTF-16"};
  } else {
    if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
    result = is_utf8(bytes) ? DecodedText{std::string(bytes), "UTF-8"} : DecodedText{from_windows_1252(bytes), "Windows-1252"};
  }
  if (result.text.find_first_not_of(" \t\r\n") == std::string::npos) return Problem{"empty_file", "", "The file is empty."};
  const auto control = std::ranges::find_if(result.text, [](unsigned char c) { return c < 0x20 && c != '\t' && c != '\n' && c != '\r'; });
  if (control != result.text.end())
    return Problem{"not_text", "", "This is not text (it holds control characters): export it as text or CSV from the program that made it."};
  return result;
}

std::optional<char> likely_delimiter(std::string_view text) {
  constexpr std::array candidates{'\t', ';', ','};  // in order of trust when two split equally well
  constexpr std::size_t lines_looked_at = 200;
  std::array<std::vector<int>, 3> lines_with_count;  // [candidate][delimiters in the line]
  std::size_t lines = 0;
  std::array<int, 3> count{};
  bool quoted = false, blank = true;
  for (std::size_t i = 0; i <= text.size() && lines < lines_looked_at; ++i) {
    const char c = i < text.size() ? text[i] : '\n';
    if (c == '"') quoted = !quoted;
    if ((c == '\n' || c == '\r') && (!quoted || i == text.size())) {
      if (!blank) {
        ++lines;
        for (std::size_t k = 0; k < candidates.size(); ++k) {
          auto& counts = lines_with_count[k];
          if (counts.size() <= static_cast<std::size_t>(count[k])) counts.resize(static_cast<std::size_t>(count[k]) + 1);
          ++counts[static_cast<std::size_t>(count[k])];
        }
      }
      count = {};
      blank = true;
      continue;
    }
    if (c != ' ' && c != '\t') blank = false;
    if (!quoted)
      for (std::size_t k = 0; k < candidates.size(); ++k) count[k] += c == candidates[k];
  }
  std::optional<char> best;
  double best_share = 0;
  for (std::size_t k = 0; k < candidates.size(); ++k) {
    const auto& counts = lines_with_count[k];
    int most = 0;
    for (std::size_t n = 1; n < counts.size(); ++n) most = std::max(most, counts[n]);
    const double share = lines ? static_cast<double>(most) / static_cast<double>(lines) : 0;
    if (share > best_share + (best ? 0.1 : 0)) {
      best = candidates[k];
      best_share = share;
    }
  }
  return best;
}

}  // namespace redd::intake
