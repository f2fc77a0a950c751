#include "ledger/stored_zip.h"

#include <gtest/gtest.h>

namespace redd::ledger {
namespace {

const std::vector<NamedFile> two{{"datapackage.json", "{}\n"}, {"data/note.csv", std::string("record,text\r\n1,\0\xC3\xA9\r\n", 20)}};

std::string code(const Result<std::vector<NamedFile>>& result) { return result ? "" : result.problems().front().code; }

TEST(StoredZip, GivesBackWhatWasPutIn) {
  const auto back = files_of_stored_zip(stored_zip(two));
  ASSERT_TRUE(back.has_value()) << code(back);
  EXPECT_EQ(*back, two);
  EXPECT_TRUE(files_of_stored_zip(stored_zip({}))->empty());
}

TEST(StoredZip, HasTheBytesOfTheFormat) {
  const NamedFile file{"a", "123456789"};
  const std::string zip = stored_zip(std::span(&file, 1));
  EXPECT_EQ(zip.substr(0, 4), "PK\x03\x04");
  // The check value of CRC-32 for these nine digits, 0xCBF43926, least byte first.
  EXPECT_EQ(zip.substr(14, 4), "\x26\x39\xF4\xCB");
  EXPECT_EQ(zip.size(), 30u + 1 + 9 + 46 + 1 + 22);
  EXPECT_EQ(zip, stored_zip(std::span(&file, 1)));
}

TEST(StoredZip, OfAnotherProgramMayCarryARemark) {
  std::string zip = stored_zip(two);
  zip[zip.size() - 2] = 5;
  EXPECT_EQ(*files_of_stored_zip(zip + "hello"), two);
}

TEST(StoredZip, CutOffOrChangedIsRefused) {
  const std::string zip = stored_zip(two);
  for (std::size_t length = 0; length < zip.size(); ++length) EXPECT_FALSE(files_of_stored_zip(zip.substr(0, length)).has_value()) << length;
  std::string changed = zip;
  changed[zip.find("{}")] = '[';
  EXPECT_EQ(code(files_of_stored_zip(changed)), "broken_zip");
  EXPECT_EQ(code(files_of_stored_zip("record,text\r\n1,a long enough text\r\n")), "not_a_zip");
}

TEST(StoredZip, AnyOneByteChangedNeverReadsBeyondTheFile) {
  const std::string zip = stored_zip(two);
  for (std::size_t i = 0; i < zip.size(); ++i)
    for (const char c : {'\0', '\x7F', '\xFF'}) {
      std::string changed = zip;
      changed[i] = c;
      const auto result = files_of_stored_zip(changed);
      if (result)
        for (const NamedFile& file : *result) EXPECT_LE(file.bytes.size(), zip.size());
    }
}

TEST(StoredZip, CompressedSaysWhatToDo) {
  std::string zip = stored_zip(two);
  const std::size_t central = zip.find("PK\x01\x02");
  zip[central + 10] = 8;  // deflated
  EXPECT_EQ(code(files_of_stored_zip(zip)), "packed_zip");
}

}  // namespace
}  // namespace redd::ledger
