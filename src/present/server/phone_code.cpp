#include "present/server/phone_code.hpp"

#include <qrencode.h>

#include <memory>

namespace stillheap::server {
namespace {

constexpr int quiet = 4;  // modules
constexpr const char* black_on_white = "\033[30;107m";
constexpr const char* as_before = "\033[0m";

bool is_dark(const QRcode& code, int row, int column) {
  if (row < 0 || column < 0 || row >= code.width || column >= code.width) return false;
  return (code.data[row * code.width + column] & 1U) != 0U;
}

const char* two_modules(bool upper, bool lower) {
  if (upper) return lower ? "\u2588" : "\u2580";
  return lower ? "\u2584" : " ";
}

}  // namespace

std::string phone_code(const std::string& address) {
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
      QRcode_encodeString(address.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, 1), &QRcode_free);
  if (code == nullptr) return {};
  std::string text;
  for (int row = -quiet; row < code->width + quiet; row += 2) {
    text += black_on_white;
    for (int column = -quiet; column < code->width + quiet; ++column) {
      text += two_modules(is_dark(*code, row, column), is_dark(*code, row + 1, column));
    }
    text += as_before;
    text += '\n';
  }
  return text;
}

}  // namespace stillheap::server
