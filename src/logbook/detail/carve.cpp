#include "logbook/detail/carve.h"

#include <array>
#include <set>
#include <vector>

namespace redd::logbook::detail {
namespace {

using Bytes = std::string_view;
using Pages = std::map<std::uint64_t, Bytes>;  ///< by number, from 1

/// Assumed: no record is longer than 16 MiB; the server takes no body beyond 8.
constexpr std::uint64_t most_payload = 1 << 24;
constexpr std::size_t columns_of_a_row = 9;

std::uint64_t big_endian(Bytes bytes, std::size_t at, std::size_t size) {
  std::uint64_t value = 0;
  for (std::size_t i = 0; i < size; ++i) value = value << 8 | (at + i < bytes.size() ? static_cast<unsigned char>(bytes[at + i]) : 0U);
  return value;
}

/// Reads forward through bytes; past the end everything is 0 and good() is false.
class Cursor {
 public:
  explicit Cursor(Bytes bytes, std::size_t at = 0) : bytes_(bytes), at_(at) {}
  std::uint64_t varint() {
    std::uint64_t value = 0;
    for (int i = 0; i < 9; ++i) {
      if (at_ >= bytes_.size()) return bad_ = true, 0;
      const auto byte = static_cast<unsigned char>(bytes_[at_++]);
      if (i == 8) return value << 8 | byte;
      value = value << 7 | (byte & 0x7fU);
      if (!(byte & 0x80)) break;
    }
    return value;
  }
  Bytes take(std::uint64_t size) {
    if (size > bytes_.size() - std::min(at_, bytes_.size())) return bad_ = true, Bytes();
    const Bytes part = bytes_.substr(at_, size);
    at_ += size;
    return part;
  }
  std::size_t at() const { return at_; }
  bool good() const { return !bad_; }

