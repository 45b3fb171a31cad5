#include "engine/route/apertures.hpp"

#include <algorithm>

#include "geometry/packing.hpp"
#include "geometry/wide.hpp"

namespace cotter::engine::route {

namespace {

using geometry::PackingAnswer;
using geometry::Wide;
using quantity::Length;

constexpr int k_none = -1;

Wide square(Length length) {
  return static_cast<Wide>(length.base()) * length.base();
}

const Connector& lead(const Line& line) {
  return line.ends[static_cast<std::size_t>(leading_end(line))].connector;
}

bool within_share(Wide squares, int permille, Length width) {
  return 1000 * squares <= permille * square(width);
}

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace

int leading_end(const Line& line) {
  if (line.captive_end) return 1 - *line.captive_end;
  return line.ends[1].connector.diameter < line.ends[0].connector.diameter ? 1 : 0;
}

geometry::Opening enlarged(const Aperture& aperture, int steps) {
  const geometry::Opening& drawn = aperture.opening;
  return {drawn.width + k_enlarge_step * steps, drawn.length + k_enlarge_step * steps, drawn.shape};
}

geometry::Bodies packed_with(const Connector& body, std::vector<Length> others) {
  if (body.section) return {std::move(others), body.section};
  others.push_back(body.diameter);
  return {std::move(others), {}};
}

bool passes(const Connector& body, geometry::Opening opening) {
  return body.section ? geometry::passes(*body.section, opening) : geometry::passes(body.diameter, opening);
}

Apertures::Apertures(const Problem& problem, Doubt doubt)
    : problem_(problem), doubt_(doubt), known_steps_(problem.apertures.size()) {}

geometry::Opening Apertures::opening(int aperture, int steps) const {
  return enlarged(problem_.apertures[index(aperture)], steps);
}

bool Apertures::passes_alone(int line, int aperture, int steps) const {
  const Line& body = problem_.lines[index(line)];
  const geometry::Opening clear = opening(aperture, steps);
  return geometry::passes(body.diameter, clear) && passes(lead(body), clear);
}

bool Apertures::lie(const geometry::Bodies& bodies, int aperture, int steps) {
  const geometry::Opening clear = opening(aperture, steps);
  std::vector<std::int64_t> question = {clear.width.base(), clear.length.base(), static_cast<int>(clear.shape)};
  if (bodies.plug) question.insert(question.end(), {-bodies.plug->width.base(), -bodies.plug->height.base()});
  for (const Length diameter : bodies.diameters) question.push_back(diameter.base());
  std::sort(question.begin() + (bodies.plug ? 5 : 3), question.end());
  auto known = known_packings_.find(question);
  if (known == known_packings_.end())
    known =
        known_packings_.emplace(std::move(question), geometry::judge_packing(clear, bodies, k_packing_effort).answer)
            .first;
  if (known->second != PackingAnswer::undecided) return known->second == PackingAnswer::fits;
  any_doubt_ = true;
  return doubt_ == Doubt::fit;
}

bool Apertures::passes_last(int line, LineSet others, int aperture, int steps) {
  if (others == 0) return passes_alone(line, aperture, steps);
  return passes_beside(lead(problem_.lines[index(line)]), others, aperture, steps);
}

bool Apertures::passes_beside(const Connector& body, LineSet others, int aperture, int steps) {
  if (others == 0) return passes(body, opening(aperture, steps));
  if (problem_.rules.packing == Packing::exact) return lie(packed_with(body, diameters(others)), aperture, steps);
  const Length connector = body.diameter;
  const Length width = opening(aperture, steps).width;
  if (connector > width) return false;
  Wide squares = square(connector);
  for (const Length other : diameters(others)) squares += square(other);
  return within_share(squares, problem_.rules.pull_permille, width);
}

bool Apertures::bodies_fit(LineSet lines, int aperture, int steps) {
  const std::vector<Length> bodies = diameters(lines);
  if (problem_.rules.packing == Packing::exact) return lie({bodies, {}}, aperture, steps);
  const Length width = opening(aperture, steps).width;
  Wide squares = 0;
  for (const Length body : bodies) squares += square(body);
  if (within_share(squares, problem_.rules.pack_permille, width)) return true;
  const std::size_t n = bodies.size();
  const bool equal = std::all_of(bodies.begin(), bodies.end(), [&](Length body) { return body == bodies.front(); });
  return equal && n <= problem_.rules.equal_table.size() &&
         static_cast<Wide>(10000) * width.base() >=
             static_cast<Wide>(problem_.rules.equal_table[n - 1]) * bodies.front().base();
}

bool Apertures::has_order(LineSet lines, int aperture, int steps, std::optional<Sooner> sooner) {
  // Taken apart from the back: a line that can go in last may as well, the others only meet fewer bodies.
  while (lines != 0) {
    LineSet candidates = lines;
    if (sooner && has(lines, sooner->after)) candidates &= ~only(sooner->before);
    int last = k_none;
    for (; candidates != 0 && last == k_none; candidates = without_first(candidates)) {
      const int line = first(candidates);
      if (passes_last(line, lines & ~only(line), aperture, steps)) last = line;
    }
    if (last == k_none) return false;
    lines &= ~only(last);
  }
  return true;
}

bool Apertures::takes(LineSet lines, int aperture, int steps) {
  if (lines == 0) return true;
  for (LineSet rest = lines; rest != 0; rest = without_first(rest))
    if (!passes_alone(first(rest), aperture, steps)) return false;
  if (count(lines) == 1) return true;
  if (problem_.apertures[index(aperture)].kind == ApertureKind::exclusive) return false;
  return bodies_fit(lines, aperture, steps) && has_order(lines, aperture, steps);
}

int Apertures::search_steps(LineSet lines, int aperture) {
  int high = problem_.apertures[index(aperture)].enlarge_max;
  if (!takes(lines, aperture, high)) return k_none;
  int low = 0;
  while (low < high) {
    const int middle = low + (high - low) / 2;
    if (takes(lines, aperture, middle)) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return low;
}

std::optional<int> Apertures::least_steps(LineSet lines, int aperture) {
  auto& known = known_steps_[index(aperture)];
  auto found = known.find(lines);
  if (found == known.end()) found = known.emplace(lines, search_steps(lines, aperture)).first;
  return found->second == k_none ? std::nullopt : std::optional(found->second);
}

Length Apertures::room_by_density(LineSet lines, Length width) const {
  Wide squares = 0;
  for (const int line : listed(lines)) squares += square(problem_.lines[index(line)].diameter);
  Wide low = 0;
  for (Wide high = width.base(); low < high;) {
    const Wide middle = low + (high - low + 1) / 2;
    if (within_share(squares + middle * middle, problem_.rules.pack_permille, width)) {
      low = middle;
    } else {
      high = middle - 1;
    }
  }
  return quantity::nanometres(static_cast<std::int64_t>(low));
}

std::vector<Length> Apertures::diameters(LineSet lines) const {
  std::vector<Length> list;
  for (const int line : listed(lines)) list.push_back(problem_.lines[index(line)].diameter);
  return list;
}

Length Apertures::room_beside(LineSet lines, int aperture, int steps) const {
  const geometry::Opening clear = opening(aperture, steps);
  if (lines == 0) return clear.width;
  if (problem_.apertures[index(aperture)].kind == ApertureKind::exclusive) return {};
  return problem_.rules.packing == Packing::exact ? geometry::room_beside(clear, {diameters(lines), {}})
                                                  : room_by_density(lines, clear.width);
}

}  // namespace cotter::engine::route
