#include "present/server/serve.hpp"

#include <httplib.h>
#include <sys/socket.h>

#include "core/base/error.hpp"
#include "present/server/connection.hpp"
#include "present/server/guard.hpp"
#include "present/server/json.hpp"
#include "present/server/route.hpp"

namespace stillheap::server {
namespace {

constexpr std::size_t most_body = 32U << 20U;  // the largest any route takes, and a little
constexpr int threads = 64;                    // chosen: each holds one open connection; a page opens up to six
constexpr int most_at_the_door = 256;          // chosen: connections that wait to be taken; the library's 5 resets some
constexpr int idle_s = 2;                      // chosen: then a connection at rest makes room for another
constexpr int most_of_one = 24;  // chosen: connections of one address, four pages; two such machines leave room

/// The web library's server with connections that keep a pace: its own give each single byte new time.
template <class Http>
class PacedServer final : public Http {
 public:
  using Http::Http;

 private:
  bool process_and_close_socket(socket_t socket) override {
    SSL_CTX* context = nullptr;
    if constexpr (std::is_same_v<Http, httplib::SSLServer>) context = this->ssl_context();
    Connection connection(socket, context, Pace{});
    const ConnectionLimiter::Visit visit(guests_, connection);
    return visit.welcome() && connection.shake_hands() && answer_all(connection);
  }

  bool answer_all(Connection& connection) {
    bool good = true;
    for (size_t left = this->keep_alive_max_count_; good && left > 0 && this->svr_sock_ != INVALID_SOCKET; --left) {
      if (!connection.next_request(static_cast<double>(this->keep_alive_timeout_sec_))) break;
      bool closed = false;
      good = this->process_request(connection, left == 1, closed, [](httplib::Request&) {}) && !closed;
    }
    return good;
  }

  ConnectionLimiter guests_{most_of_one};
};

Request ask_of(const httplib::Request& request) {
  Request ask;
  ask.method = request.method;
  ask.path = request.path;
  ask.body = request.body;
  ask.address = request.remote_addr;
  for (const auto& [name, value] : request.params) ask.query.emplace(name, value);
  for (const auto& [name, value] : request.headers) {
    std::string low = name;
    std::transform(low.begin(), low.end(), low.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    ask.header[low] = value;
  }
  return ask;
}

void send(const Response& answer, httplib::Response& response) {
  response.status = answer.status;
  for (const auto& [name, value] : answer.headers) response.set_header(name, value);
  response.set_content(answer.body, answer.type);
}

Response run_route(ServerContext& context, const Found& found, Request ask) {
  ask.named = found.named;
  try {
    return found.route->handle(context, ask);
  } catch (const NotThere& missing) {
    return problem(404, ask.path, missing.what, "go back to the yard");
  } catch (const InputError& error) {
    return answer(problems_json(error.problems()), 422);
  } catch (const Error& error) {
    return answer(problems_json(error.problems()), 500);
  } catch (const std::exception& error) {
    return problem(500, "fault", error.what(), "tell whoever keeps this program");
  }
}

}  // namespace

std::optional<Response> respond_early(ServerContext& context, const Request& ask) {
  auto refused = refuse(context, ask, find_route(ask.method == "HEAD" ? "GET" : ask.method, ask.path));
  if (refused) add_safety_headers(*refused, context.safety.tls);
  return refused;
}

Response respond(ServerContext& context, const StaticFiles& page, const Request& ask) {
  const bool reads = ask.method == "GET" || ask.method == "HEAD";
  const Found found = find_route(ask.method == "HEAD" ? "GET" : ask.method, ask.path);
  Response made;
  if (auto refused = refuse(context, ask, found)) {
    made = std::move(*refused);
  } else if (found.route != nullptr) {
    made = run_route(context, found, ask);
  } else if (auto file = reads ? page.find(ask.path) : std::nullopt) {
    made = std::move(*file);
  } else if (found.other_method) {
    made = problem(405, ask.path, "cannot be asked like this", "see docs/openapi.json");
  } else {
    made = problem(404, ask.path, "is not here", "go back to the yard");
  }
  add_safety_headers(made, context.safety.tls);
  return made;
}

struct Server::Inside {
  std::unique_ptr<httplib::Server> http;
  int port = 0;
  socket_t socket = INVALID_SOCKET;  ///< the one listened on
};

Server::Server(ServerContext& context, const StaticFiles& page, const Listen& listen)
    : inside_(std::make_unique<Inside>()) {
  if (context.safety.tls) {
    inside_->http = std::make_unique<PacedServer<httplib::SSLServer>>(listen.certificate.c_str(), listen.key.c_str());
  } else {
    inside_->http = std::make_unique<PacedServer<httplib::Server>>();
  }
  httplib::Server& http = *inside_->http;
  if (!http.is_valid()) throw InputError("--certificate", "or its key cannot be read", "give both as PEM files");
  http.new_task_queue = [] { return new httplib::ThreadPool(threads); };
  http.set_payload_max_length(most_body);
  http.set_keep_alive_max_count(1000);
  http.set_keep_alive_timeout(idle_s);
  http.set_tcp_nodelay(true);
  http.set_socket_options([inside = inside_.get()](socket_t socket) {
    httplib::default_socket_options(socket);
    inside->socket = socket;
  });
  http.set_pre_routing_handler([&context](const httplib::Request& request, httplib::Response& response) {
    const auto refused = respond_early(context, ask_of(request));
    if (!refused) return httplib::Server::HandlerResponse::Unhandled;
    send(*refused, response);
    response.set_header("Connection", "close");  // its body was not read
    return httplib::Server::HandlerResponse::Handled;
  });
  const auto handle = [&context, &page](const httplib::Request& request, httplib::Response& response) {
    send(respond(context, page, ask_of(request)), response);
  };
  http.Get(".*", handle).Post(".*", handle).Delete(".*", handle).Put(".*", handle).Patch(".*", handle);
  const char* const address = context.safety.lan ? "0.0.0.0" : "127.0.0.1";
  inside_->port =
      listen.port == 0 ? http.bind_to_any_port(address) : (http.bind_to_port(address, listen.port) ? listen.port : -1);
  if (inside_->port <= 0) {
    throw InputError("--port", "= " + std::to_string(listen.port) + " is taken or not allowed", "choose another");
  }
  (void)::listen(inside_->socket, most_at_the_door);  // once more, with a longer queue
}

Server::~Server() = default;

int Server::port() const noexcept { return inside_->port; }

void Server::run() { inside_->http->listen_after_bind(); }

void Server::stop() { inside_->http->stop(); }

}  // namespace stillheap::server
