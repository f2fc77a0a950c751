#pragma once
// The server's certificate for the local network: its own, made on first use, or the school's. Start at own_certificate().

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"
#include "quantities/time.h"

struct x509_st;

namespace redd::secrets {

/// A certificate with its key, as PEM.
struct Certificate {
  std::string chain_pem{};    ///< the server's first
  std::string key_pem{};
  std::string fingerprint{};  ///< SHA-256 in pairs of hex digits, "AB:CD:…"
  Instant begins_at{};
  Instant ends_at{};
  std::vector<std::string> hosts{};      ///< names it is for, without those that stand for many
  std::shared_ptr<x509_st> parsed{};     ///< the first of the chain
};

/// How this machine is called on its network: its host name alone and with ".local", "localhost", and its IPv4 addresses, each once.
/// Host names are in lower case and hold letters, digits, "-" and "." only; another one is left out.
struct MachineNames {
  std::vector<std::string> hosts{};
  std::vector<std::string> addresses{};  ///< of private networks, without 127.0.0.1
  std::vector<std::string> open_addresses{};  ///< the others: no certificate is made for them, and nobody is answered there
};
MachineNames machine_names();

/// Whether a Host header, "name" or "name:port", means a server with this certificate. Wildcards hold as TLS has them.
bool answers_to(const Certificate& certificate, std::string_view host);

inline constexpr std::chrono::days own_certificate_life{390};
inline constexpr std::chrono::days renewed_before_end{30};

/// The one kept in the folder, or a new one when there is none, it ends within a month, or it lacks a name the machine has now.
///
/// In      folder: there. names: what it must answer to.
/// Errors  cannot_write, cannot_read, open_to_others.
Result<Certificate> own_certificate(const std::filesystem::path& folder, const MachineNames& names, Instant now);

/// The school's certificate (with its chain) and key, both PEM.
/// Errors  cannot_read; bad_certificate: no certificate, no key, or not of one another; certificate_over: it has ended, or not begun.
Result<Certificate> school_certificate(const std::filesystem::path& certificate, const std::filesystem::path& key, Instant now);

}  // namespace redd::secrets
