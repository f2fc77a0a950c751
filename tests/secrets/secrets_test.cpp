// Randomness, hashes and private files.
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fstream>
#include <set>

#include "classroom/codes.h"
#include "secrets/passphrase.h"
#include "secrets/private_file.h"
#include "secrets/random.h"
#include "support/folder.h"

namespace redd::secrets {
namespace {

TEST(NewToken, IsNeverTheSameAndFitsACookie) {
  std::set<std::string> seen;
  for (int i = 0; i < 1000; ++i) {
    const std::string token = new_token();
    EXPECT_EQ(token.size(), 43u);
    EXPECT_EQ(token.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"), std::string::npos);
    EXPECT_TRUE(seen.insert(token).second);
  }
}

TEST(NewCode, UsesEverySignAndReadsBack) {
  std::set<char> signs;
  for (int i = 0; i < 500; ++i) {
    const std::string code = new_code();
    EXPECT_EQ(classroom::code_from_typed(classroom::code_as_shown(code)), code);
    signs.insert(code.begin(), code.end());
  }
  EXPECT_EQ(signs.size(), classroom::code_signs.size());
}

TEST(DigestOf, IsOfTheWordAndNotTheWord) {
  EXPECT_EQ(digest_of("CDFGHJKM"), digest_of("CDFGHJKM"));
  EXPECT_NE(digest_of("CDFGHJKM"), digest_of("CDFGHJKN"));
  EXPECT_NE(digest_of(""), classroom::Digest{});
}

TEST(HashOfPassphrase, FitsItsPassphraseOnly) {
  const auto hash = hash_of_passphrase("four herons count trout", {1, 1 << 20});
  ASSERT_TRUE(hash.has_value());
  EXPECT_TRUE(is_passphrase_of(*hash, "four herons count trout"));
  for (const std::string& wrong : {std::string(), std::string("four herons count trout "), std::string("Four herons count trout"), std::string("four herons count trout\0", 24), std::string(2000, 'x')}) EXPECT_FALSE(is_passphrase_of(*hash, wrong));
  EXPECT_NE(*hash_of_passphrase("four herons count trout", {1, 1 << 20}), *hash) << "a salt of its own";
  for (const std::string& damaged : {std::string(), std::string("$argon2id$"), hash->substr(0, 40), std::string(500, '$'), *hash + *hash}) EXPECT_FALSE(is_passphrase_of(damaged, "four herons count trout"));
}

TEST(HashOfPassphrase, CostsWhatItSays) {
  const auto hash = hash_of_passphrase("four herons count trout");
  ASSERT_TRUE(hash.has_value());
  EXPECT_TRUE(hash->starts_with("$argon2id$v=19$m=65536,t=3,p=1$")) << *hash;
}

TEST(ProblemsOfPassphrase, CountCharactersAsPeopleDo) {
  EXPECT_TRUE(problems_of_passphrase("four herons count trout").empty());
  EXPECT_TRUE(problems_of_passphrase("ñandúes éxito").empty());
  EXPECT_EQ(problems_of_passphrase("ñandú éxit").front().code, "too_short") << "ten signs in thirteen bytes";
  EXPECT_EQ(problems_of_passphrase(std::string(1025, 'x')).front().code, "too_long");
  EXPECT_EQ(problems_of_passphrase("four herons\tcount trout").front().code, "bad_sign");
  EXPECT_EQ(problems_of_passphrase("ababababababab").front().code, "too_simple");
}

struct PrivateFile : ::testing::Test {
  support::Folder folder;
  mode_t mode(const std::filesystem::path& file) {
    struct stat about {};
    EXPECT_EQ(::stat(file.c_str(), &about), 0);
    return about.st_mode & 0777;
  }
};

TEST_F(PrivateFile, IsItsOwnersWhateverStoodThereBefore) {
  const auto file = folder / "word";
  std::ofstream(file) << "open to all";
  ::chmod(file.c_str(), 0666);
  ASSERT_TRUE(write_private_file(file, "mine").empty());
  EXPECT_EQ(mode(file), 0600u);
  EXPECT_EQ(**private_file_text(file, 100), "mine");
  ASSERT_TRUE(write_private_file(file, "mine too").empty());
  EXPECT_EQ(**private_file_text(file, 100), "mine too");
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path()), {}), 1) << "nothing unfinished is left";
}

TEST_F(PrivateFile, IsRefusedWhenOthersCanReadItOrItIsTooLarge) {
  const auto file = folder / "word";
  ASSERT_TRUE(write_private_file(file, "mine").empty());
  EXPECT_EQ(private_file_text(file, 3).problems().front().code, "too_large");
  ::chmod(file.c_str(), 0640);
  EXPECT_EQ(private_file_text(file, 100).problems().front().code, "open_to_others");
  EXPECT_FALSE(private_file_text(folder / "none", 100)->has_value());
  EXPECT_EQ(private_file_text(folder.path(), 100).problems().front().code, "cannot_read");
}

TEST_F(PrivateFile, ThatCanNotBeWrittenStaysAsItWas) {
  EXPECT_EQ(write_private_file(folder / "none" / "word", "x").front().code, "cannot_write");
  std::filesystem::create_directory(folder / "word");
  EXPECT_EQ(write_private_file(folder / "word", "x").front().code, "cannot_write");
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path()), {}), 1);
}

TEST_F(PrivateFile, GrowsByWholeLinesAndFollowsNoLink) {
  const auto file = folder / "lines";
  ASSERT_TRUE(add_private_line(file, "one").empty());
  ASSERT_TRUE(add_private_line(file, "two").empty());
  EXPECT_EQ(mode(file), 0600u);
  EXPECT_EQ(**private_file_text(file, 100), "one\ntwo\n");
  ASSERT_EQ(::symlink(file.c_str(), (folder / "link").c_str()), 0);
  EXPECT_EQ(add_private_line(folder / "link", "three").front().code, "cannot_write");
}

TEST_F(PrivateFile, HasAnotherMarkOnceItIsWrittenAnew) {
  EXPECT_EQ(mark_of_file(folder / "word"), "");
  ASSERT_TRUE(write_private_file(folder / "word", "same").empty());
  const std::string before = mark_of_file(folder / "word");
  EXPECT_EQ(mark_of_file(folder / "word"), before);
  ASSERT_TRUE(write_private_file(folder / "word", "same").empty());
  EXPECT_NE(mark_of_file(folder / "word"), before);
}

}  // namespace
}  // namespace redd::secrets
