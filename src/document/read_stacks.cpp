// Stacks of a bicycle template.

#include <algorithm>
#include <fmt/format.h>

#include "document/read_bicycle.hpp"
#include "document/read_parts.hpp"
#include "document/read_rules.hpp"

namespace cotter::document {
namespace {

using quantity::Dimension;

/// Reads one stack; a form may name only the terms and slots of its own stack.
class StackReader {
 public:
  StackReader(const TemplateNames& names, Diagnostics& diagnostics)
      : places_(names.places), operations_(names.operations), diagnostics_(diagnostics) {}

  model::StackDefinition read(const Spot& spot);

 private:
  model::StackTerm read_term(const Spot& spot);
  model::StackForm read_form(const Spot& spot);
  void read_limits(const Spot& spot, model::StackForm& form);
  std::map<std::string, int> read_factors(const Spot& spot, std::string_view noun,
                                          const std::vector<std::string>& known);
  std::optional<model::ValueRef> read_limit_ref(const Spot& form, const char* key, const char* end);

  const std::vector<std::string>& places_;
  const std::vector<std::string>& operations_;
  Diagnostics& diagnostics_;
  std::vector<std::string> term_ids_;
  std::vector<std::string> slot_ids_;
};

model::StackTerm StackReader::read_term(const Spot& spot) {
  model::StackTerm term;
  term.id = spot.at("id").text();
  term.label = spot.at("label").text();
  const bool has_value = spot.at("value").exists();
  if (has_value == spot.at("fixed").exists())
    report(diagnostics_, spot, has_value ? "too_many" : "missing_field",
           "A term is a dimension of a part or a fixed length.",
           "`value: place.interface.dimension`, or `fixed: 3 mm`");
  if (auto ref = read_value_ref(spot.at("value"), places_, diagnostics_)) term.value = std::move(*ref);
  term.fixed = read_number(spot.at("fixed"), Dimension::length, Sign::any, {}, diagnostics_);
  return term;
}

std::map<std::string, int> StackReader::read_factors(const Spot& spot, std::string_view noun,
                                                     const std::vector<std::string>& known) {
  std::map<std::string, int> factors;
  for (const SpotEntry& entry : spot.entries()) {
    if (std::find(known.begin(), known.end(), entry.key) == known.end())
      report_unknown(diagnostics_, entry.name, noun, known);
    factors[entry.key] = static_cast<int>(std::clamp<std::int64_t>(entry.value.integer(0), -100, 100));
  }
  return factors;
}

/// A limit taken from a part; then the window may not write the same end.
std::optional<model::ValueRef> StackReader::read_limit_ref(const Spot& form, const char* key, const char* end) {
  const Spot written = form.at("must").at(end);
  if (form.at(key).exists() && written.exists())
    report(diagnostics_, written, "too_many", fmt::format("This limit is already taken from a part by `{}`.", key),
           "one of the two");
  return read_value_ref(form.at(key), places_, diagnostics_);
}

void StackReader::read_limits(const Spot& spot, model::StackForm& form) {
  form.must_from = read_limit_ref(spot, "must_from", "from");
  form.must_to = read_limit_ref(spot, "must_to", "to");
  form.must = read_window(spot.at("must"), diagnostics_);
  form.should = read_window(spot.at("should"), diagnostics_);
  require_dimension(spot.at("must"), form.must, {Dimension::length}, diagnostics_);
  require_dimension(spot.at("should"), form.should, {Dimension::length}, diagnostics_);
  form.target = read_number(spot.at("target"), Dimension::length, Sign::any, {}, diagnostics_);
  form.target_from = read_value_ref(spot.at("target_from"), places_, diagnostics_);
}

model::StackForm StackReader::read_form(const Spot& spot) {
  model::StackForm form;
  form.id = spot.at("id").text();
  form.label = spot.at("label").text();
  form.terms = read_factors(spot.at("terms"), "term", term_ids_);
  form.slots = read_factors(spot.at("slots"), "slot", slot_ids_);
  form.halved = spot.at("halved").flag(false);
  form.cut = spot.at("cut").flag(false);
  form.when = spot.at("when").texts();
  form.late = spot.at("late").hundredths();
  form.spoils = read_spoilt(spot.at("spoils"), places_, diagnostics_);
  read_limits(spot, form);
  form.below = read_outcome(spot.at("below"), operations_, diagnostics_);
  form.above = read_outcome(spot.at("above"), operations_, diagnostics_);
  const Protection protection = read_protection(spot, diagnostics_);
  form.guards = protection.guards;
  form.may_pass = protection.may_pass;
  form.source = read_source(spot.at("source"), diagnostics_);
  return form;
}

model::StackDefinition StackReader::read(const Spot& spot) {
  model::StackDefinition stack;
  stack.id = spot.at("id").text();
  stack.label = spot.at("label").text();
  stack.when = spot.at("when").texts();
  IdList terms("term", diagnostics_);
  for (const Spot& item : spot.at("terms").items()) {
    terms.add(item.at("id"));
    stack.terms.push_back(read_term(item));
    term_ids_.push_back(stack.terms.back().id);
  }
  IdList slots("slot", diagnostics_);
  for (const Spot& item : spot.at("slots").items()) {
    slots.add(item.at("id"));
    slot_ids_.push_back(item.at("id").text());
    stack.slots.push_back({item.at("id").text(), item.at("label").text(), item.at("piece").text(),
                           item.at("most").integer(0), read_value_ref(item.at("round"), places_, diagnostics_),
                           item.at("when").texts()});
  }
  IdList form_ids("form", diagnostics_);
  for (const Spot& item : spot.at("forms").items()) {
    form_ids.add(item.at("id"));
    stack.forms.push_back(read_form(item));
  }
  return stack;
}

}  // namespace

std::vector<model::StackDefinition> read_stacks(const Spot& list, const TemplateNames& names,
                                                Diagnostics& diagnostics) {
  std::vector<model::StackDefinition> stacks;
  IdList stack_ids("stack", diagnostics);
  for (const Spot& item : list.items()) {
    stack_ids.add(item.at("id"));
    stacks.push_back(StackReader(names, diagnostics).read(item));
  }
  return stacks;
}

}  // namespace cotter::document
