#include "model/words.hpp"

#include <array>

namespace cotter::model {
namespace {

/// Words in the order of the enumeration.
template <std::size_t Count, class Enumeration>
std::string_view pick(const std::array<std::string_view, Count>& words, Enumeration value) {
  return words.at(static_cast<std::size_t>(value));
}

constexpr std::array<std::string_view, 7> k_materials = {"unknown",   "steel",   "aluminium", "titanium",
                                                         "composite", "plastic", "other"};
constexpr std::array<std::string_view, 3> k_lines = {"wire", "hose", "housing"};
constexpr std::array<std::string_view, 3> k_reversible = {"yes", "costly", "no"};
constexpr std::array<std::string_view, 7> k_guards = {"nothing",   "brake",    "steering", "axle",
                                                      "insertion", "pressure", "composite"};
constexpr std::array<std::string_view, 3> k_may_pass = {"nobody", "mechanic", "maker"};
constexpr std::array<std::string_view, 4> k_sources = {"standard", "maker", "handbook", "common_practice"};

}  // namespace

std::string_view word_for(Material material) {
  return pick(k_materials, material);
}
std::string_view word_for(LineForm::Kind kind) {
  return pick(k_lines, kind);
}
std::string_view word_for(Reversible reversible) {
  return pick(k_reversible, reversible);
}
std::string_view word_for(Guards guards) {
  return pick(k_guards, guards);
}
std::string_view word_for(MayPass may_pass) {
  return pick(k_may_pass, may_pass);
}
std::string_view word_for(Source::Kind kind) {
  return pick(k_sources, kind);
}

}  // namespace cotter::model
