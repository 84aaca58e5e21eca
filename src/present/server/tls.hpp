#pragma once
#include <openssl/ssl.h>

#include <filesystem>
#include <memory>

namespace stillheap::server {

using Tls = std::unique_ptr<SSL_CTX, void (*)(SSL_CTX*)>;

/// What the server says of itself over TLS: 1.2 or 1.3, suites with forward secrecy and authenticated encryption alone.
/// Throws InputError when certificate or key cannot be read, do not belong together, or others may read the key.
[[nodiscard]] Tls make_tls(const std::filesystem::path& certificate, const std::filesystem::path& key);

}  // namespace stillheap::server
