#include "plan/network.hpp"

#include <map>
#include <string>

#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

model::Finding head(const std::string& rule, const std::string& label, const std::string& about) {
  model::Finding finding;
  finding.rule = rule;
  finding.rule_label = label;
  finding.law = "connection";
  finding.id = finding_id(rule, {about});
  finding.subject = "lines";
  finding.may_pass = model::MayPass::nobody;
  return finding;
}

/// Places joined so far: each points at another of its tree, the root at itself.
class Trees {
 public:
  /// False when the two are in one tree already.
  bool join(const std::string& a, const std::string& b) {
    const std::string x = root(a), y = root(b);
    if (x == y) return false;
    above_[x] = y;
    return true;
  }

 private:
  std::string root(const std::string& place) {
    const auto found = above_.emplace(place, place).first;
    return found->second == place ? place : root(found->second);
  }

  std::map<std::string, std::string> above_;
};

std::string port_label(const Assembly& assembly, const std::string& place, const std::string& port) {
  const Seated* seated = assembly.place(assembly.template_name(place));
  return (seated == nullptr ? place : seated->form->label) + ", " + port;
}

}  // namespace

std::vector<model::Finding> network_findings(const Assembly& assembly) {
  std::vector<model::Finding> findings;
  std::map<std::string, std::string> taken;  // port -> line
  Trees trees;
  for (const model::LineWish& wish : assembly.job().sheet.lines) {
    const auto take = [&](const std::string& place, const std::string& port) {
      const auto [other, is_free] = taken.emplace(place + "." + port, wish.id);
      if (is_free) return;
      model::Finding finding = head("port", "a port takes one line", other->first + "," + wish.id);
      finding.verdict = model::Verdict::stop;
      finding.facts = {{"network.port_twice", ""},
                       {"port", port_label(assembly, place, port)},
                       {"a", other->second},
                       {"b", wish.id}};
      findings.push_back(std::move(finding));
    };
    take(wish.from_place, wish.from_port);
    take(wish.to_place, wish.to_port);
    if (trees.join(wish.from_place, wish.to_place)) continue;
    model::Finding finding = head("circle", "lines run in no circle", wish.id);
    finding.verdict = model::Verdict::stop;
    finding.facts = {{"network.circle", ""}, {"line", wish.id}};
    findings.push_back(std::move(finding));
  }
  if (findings.empty() && !assembly.job().sheet.lines.empty()) {
    findings.push_back(head("network", "every port takes one line, and no lines run in a circle", "lines"));
    findings.back().facts = {{"network.ok", ""}};
  }
  return findings;
}

}  // namespace cotter::plan
