// The conditions of operations: `place:front_derailleur`, `kind:frame.shell_right=press_shell`, `!line:hose`.

#include <algorithm>

#include "document/read_bicycle.hpp"
#include "document/read_operations.hpp"
#include "document/schema_words.hpp"
#include "document/schemas_fields.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

/// What stands around the first `mark` of a text; the second half is empty when there is none.
std::pair<std::string, std::string> split_at(const std::string& text, char mark) {
  const std::size_t at = text.find(mark);
  if (at == std::string::npos) return {text, ""};
  return {text.substr(0, at), text.substr(at + 1)};
}

struct Fact {
  std::string word;     ///< before the colon
  std::string subject;  ///< behind it
  std::string equals;   ///< behind the equals sign
};

Fact fact_in(std::string text) {
  if (text.starts_with('!')) text.erase(0, 1);
  const auto [word, rest] = split_at(text, ':');
  const auto [subject, equals] = split_at(rest, '=');
  return {word, subject, equals};
}

class FactChecker {
 public:
  FactChecker(const Spot& spot, Diagnostics& diagnostics) : spot_(spot), diagnostics_(diagnostics) {}

  void require(std::string_view noun, const std::string& name, const std::vector<std::string>& known) const {
    if (std::find(known.begin(), known.end(), name) != known.end()) return;
    report(diagnostics_, spot_, "unknown_name", "There is no " + std::string(noun) + " named `" + name + "`.",
           comma_list(known), quantity::nearest_word(name, known).value_or(""));
  }
  void refuse(const std::string& accepted) const {
    report(diagnostics_, spot_, "unknown_word", "This is not a fact that can be asked for here.", accepted);
  }

 private:
  const Spot& spot_;
  Diagnostics& diagnostics_;
};

constexpr const char* k_place_facts =
    "place:<place>, open:<place>, kind:<place.interface>=<kind>, family:<place>=<family>, "
    "material:<place>=<material>, hand:left=<front or rear>, each with `!` in front for its opposite";
constexpr const char* k_facts =
    "place:<place>, open:<place>, line:<wire, hose or housing>, kind:<place.interface>=<kind>, "
    "family:<place>=<family>, "
    "material:<place>=<material>, cut:<form>, rework:<operation>, shell_lines, pulled_lines, used_parts, each with `!` "
    "in front for "
    "its opposite";

}  // namespace

FactNames fact_names(const std::map<std::string, model::Bicycle>& bicycles, const Kinds& kinds,
                     const OperationNames& work) {
  FactNames names;
  for (const auto& [id, bicycle] : bicycles) {
    for (const model::PlaceForm& place : bicycle.places) names.places.push_back(place.id);
    for (const model::StackDefinition& stack : bicycle.stacks)
      for (const model::StackForm& form : stack.forms)
        if (form.cut) names.cut_forms.push_back(form.id);
  }
  names.kinds = names_of(kinds);
  names.operations = names_of(work.operations);
  return names;
}

void check_fact(const Spot& spot, const FactNames& names, Diagnostics& diagnostics) {
  if (!spot.is_scalar()) return;
  const Fact fact = fact_in(spot.text());
  const FactChecker checker(spot, diagnostics);
  const bool alone = fact.word == "shell_lines" || fact.word == "pulled_lines" || fact.word == "used_parts";
  if (alone && fact.subject.empty()) return;
  if (fact.word == "hand" && fact.subject == "left") return checker.require("brake", fact.equals, {"front", "rear"});
  if (fact.word == "line") return checker.require("kind of line", fact.subject, {"wire", "hose", "housing"});
  if (fact.word == "rework") return checker.require("operation", fact.subject, names.operations);
  if (fact.word == "cut") return checker.require("cut", fact.subject, names.cut_forms);
  if (fact.word == "place" || fact.word == "open") return checker.require("place", fact.subject, names.places);
  if ((fact.word != "kind" && fact.word != "family" && fact.word != "material") || fact.equals.empty())
    return checker.refuse(k_facts);
  const auto interface = dotted(fact.subject, 2);
  if (fact.word == "kind" && interface.empty()) return checker.refuse("`kind:<place.interface>=<kind>`");
  checker.require("place", fact.word == "kind" ? interface[0] : fact.subject, names.places);
  if (fact.word == "kind") checker.require("interface kind", fact.equals, names.kinds);
  if (fact.word == "material") checker.require("material", fact.equals, material_words());
}

void check_template_facts(const Spot& document, const FactNames& names, Diagnostics& diagnostics) {
  const auto check_all = [&](const Spot& entry) {
    for (const Spot& fact : entry.at("when").items()) {
      const std::string word = fact.is_scalar() ? fact_in(fact.text()).word : "";
      if (word == "hand" || word == "kind" || word == "family" || word == "material" || word == "place" ||
          word == "open")
        check_fact(fact, names, diagnostics);
      else
        FactChecker(fact, diagnostics).refuse(k_place_facts);
    }
  };
  for (const char* list : {"joints", "connections", "stacks", "clearances"})
    for (const Spot& entry : document.at(list).items()) {
      check_all(entry);
      for (const char* part : {"forms", "slots"})
        for (const Spot& one : entry.at(part).items()) check_all(one);
    }
  for (const Spot& feature : document.at("features").items())
    for (const Spot& kind : feature.at("kinds").items())
      if (kind.is_scalar()) FactChecker(kind, diagnostics).require("interface kind", kind.text(), names.kinds);
}

}  // namespace cotter::document
