#include "cli/output.hpp"

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <cstring>
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
  {
    std::ofstream file(beside, std::ios::binary | std::ios::trunc);
    file << text;
    file.flush();
    if (!file) {
      std::error_code ignored;
      std::filesystem::remove(beside, ignored);
      return false;
    }
  }
  std::error_code failed;
  std::filesystem::rename(beside, path, failed);
  return !failed;
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

bool wants_emphasis() {
  const char* no_color = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  return isatty(STDOUT_FILENO) != 0 && (no_color == nullptr || *no_color == '\0') &&
         (terminal == nullptr || std::strcmp(terminal, "dumb") != 0);
}

int deliver(const session::Answer& answer, const std::string& output_file) {
  std::cerr << answer.trouble;
  if (answer.outcome == session::Outcome::bad_input) return k_bad_input;
  bool written = true;
  if (output_file.empty()) {
    std::cout << answer.text << std::flush;
    written = static_cast<bool>(std::cout);
  } else {
    written = write_file(output_file, answer.text);
  }
  if (!written) {
    std::cerr << "cotter: cannot write " << (output_file.empty() ? "to standard output" : output_file) << "\n";
    return k_cannot_write;
  }
  return answer.outcome == session::Outcome::stopped ? k_stopped : k_done;
}

}  // namespace cotter::cli
