#include "core/base/ascii_low.hpp"

namespace stillheap {

std::string ascii_low(std::string_view text) {
  std::string made(text);
  for (char& c : made) c = ascii_low(c);
  return made;
}

}  // namespace stillheap
