#include "document/read_rules.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

#include "document/read_value.hpp"

namespace cotter::document {
namespace {

using model::Guards;
using model::MayPass;

Guards guards_of(const std::string& word) {
  if (word == "brake") return Guards::brake;
  if (word == "steering") return Guards::steering;
  if (word == "axle") return Guards::axle;
  if (word == "insertion") return Guards::insertion;
  if (word == "pressure") return Guards::pressure;
  return word == "composite" ? Guards::composite : Guards::nothing;
}

}  // namespace

model::Window read_window(const Spot& spot, Diagnostics& diagnostics) {
  model::Window window{read_any_value(spot.at("from"), diagnostics), read_any_value(spot.at("to"), diagnostics)};
  if (!window.from || !window.to) return window;
  if (window.from->dimension != window.to->dimension) {
    report(diagnostics, spot.at("to"), "bad_value", "The ends of the window are of two kinds of quantity.",
           fmt::format("a {}, as `from`", quantity::word_for(window.from->dimension)));
  } else if (window.to->nominal < window.from->nominal) {
    report(diagnostics, spot.at("to"), "out_of_range", "The window ends before it starts.",
           fmt::format("at least {}", shown(*window.from)));
  }
  return window;
}

void require_dimension(const Spot& spot, const model::Window& window, const std::vector<quantity::Dimension>& accepted,
                       Diagnostics& diagnostics) {
  // Ends of two kinds were reported when the window was read.
  if (window.from && window.to && window.from->dimension != window.to->dimension) return;
  const auto require = [&](const char* key, const std::optional<quantity::Value>& value) {
    if (!value || std::find(accepted.begin(), accepted.end(), value->dimension) != accepted.end()) return;
    std::string words;
    const std::set<quantity::Dimension> kinds(accepted.begin(), accepted.end());
    for (const quantity::Dimension dimension : kinds)
      words += fmt::format("{}a {}", words.empty() ? "" : ", or ", quantity::word_for(dimension));
    report(diagnostics, spot.at(key), "bad_value", "The limit is of another kind of quantity than what it limits.",
           words);
  };
  require("from", window.from);
  require("to", window.to);
}

model::Outcome read_outcome(const Spot& spot, const std::vector<std::string>& operations, Diagnostics& diagnostics) {
  model::Outcome outcome;
  outcome.advice = spot.at("advice").text();
  const std::string says = spot.at("says").text();
  if (says != "rework" && says != "add") return outcome;
  outcome.kind = says == "rework" ? model::Outcome::Kind::rework : model::Outcome::Kind::add;
  const char* field = says == "rework" ? "do" : "part";
  outcome.operation = spot.at(field).text();
  if (!spot.at(field).exists())
    report(diagnostics, spot.at(field), "missing_field", fmt::format("`says: {}` needs the field `{}`.", says, field),
           says == "rework" ? "the operation that is permitted" : "what would mend it");
  const bool known = std::find(operations.begin(), operations.end(), outcome.operation) != operations.end();
  if (says == "rework" && spot.at("do").is_scalar() && !known)
    report_unknown(diagnostics, spot.at("do"), "operation", operations);
  return outcome;
}

model::Source read_source(const Spot& spot, Diagnostics& diagnostics) {
  model::Source source;
  if (!spot.is_map()) return source;
  int named = spot.at("common_practice").flag(false) ? 1 : 0;
  const auto take = [&](const char* field, model::Source::Kind kind) {
    if (!spot.at(field).exists()) return;
    ++named;
    source = {kind, spot.at(field).text()};
  };
  take("standard", model::Source::Kind::standard);
  take("maker", model::Source::Kind::maker);
  take("handbook", model::Source::Kind::handbook);
  if (named != 1)
    report(diagnostics, spot, named == 0 ? "missing_field" : "too_many", "A source is exactly one thing.",
           "one of: standard, maker, handbook, common_practice: true");
  return source;
}

Protection read_protection(const Spot& rule, Diagnostics& diagnostics) {
  Protection protection;
  protection.guards = guards_of(rule.at("guards").text());
  const bool guarded = protection.guards != Guards::nothing;
  const std::string word = rule.at("may_pass").text(guarded ? "nobody" : "mechanic");
  if (word == "nobody") protection.may_pass = MayPass::nobody;
  if (word == "maker") protection.may_pass = MayPass::maker;
  if (guarded && word == "mechanic")
    report(diagnostics, rule.at("may_pass"), "bad_value",
           fmt::format("A limit that guards `{}` may not be passed by a mechanic.", rule.at("guards").text()),
           "nobody or maker");
  return protection;
}

}  // namespace cotter::document
