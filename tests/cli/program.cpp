#include "program.hpp"

#include <algorithm>
#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <spawn.h>
#include <sstream>
#include <stdexcept>
#include <sys/wait.h>
#include <unistd.h>

namespace cotter::cli {
namespace {

std::vector<char*> pointers(std::vector<std::string>& texts) {
  std::vector<char*> out;
  for (std::string& text : texts) out.push_back(text.data());
  out.push_back(nullptr);
  return out;
}

/// What the program is to write into, and how it gets there.
class Redirection {
 public:
  Redirection(const std::string& output, const std::string& trouble, const std::filesystem::path& folder) {
    posix_spawn_file_actions_init(&actions_);
    posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions_, STDOUT_FILENO, output.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_addopen(&actions_, STDERR_FILENO, trouble.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_addchdir_np(&actions_, folder.c_str());
  }
  ~Redirection() { posix_spawn_file_actions_destroy(&actions_); }
  Redirection(const Redirection&) = delete;
  Redirection& operator=(const Redirection&) = delete;
  const posix_spawn_file_actions_t* actions() const { return &actions_; }

 private:
  posix_spawn_file_actions_t actions_{};
};

}  // namespace

Ended run_program(const std::string& program, const std::vector<std::string>& arguments,
                  const Surroundings& surroundings) {
  const TemporaryFolder caught;
  const std::string output =
      surroundings.standard_output.empty() ? (caught.path() / "output").string() : surroundings.standard_output;
  const std::string trouble = (caught.path() / "trouble").string();
  const Redirection redirection(output, trouble, surroundings.folder);
  std::vector<std::string> words{program};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<std::string> entries{"PATH=/usr/bin:/bin"};
  for (const auto& [name, value] : surroundings.environment) entries.push_back(name + "=" + value);
  pid_t child = 0;
  const int failed = posix_spawn(&child, program.c_str(), redirection.actions(), nullptr, pointers(words).data(),
                                 pointers(entries).data());
  if (failed != 0) throw std::runtime_error("cannot start " + program);
  int status = 0;
  waitpid(child, &status, 0);
  Ended ended;
  ended.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  if (surroundings.standard_output.empty()) ended.output = text_of(output);
  ended.trouble = text_of(trouble);
  return ended;
}

Ended run(const std::vector<std::string>& arguments, const Surroundings& surroundings) {
  return run_program(COTTER_PROGRAM, arguments, surroundings);
}

TemporaryFolder::TemporaryFolder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "cotter_test_XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary folder");
  path_ = pattern;
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::filesystem::path TemporaryFolder::write(const std::string& name, const std::string& text) const {
  const std::filesystem::path path = path_ / name;
  std::filesystem::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << text;
  return path;
}

std::vector<std::string> TemporaryFolder::names() const {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(path_)) names.push_back(entry.path().filename());
  std::sort(names.begin(), names.end());
  return names;
}

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string edited(const std::string& text, const std::string& old_text, const std::string& new_text) {
  const std::size_t at = text.find(old_text);
  if (at == std::string::npos || text.find(old_text, at + 1) != std::string::npos)
    throw std::runtime_error("does not stand there exactly once: " + old_text);
  return std::string(text).replace(at, old_text.size(), new_text);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::filesystem::path example(const std::string& name) {
  return std::filesystem::path(COTTER_SOURCE_DIR) / "examples" / (name + ".yaml");
}

}  // namespace cotter::cli
