#include <algorithm>

#include "engine/fit/press.hpp"

namespace cotter::engine::fit {
namespace {

using Kind = PressFault::Kind;

class Inspector {
 public:
  explicit Inspector(const PressFit& fit) : fit_(fit) {}

  std::vector<PressFault> read() {
    for (const auto& [operand, name] : {std::pair(&fit_.bore, "bore"), std::pair(&fit_.shaft, "shaft"),
                                        std::pair(&fit_.outer, "outer"), std::pair(&fit_.length, "length")})
      read_length(*operand, name, 1);
    read_length(fit_.inner, "inner", 0);
    read_material(fit_.hub_material, "hub_material");
    read_material(fit_.shaft_material, "shaft_material");
    read_bounds(fit_.friction, "friction", 0, k_most_friction, "0 to 2");
    read_window(fit_.pressure, "pressure");
    read_window(fit_.hub_hoop, "hub_hoop");
    if (faults_.empty()) read_walls();
    return std::move(faults_);
  }

 private:
  void add(Kind kind, std::string_view name, std::string_view accepted) {
    faults_.push_back({kind, std::string(name), std::string(accepted)});
  }

  void read_bounds(const Range& range, std::string_view name, std::int64_t least, std::int64_t most,
                   std::string_view accepted) {
    if (range.low().base() < least || most < range.high().base()) add(Kind::out_of_bounds, name, accepted);
  }

  void read_length(const Operand& operand, std::string_view name, std::int64_t least) {
    if (operand.dimension != Dimension::length) {
      add(Kind::wrong_dimension, name, quantity::word_for(Dimension::length));
      return;
    }
    read_bounds(operand.range, name, least, k_most_press_size, least > 0 ? "above 0, up to 1 m" : "0 to 1 m");
  }

  void read_material(const Elastic& material, std::string_view name) {
    read_bounds(material.modulus, name, 1, k_most_modulus, "a modulus above 0, up to 10 000 000 MPa");
    read_bounds(material.poisson, name, 0, k_most_poisson, "a Poisson's ratio from 0 to 0.5");
  }

  void read_window(const Window& window, std::string_view name) {
    if (window.low && window.high && *window.high < *window.low)
      add(Kind::window_swapped, name, "`from` no greater than `to`");
  }

  void read_walls() {
    const std::int64_t bore = fit_.bore.range.low().base();
    const std::int64_t hub_wall = (fit_.outer.range.low() - fit_.bore.range.high()).base();
    const std::int64_t shaft_wall = bore - fit_.inner.range.high().base();
    if (hub_wall < 1) add(Kind::wall, "outer", "larger than the bore");
    if (shaft_wall < 1) add(Kind::wall, "inner", "smaller than the bore");
    const bool solid_at_least = fit_.inner.range.low().base() == 0;
    if (solid_at_least && fit_.inner.range.high().base() > 0)
      add(Kind::solid_or_not, "inner", "exactly 0, or a range above 0");
    if (!faults_.empty()) return;
    const std::int64_t most = fit_.shaft.range.high().base() - bore;
    if (most > 0 && most * k_walls_per_interference > std::min(hub_wall, shaft_wall))
      add(Kind::too_much, "shaft", "an interference of at most a tenth of either wall");
  }

  const PressFit& fit_;
  std::vector<PressFault> faults_;
};

}  // namespace

std::vector<PressFault> faults(const PressFit& fit) {
  return Inspector(fit).read();
}

}  // namespace cotter::engine::fit
