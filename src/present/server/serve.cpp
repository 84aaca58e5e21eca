#include "present/server/serve.hpp"

#include <unistd.h>

#include <chrono>
#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>
#include <vector>

#include "core/base/error.hpp"
#include "present/server/connection.hpp"
#include "present/server/exchange.hpp"
#include "present/server/guard.hpp"
#include "present/server/guests.hpp"
#include "present/server/json.hpp"
#include "present/server/listener.hpp"
#include "present/server/neighbour.hpp"
#include "present/server/route.hpp"
#include "present/server/tls.hpp"

namespace stillheap::server {
namespace {

constexpr double idle_s = 2.0;            // chosen: then a connection at rest makes room for another
constexpr int most_requests = 1000;       // chosen: of one connection
constexpr std::chrono::seconds leave{5};  // chosen: for answers under way when the server stops
constexpr const char* this_machine = "127.0.0.1";

/// The handler's answer. Where it asks the yard and there is none yet, where to begin one.
Response handled(House& house, const Route& route, const Request& ask) {
  if (const OfHouse* const of_house = std::get_if<OfHouse>(&route.handle)) return (*of_house)(house, ask);
  ServerContext* const yard = house.yard();
  if (yard == nullptr)
    return problem(409, "site", "is not begun yet: there is no site file", "begin on the first page");
  return std::get<OfYard>(route.handle)(*yard, ask);
}

Response run_route(House& house, const Found& found, Request ask) {
  ask.named = found.named;
  try {
    return handled(house, *found.route, ask);
  } catch (const NotThere& missing) {
    return problem(404, ask.path, missing.what, "go back to the yard");
  } catch (const InputError& error) {
    const ServerContext* const yard = house.yard();
    return answer(problems_json(error.problems(), yard != nullptr ? yard->site.units : UnitSystem::metric), 422);
  } catch (const Error& error) {
    return answer(problems_json(error.problems()), 500);
  } catch (const std::exception& error) {
    return problem(500, "fault", error.what(), "tell whoever keeps this program");
  }
}

Found route_of(const Request& ask) { return find_route(ask.method == "HEAD" ? "GET" : ask.method, ask.path); }

/// Where no route is: the page's file, which everybody may have, or that there is none, which not everybody may know.
Response off_the_routes(House& house, const StaticFiles& page, const Request& ask, const Found& found) {
  if (auto file = reads(ask) ? page.find(ask.path) : std::nullopt) return std::move(*file);
  if (auto refused = refuse_stranger(house.door(), ask)) return std::move(*refused);
  if (found.other_method) return problem(405, ask.path, "cannot be asked like this", "see docs/openapi.json");
  return problem(404, ask.path, "is not here", "go back to the yard");
}

}  // namespace

std::optional<Response> respond_early(House& house, const StaticFiles& page, const Request& ask) {
  const Found found = route_of(ask);
  auto made = refuse(house.door(), ask, found);
  if (!made && found.route == nullptr) made = off_the_routes(house, page, ask, found);
  if (made) add_safety_headers(*made, house.door().safety.tls);
  return made;
}

Response respond(House& house, const StaticFiles& page, const Request& ask) {
  if (auto early = respond_early(house, page, ask)) return std::move(*early);
  Response made = run_route(house, route_of(ask), ask);
  add_safety_headers(made, house.door().safety.tls);
  return made;
}

struct Server::Inside {
  Inside(House& the_house, const StaticFiles& the_page, const Listen& listen)
      : house(the_house),
        page(the_page),
        tls(the_house.door().safety.tls ? make_tls(listen.certificate, listen.key) : Tls(nullptr, &SSL_CTX_free)),
        listener(the_house.door().safety.lan ? "0.0.0.0" : this_machine, listen.port) {
    house.door().port = listener.port();
  }

  struct Called {
    Guests::Entry guest;
    Listener::Caller caller;
  };

  /// What a thread does: one connection after the other.
  void serve_callers() {
    std::unique_lock lock(mutex);
    while (true) {
      come.wait(lock, [&] { return closing || !called.empty(); });
      if (called.empty()) return;
      const Called next = called.front();
      called.pop_front();
      lock.unlock();
      serve(next);
      lock.lock();
    }
  }

  /// For those who wait for a thread.
  void make_room() {
    std::size_t waiting = 0;
    {
      const std::lock_guard lock(mutex);
      waiting = called.size();
    }
    if (waiting > 0) guests.make_room(waiting);
  }

  void serve(const Called& called_one) {
    Connection line(called_one.caller.socket, tls.get(), Pace{});
    try {
      converse(line, called_one);
    } catch (const std::exception&) {
      // No memory for this one: the others go on.
    }
    guests.leave(called_one.guest);
  }

  void converse(Connection& line, const Called& called_one) {
    if (!line.shake_hands()) return;
    const std::string& address = called_one.caller.address;
    if (!house.door().safety.lan && !is_same_user(called_one.caller.port, listener.port())) return turn_away(line);
    Exchange exchange(house, page, line, address, [&] { guests.trust(called_one.guest); });
    for (int left = most_requests; left > 0; --left) {
      guests.begin(called_one.guest);
      if (!line.next_request(exchange.has_more(), idle_s) || !exchange.serve_one()) break;
    }
    if (exchange.left_unread()) line.linger();
  }

  static void turn_away(Connection& line) {
    Response no = problem(403, "request", "comes from another user of this machine",
                          "let the owner start the server with --lan and a passphrase");
    add_safety_headers(no, false);
    const std::string head = head_text(no, false) + no.body;
    (void)line.write(head.data(), head.size());
    line.linger();
  }

  House& house;
  const StaticFiles& page;
  Tls tls;
  Listener listener;
  Guests guests{Guests::Limits{}};
  std::mutex mutex;
  std::condition_variable come;
  std::deque<Called> called;
  bool closing = false;
};

Server::Server(House& house, const StaticFiles& page, const Listen& listen)
    : inside_(std::make_unique<Inside>(house, page, listen)) {}

Server::~Server() = default;

int Server::port() const noexcept { return inside_->listener.port(); }

void Server::run() {
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < Guests::Limits{}.served_at_once; ++i) {
    threads.emplace_back([this] { inside_->serve_callers(); });
  }
  while (const auto caller = inside_->listener.next()) {
    inside_->make_room();
    if (caller->socket < 0) continue;
    const auto guest = inside_->guests.admit(caller->socket, caller->address);
    if (guest == inside_->guests.end()) {
      ::close(caller->socket);
      continue;
    }
    const std::lock_guard lock(inside_->mutex);
    inside_->called.push_back({guest, *caller});
    inside_->come.notify_one();
  }
  inside_->guests.send_all_off(false);
  {
    const std::lock_guard lock(inside_->mutex);
    inside_->closing = true;
  }
  inside_->come.notify_all();
  const auto until = std::chrono::steady_clock::now() + leave;
  while (!inside_->guests.empty() && std::chrono::steady_clock::now() < until) {
    std::this_thread::sleep_for(std::chrono::milliseconds{5});
  }
  inside_->guests.send_all_off(true);
  for (std::thread& one : threads) one.join();
}

void Server::stop() { inside_->listener.close(); }

}  // namespace stillheap::server
