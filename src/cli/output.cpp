#include "cli/output.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sys/ioctl.h>
#include <unistd.h>

namespace cotter::cli {
namespace {

constexpr int k_width_without_terminal = 100;

bool write_file(const std::string& path, const std::string& text) {
  const std::string beside = path + ".part";
  bool whole = false;
  {
    std::ofstream file(beside, std::ios::binary | std::ios::trunc);
    file << text;
    file.flush();
    whole = static_cast<bool>(file);
  }
  std::error_code failed;
  if (whole) std::filesystem::rename(beside, path, failed);
  if (whole && !failed) return true;
  std::error_code ignored;
  std::filesystem::remove(beside, ignored);
  return false;
}

}  // namespace

int terminal_width() {
  int width = k_width_without_terminal;
  winsize size{};
  if (isatty(STDOUT_FILENO) != 0 && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
    width = size.ws_col;
  if (const char* columns = std::getenv("COLUMNS")) std::from_chars(columns, columns + std::strlen(columns), width);
  return std::clamp(width, 40, 160);
}

std::string time_now() {
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  std::array<char, 32> text{};
  if (gmtime_r(&now, &utc) == nullptr) return "";
  return std::string(text.data(), std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &utc));
}

bool wants_emphasis() {
  const char* no_color = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  return isatty(STDOUT_FILENO) != 0 && (no_color == nullptr || *no_color == '\0') &&
         (terminal == nullptr || std::strcmp(terminal, "dumb") != 0);
}

bool written() {
  std::cout.flush();
  if (std::cout) return true;
  std::cerr << "cotter: cannot write to standard output\n";
  return false;
}

int deliver(const session::Answer& answer, const std::string& output_file) {
  std::cerr << answer.trouble;
  if (answer.outcome == session::Outcome::bad_input) return k_bad_input;
  if (answer.outcome == session::Outcome::unwritten) return k_cannot_write;
  if (output_file.empty()) {
    std::cout << answer.text;
    if (!written()) return k_cannot_write;
  } else if (!write_file(output_file, answer.text)) {
    std::cerr << "cotter: cannot write " << output_file << "\n";
    return k_cannot_write;
  }
  return answer.outcome == session::Outcome::stopped ? k_stopped : k_done;
}

}  // namespace cotter::cli
