// Any bytes as YAML: never a crash, a hang or a broken diagnostic.
#include "fuzz_support.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  return cotter::document::fuzz::run(data, size, cotter::document::Format::yaml);
}
