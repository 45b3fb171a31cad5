#include "words/acceptance_words.hpp"

#include "model/words.hpp"
#include "quantity/ensure.hpp"
#include "words/phrase.hpp"

namespace cotter::words {
namespace {

using model::Acceptance;

std::string_view protected_thing(model::Guards guards) {
  switch (guards) {
    case model::Guards::brake:
      return phrase("guards.brake");
    case model::Guards::steering:
      return phrase("guards.steering");
    case model::Guards::axle:
      return phrase("guards.axle");
    case model::Guards::insertion:
      return phrase("guards.insertion");
    case model::Guards::pressure:
      return phrase("guards.pressure");
    case model::Guards::composite:
      return phrase("guards.composite");
    case model::Guards::nothing:
      break;
  }
  quantity::ensure(false, "a guarded finding that guards nothing");
  return {};
}

std::string why_not(const model::Finding& finding, Acceptance acceptance) {
  switch (acceptance) {
    case Acceptance::nothing:
      return std::string(phrase("accept.nothing"));
    case Acceptance::already:
      return fill("accept.already", {{"by", finding.accepted_by}, {"reason", finding.accepted_reason}});
    case Acceptance::guarded:
      return fill("accept.guarded", {{"guards", std::string(protected_thing(finding.guards))}});
    case Acceptance::undecided:
      return std::string(phrase("accept.undecided"));
    case Acceptance::unlike:
      return std::string(phrase("accept.unlike"));
    case Acceptance::no_limit:
      return std::string(phrase("accept.no_limit"));
    case Acceptance::nobody:
      return std::string(phrase("accept.nobody"));
    case Acceptance::maker:
      return std::string(phrase("accept.maker"));
    case Acceptance::unattested:
      return fill("accept.unattested", {{"names", join(finding.rests_on, ", ")}});
    case Acceptance::may_sign:
    case Acceptance::may_pass:
      break;
  }
  quantity::ensure(false, "a refusal of what may be accepted");
  return {};
}

}  // namespace

std::string refused_acceptance(const model::Finding& finding, Acceptance acceptance) {
  return fill("accept.refused", {{"finding", finding.id},
                                 {"verdict", std::string(model::word_for(finding.verdict))},
                                 {"why", why_not(finding, acceptance)}});
}

}  // namespace cotter::words
