#include "secrets/certificate.h"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>

#include "support/folder.h"

namespace redd::secrets {
namespace {

using std::chrono::days;

const Instant now = *instant_from_rfc3339("2031-01-20T20:00:00Z");
const MachineNames names{{"school-pc", "school-pc.local", "localhost"}, {"192.168.7.5", "10.1.2.3"}};

struct CertificateTest : ::testing::Test {
  support::Folder folder;
  Certificate own(const MachineNames& wanted = names, Instant at = now) {
    auto made = own_certificate(folder.path(), wanted, at);
    EXPECT_TRUE(made.has_value()) << made.problems().front().sentence;
    return std::move(made).value();
  }
};

TEST_F(CertificateTest, AnswersToTheMachinesNamesAndNoOther) {
  const Certificate made = own();
  for (const char* host : {"school-pc", "school-pc.local", "School-PC.local:7443", "localhost", "192.168.7.5", "10.1.2.3:7443", "127.0.0.1:1"}) EXPECT_TRUE(answers_to(made, host)) << host;
  for (const char* host : {"", ":7443", "school-pc.lan", "local", "x.school-pc.local", "192.168.7.50", "192.168.7.5.evil.example", "Redd", "school-pc.local:x", "school-pc.local:"}) EXPECT_FALSE(answers_to(made, host)) << host;
  EXPECT_FALSE(answers_to(made, std::string_view("school-pc.local\0.evil.example", 29)));
}

TEST_F(CertificateTest, IsKeptForItsOwnerAndUsedAgain) {
  const Certificate first = own(), second = own();
  EXPECT_EQ(first.fingerprint, second.fingerprint);
  EXPECT_EQ(first.fingerprint.size(), 95u);
  for (const char* file : {"network-key.pem", "network-certificate.pem"}) {
    struct stat about {};
    ASSERT_EQ(::stat((folder / file).c_str(), &about), 0);
    EXPECT_EQ(about.st_mode & 0777, 0600u) << file;
  }
  EXPECT_EQ(first.begins_at, now - days(1));
  EXPECT_EQ(first.ends_at, now + own_certificate_life);
}

TEST_F(CertificateTest, IsRenewedAMonthBeforeItEnds) {
  const std::string first = own().fingerprint;
  EXPECT_EQ(own(names, now + own_certificate_life - days(31)).fingerprint, first);
  const Certificate renewed = own(names, now + own_certificate_life - days(30));
  EXPECT_NE(renewed.fingerprint, first);
  EXPECT_EQ(renewed.ends_at, now + own_certificate_life - days(30) + own_certificate_life);
}

TEST_F(CertificateTest, IsRenewedWhenTheMachineIsCalledOtherwise) {
  const std::string first = own().fingerprint;
  MachineNames fewer = names;
  fewer.addresses.pop_back();
  EXPECT_EQ(own(fewer).fingerprint, first) << "a name too many does no harm";
  MachineNames other = names;
  other.addresses = {"192.168.7.9"};
  EXPECT_NE(own(other).fingerprint, first);
}

TEST_F(CertificateTest, ThatDoesNotFitItsKeyIsMadeAnew) {
  const Certificate first = own();
  std::ofstream(folder / "network-key.pem") << "not a key";
  const Certificate second = own();
  EXPECT_NE(first.fingerprint, second.fingerprint);
  EXPECT_EQ(own().fingerprint, second.fingerprint);
  ::chmod((folder / "network-key.pem").c_str(), 0644);
  EXPECT_EQ(own_certificate(folder.path(), names, now).problems().front().code, "open_to_others") << "others may have the key";
}

TEST_F(CertificateTest, OfTheSchoolIsTakenWithItsKeyWhileItHolds) {
  const Certificate made = own();
  const auto certificate = folder / "network-certificate.pem", key = folder / "network-key.pem";
  const auto taken = school_certificate(certificate, key, now);
  ASSERT_TRUE(taken.has_value());
  EXPECT_EQ(taken->fingerprint, made.fingerprint);
  EXPECT_EQ(taken->hosts, names.hosts);
  EXPECT_EQ(school_certificate(certificate, key, now + days(400)).problems().front().code, "certificate_over");
  EXPECT_EQ(school_certificate(certificate, key, now - days(2)).problems().front().code, "certificate_over");
  EXPECT_EQ(school_certificate(key, certificate, now).problems().front().code, "bad_certificate");
  EXPECT_EQ(school_certificate(folder / "none", key, now).problems().front().code, "cannot_read");
  support::Folder elsewhere;
  ASSERT_TRUE(own_certificate(elsewhere.path(), names, now).has_value());
  EXPECT_EQ(school_certificate(certificate, elsewhere / "network-key.pem", now).problems().front().code, "bad_certificate") << "another's key";
}

TEST(MachineNames, HoldOnlySignsOfHostNames) {
  for (const std::string& host : machine_names().hosts) EXPECT_EQ(host.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-."), std::string::npos) << host;
  EXPECT_FALSE(machine_names().hosts.empty());
}

}  // namespace
}  // namespace redd::secrets
