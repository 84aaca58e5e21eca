#include "present/server/static_files.hpp"

#include <array>

#include "core/base/error.hpp"
#include "core/base/whole_file.hpp"

namespace stillheap::server {
namespace {

struct Kind {
  std::string_view ending, type;
};
constexpr std::array kinds{
    Kind{".html", "text/html; charset=utf-8"},
    Kind{".js", "text/javascript; charset=utf-8"},
    Kind{".css", "text/css; charset=utf-8"},
    Kind{".svg", "image/svg+xml"},
    Kind{".png", "image/png"},
    Kind{".webmanifest", "application/manifest+json"},
    Kind{".json", "application/json"},
    Kind{".woff2", "font/woff2"},
    Kind{".txt", "text/plain; charset=utf-8"},
};

std::string type_of(const std::string& path) {
  for (const Kind& kind : kinds) {
    if (path.ends_with(kind.ending)) return std::string(kind.type);
  }
  return "application/octet-stream";
}

Response read(const std::filesystem::path& file, const std::string& path) {
  Response made;
  made.body = read_whole_file(file);
  made.type = type_of(path);
  // Vite puts a hash into the names below assets/; all else is asked for anew each time.
  const bool hashed = path.starts_with("/assets/");
  made.headers.emplace_back("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
  return made;
}

}  // namespace

StaticFiles::StaticFiles(const std::filesystem::path& folder) {
  namespace fs = std::filesystem;
  if (!fs::is_regular_file(folder / "index.html")) {
    throw InputError(folder.string(), "holds no built page", "run tools/build-page, or name the folder with --page");
  }
  for (const fs::directory_entry& one : fs::recursive_directory_iterator(folder)) {
    if (!one.is_regular_file()) continue;
    const std::string path = "/" + fs::relative(one.path(), folder).generic_string();
    files_.emplace(path, read(one.path(), path));
  }
}

std::optional<Response> StaticFiles::find(const std::string& path) const {
  const auto found = files_.find(path == "/" ? "/index.html" : path);
  if (found == files_.end()) return std::nullopt;
  return found->second;
}

std::filesystem::path find_page_folder() {
  namespace fs = std::filesystem;
  std::error_code error;
  const fs::path bin = fs::read_symlink("/proc/self/exe", error).parent_path();
  if (error) return {};
  for (const fs::path& one : {bin / "../../../web/dist", bin / "../share/stillheap/page"}) {
    if (fs::is_regular_file(one / "index.html", error)) return fs::weakly_canonical(one);
  }
  return {};
}

}  // namespace stillheap::server
