#include <malloc.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdio>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "commands.hpp"
#include "core/base/error.hpp"
#include "present/server/addresses.hpp"
#include "present/server/passphrase.hpp"
#include "present/server/phone_code.hpp"
#include "present/server/scratch.hpp"
#include "present/server/serve.hpp"
#include "record_options.hpp"
#include "site_path.hpp"

namespace stillheap::app {
namespace {

struct Options {
  std::string site;
  int port = 8340;  // chosen
  bool lan = false;
  std::string passphrase_file, certificate, key, page;
  CopyOptions copies;
};

std::string machine_name() {
  std::array<char, 256> name{};
  return gethostname(name.data(), name.size() - 1) == 0 ? name.data() : "";
}

server::Safety safety_of(const Options& options) {
  server::Safety safety;
  safety.lan = options.lan;
  safety.tls = !options.certificate.empty();
  if (options.certificate.empty() != options.key.empty()) {
    throw InputError("--certificate", "and --key belong together", "give both or none");
  }
  if (!options.lan) return safety;
  safety.machine_name = machine_name();
  safety.passphrase_hash = server::hash_passphrase(
      options.passphrase_file.empty() ? server::ask_passphrase() : server::read_passphrase(options.passphrase_file));
  return safety;
}

void show_phones(const server::Safety& safety, int port) {
  const std::vector<std::string> addresses = server::phone_addresses(safety, port);
  if (addresses.empty()) return;
  std::puts("From the network, with the passphrase (Settings on the page shows each for a phone's camera):");
  for (const std::string& one : addresses) std::printf("  %s\n", one.c_str());
  if (isatty(STDOUT_FILENO) != 0) std::fputs(server::phone_code(addresses.front()).c_str(), stdout);
}

void get_address(const server::Safety& safety, int port) {
  const char* const scheme = safety.tls ? "https" : "http";
  std::printf("Open %s://localhost:%d in a browser on this machine. Ctrl-C ends the server.\n", scheme, port);
  show_phones(safety, port);
  if (safety.lan && !safety.tls) {
    std::puts(
        "Without --certificate and --key everything goes over the network readable, the passphrase too, and\n"
        "phones cannot keep the page for use out of reach. Use it on a network that you trust.");
  }
  std::fflush(stdout);
}

/// Waits for Ctrl-C or a polite kill on a thread of its own, then stops the server.
class StopOnSignal {
 public:
  explicit StopOnSignal(server::Server& server) {
    sigset_t signals;
    sigemptyset(&signals);
    for (const int one : {SIGINT, SIGTERM, SIGUSR1}) sigaddset(&signals, one);
    waiter_ = std::thread([&server, signals] {
      int caught = 0;
      sigwait(&signals, &caught);
      server.stop();
    });
  }
  StopOnSignal(const StopOnSignal&) = delete;
  StopOnSignal& operator=(const StopOnSignal&) = delete;
  ~StopOnSignal() {
    pthread_kill(waiter_.native_handle(), SIGUSR1);
    waiter_.join();
  }

 private:
  std::thread waiter_;
};

void block_signals() {
  sigset_t signals;
  sigemptyset(&signals);
  for (const int one : {SIGINT, SIGTERM, SIGUSR1}) sigaddset(&signals, one);
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);  // every later thread inherits it
  std::signal(SIGPIPE, SIG_IGN);
}

/// The site file that is there, or where the page may write one: in a folder without any, or in one that is yet to be
/// made in a folder that is there. A longer path that leads nowhere is a slip.
std::filesystem::path site_to_serve(const std::string& named) {
  const std::filesystem::path there = site_file(named);
  if (std::filesystem::exists(there) || there != std::filesystem::path(named)) return there;
  const std::filesystem::path whole = std::filesystem::absolute(there);
  const std::filesystem::path folder = whole.has_filename() ? whole : whole.parent_path();
  if (!std::filesystem::is_directory(folder.parent_path())) {
    throw InputError(named, "lies in a folder that is not there", "make that folder first, or name another");
  }
  return there.extension() == ".toml" ? there : there / "site.toml";
}

void tell_to_begin(const std::filesystem::path& site) {
  std::printf("There is no %s yet: the page asks what it needs and writes it.\n", site.c_str());
}

void serve(const Options& options) {
  const server::StaticFiles page(options.page.empty() ? server::find_page_folder()
                                                      : std::filesystem::path(options.page));
  const server::Safety safety = safety_of(options);
  block_signals();
  // Each thread that writes a large answer would keep a pool of its own: exports held 923 MB so, and 150 MB with two.
  (void)mallopt(M_ARENA_MAX, 2);
  server::clear_scratch();
  const std::filesystem::path site = site_to_serve(options.site);
  server::House house(site, safety, copies_of(options.copies, site));
  server::Server server(house, page, {options.port, options.certificate, options.key});
  if (house.yard() == nullptr) tell_to_begin(site);
  get_address(safety, server.port());
  const StopOnSignal stop(server);
  server.run();
}

}  // namespace

void add_serve(CLI::App& app) {
  const auto options = std::make_shared<Options>();
  CLI::App* command =
      app.add_subcommand("serve", "Show the yard in a browser: on this machine, or with --lan on phones");
  command
      ->add_option("SITE", options->site,
                   "Site file, or the folder that holds site.toml; where there is none yet, the page begins one")
      ->required();
  command->add_option("--port", options->port, "Port to listen on; 0 takes any free one")->check(CLI::Range(0, 65535));
  command->add_flag("--lan", options->lan, "Let the network in, with a passphrase");
  command->add_option("--passphrase-file", options->passphrase_file,
                      "First line is the passphrase; readable by its owner alone. Else it is asked for");
  command->add_option("--certificate", options->certificate, "TLS certificate chain, PEM")->check(CLI::ExistingFile);
  command->add_option("--key", options->key, "Its private key, PEM")->check(CLI::ExistingFile);
  add_copy_options(*command, options->copies);
  command->add_option("--page", options->page, "Folder of the built page; else found beside the program");
  command->callback([options] { serve(*options); });
}

}  // namespace stillheap::app
