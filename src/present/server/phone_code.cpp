#include "present/server/phone_code.hpp"

#include "present/draw/qr.hpp"

namespace stillheap::server {
namespace {

constexpr const char* black_on_white = "\033[30;107m";
constexpr const char* as_before = "\033[0m";

const char* two_modules(bool upper, bool lower) {
  if (upper) return lower ? "\u2588" : "\u2580";
  return lower ? "\u2584" : " ";
}

}  // namespace

std::string phone_code(const std::string& address) {
  const auto modules = sheet::qr_modules(address);
  if (modules.empty()) return {};
  const int width = static_cast<int>(modules.size());
  const auto is_dark = [&](int row, int column) {
    return row >= 0 && column >= 0 && row < width && column < width && modules[row][column];
  };
  std::string text;
  for (int row = -sheet::qr_quiet; row < width + sheet::qr_quiet; row += 2) {
    text += black_on_white;
    for (int column = -sheet::qr_quiet; column < width + sheet::qr_quiet; ++column) {
      text += two_modules(is_dark(row, column), is_dark(row + 1, column));
    }
    text += as_before;
    text += '\n';
  }
  return text;
}

}  // namespace stillheap::server
