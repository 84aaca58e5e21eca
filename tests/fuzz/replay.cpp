#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

/// Runs a fuzz target over kept inputs, and over changes of them that are the same every time: what runs where there
/// is no libFuzzer. Usage: replay_TARGET KEEP CHANGES FOLDER...  KEEP: where the input at work is written at a
/// crash; CHANGES: how many changed inputs to try.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

namespace fs = std::filesystem;
using Bytes = std::vector<std::uint8_t>;

Bytes read(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<Bytes> read_folders(char** begin, char** end) {
  std::vector<fs::path> files;
  for (char** folder = begin; folder != end; ++folder) {
    for (const auto& one : fs::directory_iterator(*folder)) {
      if (one.is_regular_file()) files.push_back(one.path());
    }
  }
  std::sort(files.begin(), files.end());
  std::vector<Bytes> inputs;
  for (const fs::path& file : files) inputs.push_back(read(file));
  return inputs;
}

std::size_t pick(std::mt19937_64& random, std::size_t below) { return below == 0 ? 0 : random() % below; }

/// One small change: a byte flipped, cut out, doubled, set to an awkward value, or a piece of another input put in.
void change(Bytes& bytes, const std::vector<Bytes>& inputs, std::mt19937_64& random) {
  constexpr std::uint8_t awkward[] = {0,   1,   127,  128, 255, '"', '\'', '-', '.',
                                      '0', '9', '\n', '[', '{', '=', ',',  'e'};
  const std::size_t at = pick(random, bytes.size());
  const std::size_t length = 1 + pick(random, std::min<std::size_t>(bytes.size() - at, 64));
  const auto place = bytes.begin() + static_cast<std::ptrdiff_t>(at);
  switch (random() % 5) {
    case 0:
      if (!bytes.empty()) bytes[at] = static_cast<std::uint8_t>(bytes[at] ^ (1U << (random() % 8)));
      break;
    case 1:
      if (!bytes.empty()) bytes.erase(place, place + static_cast<std::ptrdiff_t>(std::min(length, bytes.size() - at)));
      break;
    case 2:
      bytes.insert(place, awkward[pick(random, std::size(awkward))]);
      break;
    case 3:
      if (!bytes.empty()) bytes[at] = awkward[pick(random, std::size(awkward))];
      break;
    default: {
      const Bytes& other = inputs[pick(random, inputs.size())];
      const std::size_t from = pick(random, other.size());
      const std::size_t count = std::min<std::size_t>(length, other.size() - from);
      bytes.insert(place, other.begin() + static_cast<std::ptrdiff_t>(from),
                   other.begin() + static_cast<std::ptrdiff_t>(from + count));
    }
  }
}

// What the handler of a crash writes down: it may allocate nothing.
const std::uint8_t* at_work = nullptr;
std::size_t at_work_bytes = 0;
const char* keep_as = nullptr;

extern "C" void keep_input(int signal) {
  const int file = ::open(keep_as, O_WRONLY | O_CREAT | O_TRUNC, 0644);
  if (file >= 0 && ::write(file, at_work, at_work_bytes) >= 0) ::close(file);
  std::signal(signal, SIG_DFL);
  ::raise(signal);
}

void run(const Bytes& bytes) {
  // A copy of the very size, so that reading past its end is seen.
  const std::vector<std::uint8_t> exact(bytes);
  at_work = exact.data();
  at_work_bytes = exact.size();
  (void)LLVMFuzzerTestOneInput(exact.data(), exact.size());
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) {
    std::fputs("replay_TARGET KEEP CHANGES FOLDER...\n", stderr);
    return 2;
  }
  keep_as = argv[1];
  for (const int one : {SIGABRT, SIGSEGV, SIGFPE, SIGBUS}) std::signal(one, keep_input);
  const std::vector<Bytes> inputs = read_folders(argv + 3, argv + argc);
  const int changes = std::atoi(argv[2]);
  if (inputs.empty()) {
    std::fputs("no input: nothing would be tested\n", stderr);
    return 1;
  }
  for (const Bytes& one : inputs) run(one);
  std::mt19937_64 random(20261125);
  for (int i = 0; i < changes; ++i) {
    Bytes bytes = inputs[pick(random, inputs.size())];
    for (std::size_t times = 1 + random() % 4; times > 0; --times) change(bytes, inputs, random);
    run(bytes);
  }
  std::printf("%zu kept inputs and %d changes of them\n", inputs.size(), changes);
}
