#pragma once
#include <istream>
#include <optional>
#include <string>

/// Without --lan there is no passphrase: then only programs of the same user may ask.
namespace stillheap::server {

/// The user whose program holds the other end of a connection of this machine to us, as the kernel's table of
/// connections (proc(5), /proc/net/tcp) says; nothing when it does not stand there.
[[nodiscard]] std::optional<unsigned> user_of(std::istream& table, int their_port, int our_port);

/// Whether whoever connected from this machine is the user who runs this program, or root.
[[nodiscard]] bool is_same_user(int their_port, int our_port);

}  // namespace stillheap::server
