#include "ledger/stored_zip.h"

#include <array>
#include <cstdint>

namespace redd::ledger {
namespace {

constexpr std::uint32_t local_mark = 0x04034b50, central_mark = 0x02014b50, end_mark = 0x06054b50;
constexpr std::size_t local_size = 30, central_size = 46, end_size = 22;
constexpr std::uint16_t version = 20, utf8_names = 0x0800, stored = 0;
constexpr std::uint16_t midnight = 0, first_of_january_1980 = 1 << 5 | 1;

constexpr std::array<std::uint32_t, 256> crc_steps() {
  std::array<std::uint32_t, 256> steps{};
  for (std::uint32_t i = 0; i < 256; ++i) {
    std::uint32_t value = i;
    for (int bit = 0; bit < 8; ++bit) value = value & 1 ? 0xEDB88320u ^ value >> 1 : value >> 1;
    steps[i] = value;
  }
  return steps;
}

std::uint32_t crc32(std::string_view bytes) {
  static constexpr auto steps = crc_steps();
  std::uint32_t sum = 0xFFFFFFFFu;
  for (const char c : bytes) sum = steps[(sum ^ static_cast<unsigned char>(c)) & 0xFF] ^ sum >> 8;
  return ~sum;
}

void put(std::string& out, std::uint64_t value, int bytes) {
  for (int i = 0; i < bytes; ++i) out += static_cast<char>(value >> 8 * i & 0xFF);
}

/// What local header and central directory say alike.
void put_common(std::string& out, const NamedFile& file) {
  for (const std::uint16_t value : {version, utf8_names, stored, midnight, first_of_january_1980}) put(out, value, 2);
  put(out, crc32(file.bytes), 4);
  put(out, file.bytes.size(), 4);
  put(out, file.bytes.size(), 4);
  put(out, file.name.size(), 2);
  put(out, 0, 2);  // no extra field
}

/// A number of some bytes, least first; 0 beyond the end (callers look at the length first).
std::uint32_t get(std::string_view bytes, std::size_t at, int count) {
  std::uint32_t value = 0;
  for (int i = 0; i < count && at + static_cast<std::size_t>(i) < bytes.size(); ++i)
    value |= static_cast<std::uint32_t>(static_cast<unsigned char>(bytes[at + static_cast<std::size_t>(i)])) << 8 * i;
  return value;
}

Problem broken() { return {"broken_zip", "", "The .zip is cut off or damaged: take the file as Redd wrote it."}; }

/// One file by its line in the central directory at `at`.
Result<NamedFile> file_at(std::string_view zip, std::size_t at) {
  if (get(zip, at + 8, 2) & 1 || get(zip, at + 10, 2) != stored)
    return Problem{"packed_zip", "", "The .zip is compressed or locked: unpack it and give the folder instead."};
  const std::uint32_t sum = get(zip, at + 16, 4), size = get(zip, at + 20, 4), name_size = get(zip, at + 28, 2), local = get(zip, at + 42, 4);
  if (at + central_size + name_size > zip.size() || local + local_size > zip.size() || get(zip, local, 4) != local_mark) return broken();
  const std::size_t begin = std::size_t(local) + local_size + get(zip, local + 26, 2) + get(zip, local + 28, 2);
  if (begin + size > zip.size()) return broken();
  NamedFile file{std::string(zip.substr(at + central_size, name_size)), std::string(zip.substr(begin, size))};
  if (crc32(file.bytes) != sum) return broken();
  return file;
}

}  // namespace

std::string stored_zip(std::span<const NamedFile> files) {
  std::string out, directory;
  for (const NamedFile& file : files) {
    const std::size_t local = out.size();
    put(out, local_mark, 4);
    put_common(out, file);
    out += file.name + file.bytes;
    put(directory, central_mark, 4);
    put(directory, version, 2);
    put_common(directory, file);
    directory.append(2 + 2 + 2 + 4, '\0');  // no remark, disk 0, no attributes
    put(directory, local, 4);
    directory += file.name;
  }
  const std::size_t begin = out.size();
  out += directory;
  put(out, end_mark, 4);
  put(out, 0, 4);
  put(out, files.size(), 2);
  put(out, files.size(), 2);
  put(out, directory.size(), 4);
  put(out, begin, 4);
  put(out, 0, 2);
  return out;
}

Result<std::vector<NamedFile>> files_of_stored_zip(std::string_view zip) {
  constexpr std::size_t longest_remark = 0xFFFF;
  const Problem none{"not_a_zip", "", "This is no .zip file."};
  if (zip.size() < end_size) return none;
  std::size_t end = zip.size() - end_size;
  const std::size_t first = end > longest_remark ? end - longest_remark : 0;
  while (get(zip, end, 4) != end_mark) {
    if (end == first) return none;
    --end;
  }
  const std::uint32_t count = get(zip, end + 10, 2);
  std::size_t at = get(zip, end + 16, 4);
  std::vector<NamedFile> files;
  for (std::uint32_t i = 0; i < count; ++i) {
    if (at + central_size > end || get(zip, at, 4) != central_mark) return broken();
    auto file = file_at(zip, at);
    if (!file) return file.problems();
    at += central_size + get(zip, at + 28, 2) + get(zip, at + 30, 2) + get(zip, at + 32, 2);
    files.push_back(std::move(file).value());
  }
  return files;
}

}  // namespace redd::ledger
