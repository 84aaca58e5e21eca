#include "present/server/tls.hpp"

#include <openssl/err.h>

#include "core/base/error.hpp"

namespace stillheap::server {
namespace {

namespace fs = std::filesystem;

/// What TLS 1.2 may use; of 1.3 all suites are of this kind. Source: RFC 9325 (2022), section 4.2.
constexpr const char* suites_of_1_2 = "ECDHE+AESGCM:ECDHE+CHACHA20";

/// The group may read it: Debian keeps keys for the group ssl-cert.
void refuse_open_key(const fs::path& key) {
  std::error_code error;
  const fs::perms perms = fs::status(key, error).permissions();
  if (error) throw InputError(key.string(), "cannot be read", "name the private key's PEM file");
  if ((perms & (fs::perms::others_all | fs::perms::group_write)) == fs::perms::none) return;
  throw InputError(key.string(), "may be read or written by others on this machine", "run: chmod 600 " + key.string());
}

[[noreturn]] void refuse(const fs::path& file, const char* mend) {
  ERR_clear_error();
  throw InputError(file.string(), "cannot be read as it should be", mend);
}

}  // namespace

Tls make_tls(const fs::path& certificate, const fs::path& key) {
  refuse_open_key(key);
  Tls tls(SSL_CTX_new(TLS_server_method()), &SSL_CTX_free);
  if (tls == nullptr || SSL_CTX_set_min_proto_version(tls.get(), TLS1_2_VERSION) != 1 ||
      SSL_CTX_set_cipher_list(tls.get(), suites_of_1_2) != 1) {
    throw RunError("TLS", "does not start", "see that the TLS library is whole");
  }
  SSL_CTX_set_options(tls.get(), SSL_OP_NO_RENEGOTIATION | SSL_OP_NO_COMPRESSION | SSL_OP_CIPHER_SERVER_PREFERENCE);
  SSL_CTX_set_mode(tls.get(), SSL_MODE_RELEASE_BUFFERS);
  if (SSL_CTX_use_certificate_chain_file(tls.get(), certificate.c_str()) != 1) {
    refuse(certificate, "give a certificate, or its chain, as PEM");
  }
  if (SSL_CTX_use_PrivateKey_file(tls.get(), key.c_str(), SSL_FILETYPE_PEM) != 1 ||
      SSL_CTX_check_private_key(tls.get()) != 1) {
    refuse(key, "give the private key of this certificate as PEM");
  }
  return tls;
}

}  // namespace stillheap::server
