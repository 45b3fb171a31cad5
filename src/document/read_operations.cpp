#include "document/read_operations.hpp"

namespace cotter::document {
namespace {

model::Reversible reversible_of(const std::string& word) {
  if (word == "no") return model::Reversible::no;
  return word == "costly" ? model::Reversible::costly : model::Reversible::yes;
}

/// A group is one access, or a list of which any one is enough.
std::vector<std::vector<std::string>> read_groups(const Spot& list) {
  std::vector<std::vector<std::string>> groups;
  for (const Spot& item : list.items())
    groups.push_back(item.is_list() ? item.texts() : std::vector<std::string>{item.text()});
  return groups;
}

model::Operation read_operation(const Spot& spot) {
  model::Operation operation;
  operation.id = spot.at("id").text();
  operation.label = spot.at("label").text();
  operation.phase = spot.at("phase").text();
  operation.when = spot.at("when").texts();
  operation.after = spot.at("after").texts();
  operation.needs_open = read_groups(spot.at("needs_open"));
  operation.opens = spot.at("opens").texts();
  operation.closes = spot.at("closes").texts();
  operation.tools = spot.at("tools").texts();
  operation.position = spot.at("position").text();
  operation.minutes = spot.at("minutes").hundredths();
  operation.reversible = reversible_of(spot.at("reversible").text());
  operation.hold_point = spot.at("hold").exists();
  operation.evidence = spot.at("hold").text();
  operation.check = spot.at("check").text();
  operation.caution = spot.at("caution").text();
  return operation;
}

void require_names(const Spot& list, std::string_view noun, const Names& names, Diagnostics& diagnostics) {
  for (const Spot& item : list.items())
    if (item.is_scalar() && !names.contains(item.text())) report_unknown(diagnostics, item, noun, names_of(names));
}

}  // namespace

void read_operations(const Spot& document, model::OperationCatalog& work, OperationNames& names,
                     Diagnostics& diagnostics) {
  for (const Spot& item : document.at("accesses").items()) {
    claim(item.at("id"), "access", names.accesses, diagnostics);
    work.accesses.push_back({item.at("id").text(), item.at("label").text(), item.at("open").flag(true)});
  }
  for (const Spot& item : document.at("operations").items()) {
    claim(item.at("id"), "operation", names.operations, diagnostics);
    work.operations.push_back(read_operation(item));
  }
}

void check_operations(const Spot& document, const OperationNames& names, const FactNames& facts,
                      Diagnostics& diagnostics) {
  for (const Spot& item : document.at("operations").items()) {
    require_names(item.at("after"), "operation", names.operations, diagnostics);
    for (const Spot& group : item.at("needs_open").items())
      if (group.is_scalar() && !names.accesses.contains(group.text())) {
        report_unknown(diagnostics, group, "access", names_of(names.accesses));
      } else {
        require_names(group, "access", names.accesses, diagnostics);
      }
    require_names(item.at("opens"), "access", names.accesses, diagnostics);
    require_names(item.at("closes"), "access", names.accesses, diagnostics);
    for (const Spot& fact : item.at("when").items()) check_fact(fact, facts, diagnostics);
  }
}

}  // namespace cotter::document
