#include "plan/fit/fit_check.hpp"

#include "plan/finding_parts.hpp"

namespace cotter::plan {
namespace {

engine::fit::Operand operand(const std::string& role, const quantity::Value& value, bool fixed) {
  engine::fit::Operand out;
  out.role = role;
  out.range = value.range();
  out.nominal = value.nominal;
  out.dimension = value.dimension;
  out.attested = fixed || quantity::is_attested(value);
  out.known = value.origin.kind != quantity::OriginKind::unknown;
  return out;
}

std::string word_on(const Assembly& assembly, const model::InterfaceRef& side, const std::string& word) {
  const model::Interface* feature = assembly.interface(side);
  const auto found = feature->words.find(word);
  return found == feature->words.end() ? std::string() : found->second;
}

}  // namespace

engine::fit::Window window_of(const model::Window& window) {
  engine::fit::Window out;
  if (window.from) out.low = quantity::Mixed::from_base(window.from->nominal);
  if (window.to) out.high = quantity::Mixed::from_base(window.to->nominal);
  return out;
}

FitCheck fit_check(const Assembly& assembly, const model::Rule& rule, const Sides& sides) {
  FitCheck out;
  out.check.id = rule.id;
  out.check.law = *engine::fit::law_from_word(rule.law);
  out.check.must = window_of(rule.must);
  out.check.should = window_of(rule.should);
  for (const auto& [role, ref] : rule.operands) {
    if (ref.side == model::OperandRef::Side::fixed) {
      out.check.operands.push_back(operand(role, ref.fixed, true));
      out.values.push_back(named_fixed(role, ref.fixed));
      out.found.emplace_back();
      continue;
    }
    const model::InterfaceRef& side = ref.side == model::OperandRef::Side::own ? sides.own : sides.other;
    const auto found = assembly.value({side.place, side.interface, ref.dimension});
    if (!found) {
      out.missing = assembly.unstated({side.place, side.interface, ref.dimension});
      return out;
    }
    out.check.operands.push_back(operand(role, *found->value, false));
    out.values.push_back(named(role, *found));
    out.found.push_back(found);
  }
  for (const auto& [role, words] : rule.words) {
    const auto word = [&](const std::string& ref, const model::InterfaceRef& side) {
      return word_on(assembly, side, ref);
    };
    out.check.words[role] = {word(words.first, sides.own), word(words.second, sides.other)};
  }
  return out;
}

}  // namespace cotter::plan
