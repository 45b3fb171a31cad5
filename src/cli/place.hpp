#pragma once
// Where the catalog lies when nobody says.

#include <string>
#include <vector>

namespace cotter::cli {

/// The shipped catalog first, then the ones the caller names. The shipped one is, in this order: the folder of the
/// environment variable COTTER_CATALOG; `../share/cotter/catalog` beside the program; the source tree it was built
/// from.
std::vector<std::string> catalogs(const std::vector<std::string>& named, const std::string& source_catalog,
                                  const char* program);

}  // namespace cotter::cli
