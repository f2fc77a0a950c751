#include "secrets/certificate.h"

#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509v3.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "quantities/verbatim.h"
#include "secrets/private_file.h"

namespace redd::secrets {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_pem_bytes = 256 * 1024;

template <auto Free>
struct Freed {
  template <class T>
  void operator()(T* thing) const { Free(thing); }
};
using Bio = std::unique_ptr<BIO, Freed<BIO_free_all>>;
using X509Ptr = std::unique_ptr<X509, Freed<X509_free>>;
using Key = std::unique_ptr<EVP_PKEY, Freed<EVP_PKEY_free>>;
using Extension = std::unique_ptr<X509_EXTENSION, Freed<X509_EXTENSION_free>>;

Bio reading(std::string_view text) { return Bio(BIO_new_mem_buf(text.data(), static_cast<int>(text.size()))); }
std::string written(const Bio& bio) {
  char* bytes = nullptr;
  const long length = BIO_get_mem_data(bio.get(), &bytes);
  return {bytes, static_cast<std::size_t>(std::max(0L, length))};
}

X509Ptr first_of(const std::string& pem) {
  const Bio bio = reading(pem);
  return X509Ptr(PEM_read_bio_X509(bio.get(), nullptr, nullptr, nullptr));
}

/// A key under a passphrase is not asked for one at a terminal that nobody may sit at.
int no_passphrase(char*, int, int, void*) { return -1; }

Key key_of(const std::string& pem) {
  const Bio bio = reading(pem);
  return Key(PEM_read_bio_PrivateKey(bio.get(), nullptr, no_passphrase, nullptr));
}

Instant instant_of_time(const ASN1_TIME* time) {
  std::tm parts{};
  if (ASN1_TIME_to_tm(time, &parts) != 1) return Instant{};
  return Instant(std::chrono::seconds(timegm(&parts)));
}

std::string fingerprint_of(const X509* certificate) {
  unsigned char bytes[EVP_MAX_MD_SIZE];
  unsigned length = 0;
  if (X509_digest(certificate, EVP_sha256(), bytes, &length) != 1) return "";
  static constexpr char hex[] = "0123456789ABCDEF";
  std::string text;
  for (unsigned i = 0; i < length; ++i) {
    if (i > 0) text += ':';
    text += hex[bytes[i] >> 4];
    text += hex[bytes[i] & 15];
  }
  return text;
}

std::vector<std::string> hosts_of(const X509* certificate) {
  std::vector<std::string> hosts;
  const std::unique_ptr<GENERAL_NAMES, Freed<GENERAL_NAMES_free>> names(static_cast<GENERAL_NAMES*>(X509_get_ext_d2i(certificate, NID_subject_alt_name, nullptr, nullptr)));
  for (int i = 0; names && i < sk_GENERAL_NAME_num(names.get()); ++i) {
    const GENERAL_NAME* name = sk_GENERAL_NAME_value(names.get(), i);
    if (name->type != GEN_DNS) continue;
    const ASN1_IA5STRING* text = name->d.dNSName;
    std::string host(reinterpret_cast<const char*>(ASN1_STRING_get0_data(text)), static_cast<std::size_t>(ASN1_STRING_length(text)));
    if (host.find('*') == std::string::npos) hosts.push_back(std::move(host));
  }
  return hosts;
}

/// The two as one value, when the key is the certificate's.
std::optional<Certificate> joined(std::string chain_pem, std::string key_pem) {
  X509Ptr certificate = first_of(chain_pem);
  const Key key = key_of(key_pem);
  if (!certificate || !key || X509_check_private_key(certificate.get(), key.get()) != 1) return std::nullopt;
  Certificate both{std::move(chain_pem), std::move(key_pem), fingerprint_of(certificate.get()), instant_of_time(X509_get0_notBefore(certificate.get())), instant_of_time(X509_get0_notAfter(certificate.get())), hosts_of(certificate.get())};
  both.parsed = std::shared_ptr<X509>(certificate.release(), X509_free);
  return both;
}

bool add_extension(X509* certificate, int kind, const std::string& words) {
  X509V3_CTX context;
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, certificate, certificate, nullptr, nullptr, 0);
  const Extension extension(X509V3_EXT_conf_nid(nullptr, &context, kind, words.c_str()));
  return extension && X509_add_ext(certificate, extension.get(), -1) == 1;
}

