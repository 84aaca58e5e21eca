#include "present/server/house.hpp"

#include "core/base/error.hpp"
#include "core/base/whole_file.hpp"
#include "yard/record/store.hpp"

namespace stillheap::server {

House::House(std::filesystem::path site_file, Safety safety, std::filesystem::path copies)
    : site_file_(std::move(site_file)), copies_(std::move(copies)), door_(std::make_shared<Door>(std::move(safety))) {
  if (std::filesystem::exists(site_file_)) {
    open_locked();
    return;
  }
  const std::filesystem::path records = record::store_path(site_file_);
  if (std::filesystem::exists(records)) {
    throw InputError(site_file_.string(), "is not there, but its records are: " + records.string(),
                     "put the site file back, or name another folder to begin a new yard");
  }
}

void House::open_locked() {
  kept_ = std::make_unique<ServerContext>(site::read_site(site_file_), door_, copies_);
  yard_ = kept_.get();
}

ServerContext* House::yard() {
  if (ServerContext* const there = yard_) return there;
  std::error_code unseen;
  if (!std::filesystem::exists(site_file_, unseen)) return nullptr;
  const std::lock_guard lock(mutex_);
  try {
    if (yard_ == nullptr) open_locked();
  } catch (const InputError&) {
    // somebody is still writing it: it is looked at again
  }
  return yard_;
}

bool House::begin(std::string_view text) {
  const std::lock_guard lock(mutex_);
  if (yard_ != nullptr) return false;
  std::error_code failure;
  if (!site_file_.parent_path().empty()) std::filesystem::create_directories(site_file_.parent_path(), failure);
  if (!write_new_file(site_file_, text)) return false;
  open_locked();
  return true;
}

}  // namespace stillheap::server
