#include "model/catalog.hpp"

#include <algorithm>

namespace cotter::model {
namespace {

const Meeting* declared_by(const Catalog& catalog, const std::string& declaring, const std::string& met) {
  const auto kind = catalog.kinds.find(declaring);
  if (kind == catalog.kinds.end()) return nullptr;
  const auto& meets = kind->second.meets;
  const auto found =
      std::find_if(meets.begin(), meets.end(), [&](const Meeting& meeting) { return meeting.kind == met; });
  return found == meets.end() ? nullptr : &*found;
}

}  // namespace

std::string kind_label(const Catalog& catalog, const std::string& kind) {
  const auto found = catalog.kinds.find(kind);
  return found == catalog.kinds.end() ? kind : found->second.label;
}

MeetingRef find_meeting(const Catalog& catalog, const std::string& kind_a, const std::string& kind_b) {
  if (const Meeting* meeting = declared_by(catalog, kind_a, kind_b)) return {meeting, false};
  if (const Meeting* meeting = declared_by(catalog, kind_b, kind_a)) return {meeting, true};
  return {};
}

}  // namespace cotter::model