/// Self-signed, for a server and nothing else: whoever trusts it trusts this machine and no further certificate.
std::optional<Certificate> made(const MachineNames& names, Instant now) {
  const Key key(EVP_EC_gen("P-256"));
  const X509Ptr certificate(X509_new());
  if (!key || !certificate) return std::nullopt;
  X509* raw = certificate.get();
  std::string alternatives;
  for (const std::string& host : names.hosts) alternatives += (alternatives.empty() ? "DNS:" : ",DNS:") + host;
  for (const std::string& address : names.addresses) alternatives += (alternatives.empty() ? "IP:" : ",IP:") + address;
  alternatives += (alternatives.empty() ? "IP:127.0.0.1" : ",IP:127.0.0.1");
  const auto begins = std::chrono::system_clock::to_time_t(now - std::chrono::days(1));  // tablets whose clocks are behind
  const auto ends = std::chrono::system_clock::to_time_t(now + own_certificate_life);
  const std::unique_ptr<BIGNUM, Freed<BN_free>> serial(BN_new());
  X509_NAME* name = X509_get_subject_name(raw);
  const bool good = X509_set_version(raw, 2) == 1 && serial && BN_rand(serial.get(), 127, BN_RAND_TOP_ANY, BN_RAND_BOTTOM_ANY) == 1 &&
                    BN_to_ASN1_INTEGER(serial.get(), X509_get_serialNumber(raw)) != nullptr && ASN1_TIME_set(X509_getm_notBefore(raw), begins) != nullptr && ASN1_TIME_set(X509_getm_notAfter(raw), ends) != nullptr &&
                    X509_NAME_add_entry_by_txt(name, "CN", MBSTRING_ASC, reinterpret_cast<const unsigned char*>("Redd"), -1, -1, 0) == 1 && X509_set_issuer_name(raw, name) == 1 && X509_set_pubkey(raw, key.get()) == 1 &&
                    add_extension(raw, NID_basic_constraints, "critical,CA:FALSE") && add_extension(raw, NID_key_usage, "critical,digitalSignature") && add_extension(raw, NID_ext_key_usage, "serverAuth") &&
                    add_extension(raw, NID_subject_key_identifier, "hash") && add_extension(raw, NID_subject_alt_name, alternatives) && X509_sign(raw, key.get(), EVP_sha256()) > 0;
  const Bio certificate_out(BIO_new(BIO_s_mem())), key_out(BIO_new(BIO_s_mem()));
  if (!good || !certificate_out || !key_out || PEM_write_bio_X509(certificate_out.get(), raw) != 1 || PEM_write_bio_PKCS8PrivateKey(key_out.get(), key.get(), nullptr, nullptr, 0, nullptr, nullptr) != 1) return std::nullopt;
  return joined(written(certificate_out), written(key_out));
}

bool answers_to_all(const Certificate& certificate, const MachineNames& names) {
  const auto known = [&](const std::string& name) { return answers_to(certificate, name); };
  return std::ranges::all_of(names.hosts, known) && std::ranges::all_of(names.addresses, known);
}

bool all_digits(std::string_view text) { return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos; }

Result<std::string> pem_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::string text(most_pem_bytes + 1, '\0');
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(stream.gcount()));
  if (text.empty() || text.size() > most_pem_bytes) return Problem{"cannot_read", "", said("{0} can't be read as a certificate or key.", verbatim(file.string()))};
  return text;
}

}  // namespace

bool answers_to(const Certificate& certificate, std::string_view host) {
  const std::size_t colon = host.rfind(':');
  if (colon != std::string_view::npos) {
    if (!all_digits(host.substr(colon + 1))) return false;
    host = host.substr(0, colon);
  }
  if (host.empty() || host.size() > 253 || host.find('\0') != std::string_view::npos) return false;
  X509* x509 = certificate.parsed.get();
  if (!x509) return false;
  const std::string name(host);
  // A name is never looked for in the subject: what counts is what the certificate is for.
  return X509_check_ip_asc(x509, name.c_str(), 0) == 1 || X509_check_host(x509, name.data(), name.size(), X509_CHECK_FLAG_NEVER_CHECK_SUBJECT | X509_CHECK_FLAG_NO_PARTIAL_WILDCARDS, nullptr) == 1;
}

Result<Certificate> own_certificate(const fs::path& folder, const MachineNames& names, Instant now) {
  const fs::path certificate_file = folder / "network-certificate.pem", key_file = folder / "network-key.pem";
  const auto certificate_text = private_file_text(certificate_file, most_pem_bytes);
  if (!certificate_text) return certificate_text.problems();
  const auto key_text = private_file_text(key_file, most_pem_bytes);
  if (!key_text) return key_text.problems();
  if (*certificate_text && *key_text) {
    // One that does not fit its key was half written when the program ended: a new one takes its place.
    auto kept = joined(**certificate_text, **key_text);
    if (kept && kept->begins_at <= now && now + renewed_before_end < kept->ends_at && answers_to_all(*kept, names)) return std::move(*kept);
  }
  auto fresh = made(names, now);
  if (!fresh) return Problem{"no_certificate", "", "A certificate could not be made."};
  for (const auto& [file, text] : {std::pair(key_file, fresh->key_pem), std::pair(certificate_file, fresh->chain_pem)})
    if (Problems problems = write_private_file(file, text); !problems.empty()) return problems;
  return std::move(*fresh);
}

Result<Certificate> school_certificate(const fs::path& certificate, const fs::path& key, Instant now) {
  const auto chain_pem = pem_of(certificate), key_pem = pem_of(key);
  if (!chain_pem) return chain_pem.problems();
  if (!key_pem) return key_pem.problems();
  auto both = joined(*chain_pem, *key_pem);
  if (!both)
    return Problem{"bad_certificate", "--certificate", said("{0} and {1} are not a certificate and its key. Both must be PEM files, the key without a passphrase, and made for one another.", verbatim(certificate.string()), verbatim(key.string()))};
  if (now < both->begins_at || now >= both->ends_at)
    return Problem{"certificate_over", "--certificate", said("The certificate holds from {0} to {1}, not today. Ask the school's IT for a new one, and look whether this machine's clock is right.", rfc3339_from_instant(both->begins_at).substr(0, 10), rfc3339_from_instant(both->ends_at).substr(0, 10))};
  return std::move(*both);
}

}  // namespace redd::secrets
