#include "yard/record/photo.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <iterator>
#include <system_error>

#include "core/base/error.hpp"
#include "core/base/in_place.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/read.hpp"

namespace stillheap::record {
namespace {

namespace fs = std::filesystem;

RunError cannot(const fs::path& file) {
  return {file.string(), "cannot be written: " + std::generic_category().message(errno),
          "see that the folder may be written to and has room"};
}

std::string read_bytes(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

const char* ending_of(const std::string& media_type) {
  if (media_type == "image/jpeg") return ".jpg";
  if (media_type == "image/png") return ".png";
  return ".webp";
}

}  // namespace

void write_durably(const fs::path& file, std::string_view bytes) {
  const fs::path part = file.string() + ".part-" + new_id();
  const int handle = ::open(part.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
  if (handle < 0) throw cannot(part);
  bool good = true;
  while (good && !bytes.empty()) {
    const ssize_t written = ::write(handle, bytes.data(), bytes.size());
    good = written > 0;
    if (good) bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  good = good && ::fsync(handle) == 0;
  good = ::close(handle) == 0 && good;
  good = good && ::rename(part.c_str(), file.c_str()) == 0;
  if (good) return sync_folder(file.parent_path());
  const RunError failure = cannot(file);
  std::error_code ignored;
  fs::remove(part, ignored);
  throw RunError(failure);
}

std::string media_type_of(std::string_view bytes) noexcept {
  if (bytes.starts_with("\xFF\xD8\xFF")) return "image/jpeg";
  if (bytes.starts_with("\x89PNG\r\n\x1A\n")) return "image/png";
  if (bytes.size() > 12 && bytes.starts_with("RIFF") && bytes.substr(8, 4) == "WEBP") return "image/webp";
  return {};
}

Photo keep_photo(const Store& store, std::string_view bytes) {
  if (bytes.size() > static_cast<std::size_t>(most_photo_bytes)) {
    throw InputError("photo", "has " + std::to_string(bytes.size()) + " bytes",
                     "give at most " + std::to_string(most_photo_bytes) + " bytes");
  }
  Photo photo;
  photo.media_type = media_type_of(bytes);
  if (photo.media_type.empty()) throw InputError("photo", "is no picture", "give a JPEG, PNG or WebP file");
  photo.bytes = static_cast<long long>(bytes.size());
  photo.sha256 = sha256_hex(bytes);
  const fs::path file = photo_file(store, photo);
  std::error_code failure;
  fs::create_directories(file.parent_path(), failure);
  if (failure) throw RunError(file.parent_path().string(), "cannot be made: " + failure.message(), "make the folder");
  if (!is_sound_photo(file, photo)) write_durably(file, bytes);
  return photo;
}

bool is_sound_photo(const fs::path& file, const Photo& photo) {
  std::error_code failure;
  const auto size = fs::file_size(file, failure);
  return !failure && size == static_cast<std::uintmax_t>(photo.bytes) && sha256_hex(read_bytes(file)) == photo.sha256;
}

void forget_photo(const Store& store, const Photo& photo) noexcept {
  try {
    for (const Photo& one : all<Photo>(store)) {
      if (one.sha256 == photo.sha256) return;
    }
    std::error_code ignored;
    fs::remove(photo_file(store, photo), ignored);
  } catch (const std::exception&) {
    return;  // it stays: too much kept rather than too little
  }
}

fs::path photo_file(const Store& store, const Photo& photo) {
  if (photo.sha256.size() != 64 || photo.sha256.find_first_not_of("0123456789abcdef") != std::string::npos) {
    throw InputError("photo", "= \"" + photo.sha256 + "\" is no hash", "give 64 hexadecimal digits in lower case");
  }
  return store.photo_folder() / (photo.sha256 + ending_of(photo.media_type));
}

std::vector<std::string> find_photo_damage(const Store& store) {
  std::vector<std::string> damage;
  for (const Photo& photo : all<Photo>(store)) {
    const fs::path file = photo_file(store, photo);
    if (!fs::exists(file)) {
      damage.push_back(file.string() + " is missing");
    } else if (sha256_hex(read_bytes(file)) != photo.sha256) {
      damage.push_back(file.string() + " was changed");
    }
  }
  return damage;
}

}  // namespace stillheap::record
