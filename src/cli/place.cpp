#include "cli/place.hpp"

#include <cstdlib>
#include <filesystem>

namespace cotter::cli {

std::vector<std::string> catalogs(const std::vector<std::string>& named, const std::string& source_catalog,
                                  const char* program) {
  std::vector<std::string> all;
  const char* set = std::getenv("COTTER_CATALOG");
  std::error_code failed;
  const auto own = std::filesystem::canonical("/proc/self/exe", failed);
  const auto installed =
      (failed ? std::filesystem::path(program) : own).parent_path() / ".." / "share" / "cotter" / "catalog";
  if (set != nullptr && *set != '\0')
    all.emplace_back(set);
  else if (std::filesystem::is_directory(installed, failed))
    all.push_back(installed.lexically_normal().string());
  else
    all.push_back(source_catalog);
  all.insert(all.end(), named.begin(), named.end());
  return all;
}

}  // namespace cotter::cli
