// Any bytes as a table of parts against the shipped catalog: diagnostics, or a document that reads back to the same.
#include <cstdint>
#include <string_view>

#include "document/import_parts.hpp"
#include "document/parse.hpp"
#include "document/read_catalog.hpp"
#include "fuzz_support.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace cotter::document;
  static const auto k_catalog = read_catalog({COTTER_SOURCE_DIR "/catalog"});
  fuzz::require(k_catalog.has_value());
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto imported = import_parts(text, "parts.csv", *k_catalog);
  if (!imported) {
    fuzz::require(!imported.error().empty());
    fuzz::require_clean(imported.error());
    return 0;
  }
  const auto again = parse(write_parts_yaml(imported->document), "again.yaml", Format::yaml, {.bytes = 64u << 20});
  fuzz::require(again && *again->find("parts") == *imported->document.find("parts"));
  return 0;
}
