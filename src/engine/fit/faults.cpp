#include <algorithm>
#include <set>

#include "engine/fit/judge_parts.hpp"
#include "engine/fit/solve.hpp"

namespace cotter::engine::fit {
namespace {

using Kind = Fault::Kind;

std::string joined(const std::vector<std::string_view>& names) {
  std::string text;
  for (const std::string_view name : names) text += (text.empty() ? "" : ", ") + std::string(name);
  return text.empty() ? "nothing" : text;
}

std::string accepted_roles(const LawSpec& spec) {
  std::vector<std::string_view> names;
  for (const RoleSpec& role : spec.roles) names.push_back(role.name);
  if (!spec.parameter.empty()) names.push_back(spec.parameter);
  return joined(names);
}

std::string accepted_words(const LawSpec& spec) {
  std::vector<std::string_view> names;
  for (const WordSpec& word : spec.words) names.push_back(word.name);
  return joined(names);
}

bool in_bounds(Mixed amount) {
  return -k_most_base_units <= amount.base() && amount.base() <= k_most_base_units;
}

class Inspector {
 public:
  explicit Inspector(const Check& check) : check_(check), spec_(law_spec(check.law)) {}

  std::vector<Fault> read() {
    read_operands();
    read_words();
    read_parameters();
    read_window(check_.must, "must");
    read_window(check_.should, "should");
    return std::move(faults_);
  }

 private:
  void add(Kind kind, std::string_view name, std::string accepted) {
    faults_.push_back({kind, std::string(name), std::move(accepted)});
  }

  void read_operands() {
    std::set<std::string_view> seen;
    for (const Operand& operand : check_.operands) {
      if (!seen.insert(operand.role).second) add(Kind::double_role, operand.role, "each role once");
      if (!spec_.parameter.empty() && operand.role == spec_.parameter) continue;
      if (const auto index = role_index(spec_, operand.role))
        read_operand(operand, spec_.roles[*index]);
      else
        add(Kind::unknown_role, operand.role, accepted_roles(spec_));
    }
    for (const RoleSpec& role : spec_.roles)
      if (!seen.contains(role.name)) add(Kind::missing_role, role.name, accepted_roles(spec_));
  }

  void read_operand(const Operand& operand, const RoleSpec& role) {
    if (!in_bounds(operand.range.low()) || !in_bounds(operand.range.high()))
      add(Kind::out_of_bounds, operand.role, "at most 1e15 base units");
    if (!role.dimension && !common_) common_ = operand.dimension;
    const Dimension wanted = role.dimension ? *role.dimension : *common_;
    if (operand.dimension != wanted) add(Kind::wrong_dimension, operand.role, std::string(quantity::word_for(wanted)));
  }

  void read_words() {
    for (const auto& [name, words] : check_.words)
      if (std::ranges::none_of(spec_.words, [&, key = name](const WordSpec& word) { return word.name == key; }))
        add(Kind::unknown_word, name, accepted_words(spec_));
    for (const WordSpec& word : spec_.words)
      if (word.required && !check_.words.contains(std::string(word.name)))
        add(Kind::missing_word, word.name, accepted_words(spec_));
  }

  void read_parameters() {
    for (const auto& [name, value] : check_.parameters)
      if (name != spec_.parameter)
        add(Kind::bad_parameter, name, spec_.parameter.empty() ? "nothing" : std::string(spec_.parameter));
    if (spec_.parameter.empty()) return;
    const auto value = parameter_of(check_, spec_);
    if (!value)
      add(Kind::missing_parameter, spec_.parameter, "an exact whole number");
    else if (*value < 1 || *value > k_most_parameter)
      add(Kind::bad_parameter, spec_.parameter, "1 to " + std::to_string(k_most_parameter));
  }

  void read_window(const Window& window, std::string_view name) {
    if (!window.low && !window.high) return;
    if (spec_.number.empty()) add(Kind::window_without_number, name, "no window: the law compares words only");
    for (const auto& end : {window.low, window.high})
      if (end && !in_bounds(*end)) add(Kind::out_of_bounds, name, "at most 1e15 base units");
    if (window.low && window.high && *window.low > *window.high)
      add(Kind::window_swapped, name, "`from` no greater than `to`");
  }

  const Check& check_;
  const LawSpec& spec_;
  std::optional<Dimension> common_;
  std::vector<Fault> faults_;
};

}  // namespace

std::optional<std::int64_t> parameter_of(const Check& check, const LawSpec& spec) {
  if (const auto found = check.parameters.find(std::string(spec.parameter)); found != check.parameters.end())
    return found->second;
  for (const Operand& operand : check.operands)
    if (operand.role == spec.parameter && operand.dimension == Dimension::count &&
        operand.range.low() == operand.range.high())
      return operand.range.low().base();
  return std::nullopt;
}

std::vector<Fault> faults(const Check& check) {
  return Inspector(check).read();
}

}  // namespace cotter::engine::fit
