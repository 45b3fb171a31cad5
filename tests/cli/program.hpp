#pragma once
// The real program, run from outside: arguments and surroundings in, standard output, standard error and exit code out.

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace cotter::cli {

/// What surrounds a run. Nothing of the tester's own environment reaches the program but what is written here.
struct Surroundings {
  std::map<std::string, std::string> environment{};
  std::filesystem::path folder = COTTER_SOURCE_DIR;
  std::string standard_output{};  ///< a file to send it to, /dev/full for one; empty: it is caught
};

struct Ended {
  int exit_code = -1;  ///< -1: ended by a signal
  std::string output;
  std::string trouble;
};

Ended run(const std::vector<std::string>& arguments, const Surroundings& surroundings = {});
/// Another program by its path, in the same way.
Ended run_program(const std::string& program, const std::vector<std::string>& arguments,
                  const Surroundings& surroundings = {});

/// A folder that is gone after the test.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  /// Writes a file, with the folders above it; gives its path.
  std::filesystem::path write(const std::string& name, const std::string& text) const;
  std::vector<std::string> names() const;

 private:
  std::filesystem::path path_;
};

std::string text_of(const std::filesystem::path& path);
/// `text` with `old_text`, which must stand in it exactly once, replaced.
std::string edited(const std::string& text, const std::string& old_text, const std::string& new_text);
std::vector<std::string> lines_of(const std::string& text);
/// An example of the repository, by its name without ending.
std::filesystem::path example(const std::string& name);

}  // namespace cotter::cli
