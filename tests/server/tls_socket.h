// A client over TLS that trusts one certificate and no other, as a teacher who has compared the fingerprint does.
#pragma once

#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/ssl.h>

#include <memory>

#include "server/socket.h"

namespace redd::server {

class TlsSocket {
 public:
  /// In      trusted_pem: the certificate. newest: the newest version of TLS it speaks (0: any).
  TlsSocket(std::uint16_t port, const std::string& trusted_pem, const char* host = "localhost", int newest = 0) : socket_(port), context_(SSL_CTX_new(TLS_client_method()), SSL_CTX_free) {
    BIO* bio = BIO_new_mem_buf(trusted_pem.data(), static_cast<int>(trusted_pem.size()));
    X509* trusted = PEM_read_bio_X509(bio, nullptr, nullptr, nullptr);
    BIO_free(bio);
    X509_STORE_add_cert(SSL_CTX_get_cert_store(context_.get()), trusted);
    X509_free(trusted);
    SSL_CTX_set_verify(context_.get(), SSL_VERIFY_PEER, nullptr);
    if (newest != 0) {
      SSL_CTX_set_min_proto_version(context_.get(), TLS1_VERSION);
      SSL_CTX_set_max_proto_version(context_.get(), newest);
      SSL_CTX_set_security_level(context_.get(), 0);
    }
    ssl_.reset(SSL_new(context_.get()));
    SSL_set1_host(ssl_.get(), host);
    SSL_set_tlsext_host_name(ssl_.get(), host);
    SSL_set_fd(ssl_.get(), socket_.handle());
    connected_ = socket_.connected() && SSL_connect(ssl_.get()) == 1;
    ERR_clear_error();
  }

  bool connected() const { return connected_; }
  std::string version() const { return SSL_get_version(ssl_.get()); }
  bool write(std::string_view text) { return connected_ && SSL_write(ssl_.get(), text.data(), static_cast<int>(text.size())) == static_cast<int>(text.size()); }
  /// Everything until the other side says that this was all (or ten seconds are over).
  std::string read_all() {
    std::string text;
    char buffer[4096];
    for (int count = 0; connected_ && (count = SSL_read(ssl_.get(), buffer, sizeof buffer)) > 0;) text.append(buffer, static_cast<std::size_t>(count));
    ERR_clear_error();
    return text;
  }

 private:
  Socket socket_;
  std::unique_ptr<SSL_CTX, void (*)(SSL_CTX*)> context_;
  std::unique_ptr<SSL, void (*)(SSL*)> ssl_{nullptr, SSL_free};
  bool connected_ = false;
};

}  // namespace redd::server
