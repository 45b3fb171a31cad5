#include "engine/fit/laws/law.hpp"

#include "engine/fit/laws/all.hpp"
#include "quantity/ensure.hpp"

namespace cotter::engine::fit {

const std::vector<LawSpec>& all_laws() {
  static const std::vector<LawSpec> table{laws::bore_on_shaft(), laws::difference(),     laws::at_most(),
                                          laws::at_least(),      laws::range_contains(), laws::thread(),
                                          laws::equal_pattern(), laws::equal_family(),   laws::engagement(),
                                          laws::radial_room(),   laws::equal_angle(),    laws::overlap()};
  return table;
}

const LawSpec& law_spec(Law law) {
  const auto index = static_cast<std::size_t>(law);
  quantity::ensure(index < all_laws().size() && all_laws()[index].law == law, "a law that is not in the table");
  return all_laws()[index];
}

std::string_view word_for(Law law) {
  return law_spec(law).word;
}

std::optional<Law> law_from_word(std::string_view word) {
  for (const LawSpec& spec : all_laws())
    if (spec.word == word) return spec.law;
  return std::nullopt;
}

std::optional<std::size_t> role_index(const LawSpec& spec, std::string_view role) {
  for (std::size_t i = 0; i < spec.roles.size(); ++i)
    if (spec.roles[i].name == role) return i;
  return std::nullopt;
}

}  // namespace cotter::engine::fit