 private:
  Bytes bytes_;
  std::size_t at_;
  bool bad_ = false;
};

/// A value of a record: nothing, a whole number or text; anything else is not of ours.
struct Value {
  bool known = true;
  std::optional<std::int64_t> number{};
  std::optional<std::string> text{};
};

Value value_of(std::uint64_t serial_type, Cursor& contents) {
  constexpr std::array<std::size_t, 7> integer_size{0, 1, 2, 3, 4, 6, 8};
  if (serial_type == 0) return {};
  if (serial_type < 7) {
    const std::size_t size = integer_size[serial_type];
    const Bytes bytes = contents.take(size);
    const std::uint64_t raw = big_endian(bytes, 0, size) << (64 - 8 * size);
    return {true, static_cast<std::int64_t>(raw) >> (64 - 8 * size), {}};
  }
  if (serial_type == 8 || serial_type == 9) return {true, static_cast<std::int64_t>(serial_type - 8), {}};
  if (serial_type >= 13 && serial_type % 2 == 1) return {true, {}, std::string(contents.take((serial_type - 13) / 2))};
  return {false, {}, {}};
}

/// The row a payload holds, if it is one of ours and unharmed.
std::optional<Columns> row_of(std::int64_t id, Bytes payload) {
  Cursor header(payload);
  const std::uint64_t header_size = header.varint();
  if (!header.good() || header_size > payload.size()) return std::nullopt;
  std::vector<std::uint64_t> types;
  while (header.good() && header.at() < header_size && types.size() <= columns_of_a_row) types.push_back(header.varint());
  if (!header.good() || types.size() != columns_of_a_row || header.at() != header_size) return std::nullopt;
  Cursor contents(payload, header_size);
  std::array<Value, columns_of_a_row> values;
  for (std::size_t i = 0; i < columns_of_a_row; ++i) {
    values[i] = value_of(types[i], contents);
    if (!contents.good() || !values[i].known) return std::nullopt;
  }
  for (const std::size_t must_be_text : {1, 2, 3, 4, 7, 8})
    if (!values[must_be_text].text) return std::nullopt;
  Columns row{id, *values[1].text, *values[2].text, *values[3].text, *values[4].text, values[5].number, values[6].text, *values[7].text};
  if (check_sum(row) != *values[8].text) return std::nullopt;
  return row;
}

/// A payload with the part of it that lies on overflow pages; empty when that chain is broken.
std::string payload_at(const Pages& pages, Bytes page, std::size_t at, std::uint64_t size, std::size_t usable) {
  const std::uint64_t most_local = usable - 35, least_local = (usable - 12) * 32 / 255 - 23;
  std::uint64_t local = size;
  if (size > most_local) {
    local = least_local + (size - least_local) % (usable - 4);
    if (local > most_local) local = least_local;
  }
  if (at + local > page.size()) return {};
  std::string payload(page.substr(at, local));
  std::set<std::uint64_t> seen;
  std::uint64_t next = size > local ? big_endian(page, at + local, 4) : 0;
  while (payload.size() < size) {
    const auto found = pages.find(next);
    if (found == pages.end() || !seen.insert(next).second || found->second.size() < usable) return {};
    payload += found->second.substr(4, std::min<std::uint64_t>(size - payload.size(), usable - 4));
    next = big_endian(found->second, 0, 4);
  }
  return payload;
}

/// Rows of one page, if it is a leaf of a table.
void carve_page(const Pages& pages, std::uint64_t number, Bytes page, std::size_t usable, Rows& rows) {
  const std::size_t header = number == 1 ? 100 : 0;
  if (page.size() < header + 8 || page[header] != 0x0d) return;
  const std::uint64_t cells = big_endian(page, header + 3, 2);
  for (std::uint64_t i = 0; i < cells && header + 8 + 2 * i + 2 <= page.size(); ++i) {
    Cursor cell(page, big_endian(page, header + 8 + 2 * i, 2));
    const std::uint64_t size = cell.varint();
    const auto id = static_cast<std::int64_t>(cell.varint());
    if (!cell.good() || size > most_payload || id <= 0) continue;
    if (auto row = row_of(id, payload_at(pages, page, cell.at(), size, usable))) rows[id] = std::move(*row);
  }
}

Rows carve_pages(const Pages& pages, std::size_t usable) {
  Rows rows;
  for (const auto& [number, page] : pages) carve_page(pages, number, page, usable, rows);
  return rows;
}

Pages pages_of(Bytes file, std::size_t size) {
  Pages pages;
  for (std::size_t at = 0; at < file.size(); at += size) pages[at / size + 1] = file.substr(at, size);
  return pages;
}

/// Pages of the write-ahead log up to its last commit, the newest of each number.
Pages committed_pages(Bytes wal, std::size_t page_size) {
  constexpr std::size_t header = 32, frame_header = 24;
  Pages committed, open;
  for (std::size_t at = header; at + frame_header + page_size <= wal.size(); at += frame_header + page_size) {
    if (wal.substr(at + 8, 8) != wal.substr(16, 8)) break;  // the salts of an older round
    open[big_endian(wal, at, 4)] = wal.substr(at + frame_header, page_size);
    if (big_endian(wal, at + 4, 4) == 0) continue;
    for (const auto& [number, page] : open) committed[number] = page;
    open.clear();
  }
  return committed;
}

Rows carved_with(Bytes file, Bytes wal, std::size_t page_size, std::size_t reserved) {
  Pages pages = pages_of(file, page_size);
  Rows rows = carve_pages(pages, page_size - reserved);
  if (wal.size() <= 32) return rows;
  const Pages newer = committed_pages(wal, page_size);
  for (const auto& [number, page] : newer) pages[number] = page;
  for (const auto& [number, page] : newer) carve_page(pages, number, page, page_size - reserved, rows);
  return rows;
}

}  // namespace

Rows carved_rows(std::string_view file, std::string_view wal) {
  const std::uint64_t told = big_endian(file, 16, 2) == 1 ? 65536 : big_endian(file, 16, 2);
  const std::uint64_t reserved = big_endian(file, 20, 1);
  Rows most;
  // The size in the header first; then all there can be, as the header may be what is damaged.
  for (const std::size_t size : {std::size_t(told), std::size_t(4096), std::size_t(1024), std::size_t(512), std::size_t(2048), std::size_t(8192), std::size_t(16384), std::size_t(32768), std::size_t(65536)}) {
    if (size < 512 || size > 65536 || (size & (size - 1)) != 0) continue;
    Rows rows = carved_with(file, wal, size, size == told && reserved <= size - 480 ? reserved : 0);
    if (rows.size() > most.size()) most = std::move(rows);
    if (size == told && !most.empty()) break;
  }
  return most;
}

}  // namespace redd::logbook::detail
