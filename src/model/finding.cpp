#include "model/finding.hpp"

#include "quantity/ensure.hpp"

namespace cotter::model {

std::string_view word_for(Verdict verdict) {
  switch (verdict) {
    case Verdict::ok:
      return "ok";
    case Verdict::accept:
      return "accept";
    case Verdict::add:
      return "add";
    case Verdict::measure:
      return "measure";
    case Verdict::rework:
      return "rework";
    case Verdict::stop:
      return "stop";
  }
  quantity::ensure(false, "a verdict outside its six words");
  return {};
}

bool has_margin(const Finding& finding) {
  return finding.result && finding.governs != Edge::none;
}

}  // namespace cotter::model
