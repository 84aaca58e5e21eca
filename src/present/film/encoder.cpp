#include "present/film/encoder.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sstream>
#include <vector>

#include "core/base/error.hpp"

namespace stillheap::sheet {
namespace {

constexpr int not_ended = -1;

std::string ending(const std::filesystem::path& file) {
  std::string end = file.extension().string();
  std::transform(end.begin(), end.end(), end.begin(), [](unsigned char c) { return std::tolower(c); });
  return end;
}

bool is_installed(const std::string& program) {
  const char* const path = std::getenv("PATH");
  std::istringstream folders(path == nullptr ? "" : path);
  for (std::string folder; std::getline(folders, folder, ':');) {
    if (!folder.empty() && ::access((std::filesystem::path(folder) / program).c_str(), X_OK) == 0) return true;
  }
  return false;
}

/// GIF: one palette from all frames, no dither, so that a colour means the same on every day. MP4: H.264 with halved
/// colour, which every player reads. Bit-exact: the same frames give the same file.
std::vector<std::string> words_for(const std::filesystem::path& part, FrameSize size, int frames_per_s, bool gif) {
  std::vector<std::string> words{encoder_program,
                                 "-nostdin",
                                 "-y",
                                 "-loglevel",
                                 "error",
                                 "-f",
                                 "rawvideo",
                                 "-pixel_format",
                                 "bgr0",
                                 "-video_size",
                                 std::to_string(size.width) + "x" + std::to_string(size.height),
                                 "-framerate",
                                 std::to_string(frames_per_s),
                                 "-i",
                                 "pipe:0"};
  const std::vector<std::string> how =
      gif ? std::vector<std::string>{"-filter_complex",
                                     "split[a][b];[a]palettegen=stats_mode=full[p];[b][p]paletteuse=dither=none", "-f",
                                     "gif"}
          : std::vector<std::string>{"-c:v",     "libx264", "-threads",  "1",          "-crf", "20",
                                     "-pix_fmt", "yuv420p", "-movflags", "+faststart", "-f",   "mp4"};
  words.insert(words.end(), how.begin(), how.end());
  for (const char* const word : {"-fflags", "+bitexact", "-flags:v", "+bitexact"}) words.emplace_back(word);
  words.push_back(part.string());
  return words;
}

}  // namespace

void check_encoder(const std::filesystem::path& file) {
  const std::string end = ending(file);
  if (end != ".gif" && end != ".mp4") {
    throw InputError("--animation", "\"" + file.string() + "\" ends neither in .gif nor in .mp4",
                     "name the file for example inside.mp4");
  }
  if (!is_installed(encoder_program)) {
    throw RunError("--animation", std::string("needs the program ") + encoder_program + ", which is not installed",
                   std::string("install it (Debian: apt install ") + encoder_program + "), or leave the option out");
  }
}

Encoder::Encoder(const std::filesystem::path& file, FrameSize size, int frames_per_s)
    : file_(file), part_(file.string() + ".part"), words_(file.string() + ".log") {
  check_encoder(file);
  int ends[2] = {-1, -1};
  if (::pipe2(ends, O_CLOEXEC) != 0) throw RunError(file.string(), "no pipe can be opened", "close some programs");
  posix_spawn_file_actions_t actions{};
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, ends[0], STDIN_FILENO);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, words_.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
  std::vector<std::string> words = words_for(part_, size, frames_per_s, ending(file) == ".gif");
  std::vector<char*> arguments(words.size() + 1, nullptr);  // the last one ends the list
  std::transform(words.begin(), words.end(), arguments.begin(), [](std::string& word) { return word.data(); });
  pid_t process = -1;
  const int fault = ::posix_spawnp(&process, encoder_program, &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  ::close(ends[0]);
  pipe_ = ends[1];
  if (fault != 0) {
    ::close(pipe_);
    throw RunError(file.string(), std::string(encoder_program) + " cannot be started",
                   "check that the folder can be written");
  }
  process_ = process;
}

Encoder::~Encoder() {
  wait_for_it();
  std::error_code ignored;
  std::filesystem::remove(part_, ignored);
  std::filesystem::remove(words_, ignored);
}

std::string Encoder::complaint() const {
  std::ifstream in(words_);
  std::string text{std::istreambuf_iterator<char>(in), {}};
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text.empty() ? "it gave no reason" : text.substr(0, 300);
}

int Encoder::wait_for_it() noexcept {
  if (pipe_ >= 0) ::close(pipe_);
  pipe_ = -1;
  if (process_ < 0) return not_ended;
  int status = 0;
  while (::waitpid(process_, &status, 0) < 0 && errno == EINTR) {
  }
  process_ = -1;
  return status;
}

void Encoder::add(std::span<const std::byte> pixels) {
  // Writing to an encoder that has gone would raise SIGPIPE, which ends a program that does not expect it.
  const auto before = std::signal(SIGPIPE, SIG_IGN);
  bool good = true;
  while (good && !pixels.empty()) {
    const ssize_t written = ::write(pipe_, pixels.data(), pixels.size());
    if (written > 0) pixels = pixels.subspan(static_cast<std::size_t>(written));
    good = written > 0 || errno == EINTR;
  }
  std::signal(SIGPIPE, before);
  if (good) return;
  wait_for_it();
  throw RunError(file_.string(), std::string(encoder_program) + " stopped: " + complaint(),
                 "check that the folder can be written and the disk has room");
}

void Encoder::finish() {
  if (wait_for_it() != 0) {
    throw RunError(file_.string(), std::string(encoder_program) + " failed: " + complaint(),
                   "check that the folder can be written and the disk has room");
  }
  std::error_code fault;
  std::filesystem::rename(part_, file_, fault);
  if (fault) throw RunError(file_.string(), "cannot be written: " + fault.message(), "name another file");
}

}  // namespace stillheap::sheet
