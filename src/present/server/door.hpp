#pragma once
#include <string>
#include <utility>

#include "present/server/body_room.hpp"
#include "present/server/session.hpp"

namespace stillheap::server {

/// How open the server is.
struct Safety {
  bool lan = false;  ///< the network may ask; a passphrase is then needed
  bool tls = false;
  std::string passphrase_hash;  ///< Argon2id; only with lan
  std::string machine_name;     ///< a Host that may be asked for, with lan
};

/// Who may come in, whatever stands behind it: it outlives the moment in which a yard is begun.
struct Door {
  explicit Door(Safety the_safety) : safety(std::move(the_safety)) {}

  Safety safety;
  int port = 0;  ///< once a server listens
  BodyRoom body_room;
  Sessions sessions;
  LoginLimit login_limit;
};

}  // namespace stillheap::server
