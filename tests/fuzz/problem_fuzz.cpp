// Any text as a problem of any engine: the first byte picks the engine, the rest is JSON.
#include <cstdint>
#include <string_view>

#include "document/parse.hpp"
#include "problem/engines.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace cotter;
  if (size == 0) return 0;
  const auto& engines = problem::engines();
  const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
  const auto node = document::parse(text, "problem.json", document::Format::json);
  if (!node) return 0;
  // Seeds begin with a digit: '0' is the first engine.
  const auto result = engines[(data[0] + 256U - '0') % engines.size()].solve(*node, "problem.json");
  if (result) document::write_json(*result);
  return 0;
}
