#include "plan/unchecked.hpp"

#include <set>
#include <string>

namespace cotter::plan {
namespace {

bool judges_a_joint(const model::Finding& finding) {
  return finding.law != "place" && finding.law != "condition" && finding.law != "sequence";
}

}  // namespace

std::vector<model::UncheckedPlace> unchecked_places(const Assembly& assembly,
                                                    const std::vector<model::Finding>& findings) {
  std::set<std::string> judged;
  for (const model::Finding& finding : findings)
    if (judges_a_joint(finding))
      for (const model::InterfaceRef& ref : finding.about) judged.insert(ref.place);
  std::vector<model::UncheckedPlace> out;
  for (const Seated& seated : assembly.places())
    if (seated.part && !judged.contains(seated.id))
      out.push_back({seated.id, seated.form->label, seated.part->label, seated.form->unchecked});
  return out;
}

}  // namespace cotter::plan
