#pragma once
// Two parts that meet in one joint, judged through the whole path: a template made here, the document readers,
// make_plan.

#include <map>
#include <optional>
#include <string>

#include "model/catalog.hpp"
#include "model/finding.hpp"

namespace cotter::kinds {

/// The catalog that the program ships with. Throws with its diagnostics when it cannot be read.
const model::Catalog& shipped_catalog();

/// A rule and where it stands.
struct RulePlace {
  const model::Rule* rule = nullptr;
  const model::InterfaceKind* own = nullptr;
  const model::InterfaceKind* other = nullptr;
};
/// By id, over the whole shipped catalog.
const std::map<std::string, RulePlace>& shipped_rules();

/// How the amounts of a pair are vouched for.
enum class Vouched { by_maker, assumed };

/// The two interfaces of a joint: fields as they stand in a document, either a value (`41 mm`) or a word. A dimension
/// that is not named is `?`.
struct Pair {
  std::map<std::string, std::string> own, other;
  Vouched vouched = Vouched::by_maker;
};

/// All findings of the joint, by rule. Throws with the diagnostics when the pair is no document.
std::map<std::string, model::Finding> findings_of(const RulePlace& place, const Pair& pair);

/// The same for two interfaces of parts of the catalog, each written `part.interface`.
std::map<std::string, model::Finding> findings_of(const std::string& own, const std::string& other);

}  // namespace cotter::kinds
