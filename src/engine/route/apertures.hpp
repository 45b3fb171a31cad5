#pragma once
// The rules at one aperture: which sets of lines it takes at which enlargement, and in which orders they can be pulled.

#include <cstdint>
#include <map>
#include <optional>
#include <unordered_map>
#include <vector>

#include "engine/route/line_set.hpp"
#include "engine/route/problem.hpp"
#include "geometry/packing.hpp"

namespace cotter::engine::route {

/// The end that is pulled through: the free one of a captive line, or the one with the smaller connector.
int leading_end(const Line& line);

/// Clear size after so many steps.
geometry::Opening enlarged(const Aperture& aperture, int steps);
/// True when the body passes with nothing else in the way.
bool passes(const Connector& body, geometry::Opening opening);

/// Effort for one packing: some 15 ms. Two to four bodies are nearly always decided with a tenth of it.
constexpr geometry::Effort k_packing_effort{10'000};

/// A body among others in the same opening: by its section when it is a plug, else as a circle.
geometry::Bodies packed_with(const Connector& body, std::vector<quantity::Length> others);

/// Order that one line must keep to another when orders are searched.
struct Sooner {
  int before;
  int after;
};

/// What a packing counts as that is neither proven nor disproven.
enum class Doubt { no_fit, fit };

/// Answers for all apertures of one problem, which must outlive it. Remembers what it was asked.
/// Every answer is monotone: fewer lines, or more steps, never turn a yes into a no.
class Apertures {
 public:
  explicit Apertures(const Problem& problem, Doubt doubt = Doubt::no_fit);

  geometry::Opening opening(int aperture, int steps) const;
  /// Body and leading connector of one line, nothing else in the aperture.
  bool passes_alone(int line, int aperture, int steps) const;
  /// Can `line` be pulled when `others` are already in?
  bool passes_last(int line, LineSet others, int aperture, int steps);
  /// Does a body pass beside `others`?
  bool passes_beside(const Connector& body, LineSet others, int aperture, int steps);
  /// Do the bodies lie side by side, and is there an order of pulling?
  bool takes(LineSet lines, int aperture, int steps);
  /// Is there an order of pulling `lines` with one before another? The bodies are not looked at.
  bool has_order(LineSet lines, int aperture, int steps, std::optional<Sooner> sooner = {});
  /// Fewest steps of enlargement with which the aperture takes the lines; none when no permitted one will do.
  std::optional<int> least_steps(LineSet lines, int aperture);
  /// Largest round body that is certain to fit beside the bodies of `lines`.
  quantity::Length room_beside(LineSet lines, int aperture, int steps) const;

  /// True when some packing asked for was neither proven nor disproven.
  bool any_doubt() const { return any_doubt_; }

 private:
  bool bodies_fit(LineSet lines, int aperture, int steps);
  bool lie(const geometry::Bodies& bodies, int aperture, int steps);
  int search_steps(LineSet lines, int aperture);
  quantity::Length room_by_density(LineSet lines, quantity::Length width) const;
  std::vector<quantity::Length> diameters(LineSet lines) const;

  const Problem& problem_;
  Doubt doubt_;
  std::vector<std::unordered_map<LineSet, int>> known_steps_;                    ///< -1 = none
  std::map<std::vector<std::int64_t>, geometry::PackingAnswer> known_packings_;  ///< by opening and sizes
  bool any_doubt_ = false;
};

}  // namespace cotter::engine::route
