#pragma once
#include <cstddef>
#include <filesystem>
#include <span>
#include <string>

namespace stillheap::sheet {

/// The program that turns frames into a film. It is run, not linked: only those who ask for a film need it.
inline constexpr const char* encoder_program = "ffmpeg";

struct FrameSize {
  int width = 0, height = 0;  ///< even numbers: the usual films ask for that
};

/// Throws InputError when the file's ending is neither .gif nor .mp4, and RunError when the encoder is not installed.
void check_encoder(const std::filesystem::path& file);

/// Hands frames to the encoder through a pipe. Until finish() the film stands under a temporary name beside its place;
/// without finish() it is thrown away.
class Encoder {
 public:
  /// Throws as check_encoder, and RunError when the encoder cannot be started.
  Encoder(const std::filesystem::path& file, FrameSize size, int frames_per_s);
  Encoder(const Encoder&) = delete;
  Encoder& operator=(const Encoder&) = delete;
  ~Encoder();

  /// One frame, four bytes a pixel as cairo's RGB24 holds them, rows without gaps. Throws RunError when the encoder
  /// has gone.
  void add(std::span<const std::byte> pixels);
  /// Waits for the encoder and puts the film in its place. Throws RunError, with the encoder's own words, when it
  /// failed.
  void finish();

 private:
  [[nodiscard]] std::string complaint() const;
  int wait_for_it() noexcept;

  std::filesystem::path file_, part_, words_;
  int pipe_ = -1;
  int process_ = -1;
};

}  // namespace stillheap::sheet
