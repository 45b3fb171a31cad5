// Any text as a job against the shipped catalog: diagnostics or a plan, never a throw, a crash or a hang.
#include <cstdint>
#include <string_view>

#include "document/parse.hpp"
#include "document/read_catalog.hpp"
#include "document/read_job.hpp"
#include "plan/make_plan.hpp"
#include "words/plan_words.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace cotter;
  static const auto k_catalog = document::read_catalog({COTTER_SOURCE_DIR "/catalog"});
  if (!k_catalog) __builtin_trap();
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto node = document::parse(text, "job.yaml", document::Format::yaml);
  if (!node) return 0;
  const auto job = document::read_job(*node, "job.yaml", *k_catalog);
  if (!job) return 0;
  const model::Plan plan = plan::make_plan(*job, *k_catalog, {"fuzz", ""});
  if (words::plan_text(plan).empty()) __builtin_trap();
  return 0;
}
