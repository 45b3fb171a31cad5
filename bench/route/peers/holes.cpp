#include "holes.hpp"

#include <algorithm>
#include <map>

namespace route_peers {

namespace {

std::int64_t square(std::int64_t n) {
  return n * n;
}

class Rules_at {
 public:
  Rules_at(const Instance& instance, int aperture)
      : instance_(instance), aperture_(instance.apertures[static_cast<std::size_t>(aperture)]) {}

  const Line& line(int k) const { return instance_.lines[static_cast<std::size_t>(k)]; }
  std::int64_t width(int step) const { return aperture_.width + step; }
  std::int64_t area(int step) const { return instance_.rules.pack_permille * square(width(step)) / 1000; }
  std::int64_t pull_budget(int k, int step) const {
    return std::max<std::int64_t>(0, instance_.rules.pull_permille * square(width(step)) / 1000 - square(line(k).lead));
  }
  int most_equal(std::int64_t diameter, int step) const {
    int most = 0;
    for (std::size_t n = 0; n < instance_.rules.equal_table.size(); ++n)
      if (10000 * width(step) >= instance_.rules.equal_table[n] * diameter) most = static_cast<int>(n) + 1;
    return most;
  }

 private:
  const Instance& instance_;
  const Aperture& aperture_;
};

void add_pulls(const Rules_at& rules, Hole& hole) {
  for (std::size_t i = 1; i < hole.lines.size(); ++i) {
    Pull pull{hole.lines[i], {hole.lines.begin(), hole.lines.begin() + static_cast<std::ptrdiff_t>(i)}, {}};
    std::int64_t all = 0;
    for (const int j : pull.earlier) all += square(rules.line(j).diameter);
    for (int step = 0; step <= hole.steps; ++step) pull.budget.push_back(rules.pull_budget(pull.line, step));
    if (all > pull.budget.front()) hole.pulls.push_back(pull);
  }
}

void add_equals(const Rules_at& rules, Hole& hole) {
  std::map<std::int64_t, int> count;
  for (const int k : hole.lines) ++count[rules.line(k).diameter];
  for (const auto& [diameter, lines] : count) {
    Equal equal{diameter, {}};
    bool useful = false;
    for (int step = 0; step <= hole.steps; ++step) {
      equal.most.push_back(std::min(lines, rules.most_equal(diameter, step)));
      useful = useful || (equal.most.back() > 1 && equal.most.back() * square(diameter) > rules.area(step));
    }
    if (useful) hole.equals.push_back(equal);
  }
}

bool two_fit(const Rules_at& rules, const Hole& hole, int first, int second) {
  const std::int64_t d = rules.line(first).diameter, e = rules.line(second).diameter;
  const bool together =
      square(d) + square(e) <= rules.area(hole.steps) || (d == e && rules.most_equal(d, hole.steps) >= 2);
  return together && square(d) <= rules.pull_budget(second, hole.steps);
}

void add_pairs(const Rules_at& rules, Hole& hole) {
  for (std::size_t i = 0; i < hole.lines.size(); ++i)
    for (std::size_t j = i + 1; j < hole.lines.size(); ++j)
      if (!two_fit(rules, hole, hole.lines[i], hole.lines[j]))
        hole.never_both.emplace_back(hole.lines[i], hole.lines[j]);
}

void fill_shared(const Rules_at& rules, Hole& hole) {
  std::int64_t all = 0, thickest = 0;
  for (const int k : hole.lines) {
    all += square(rules.line(k).diameter);
    thickest = std::max(thickest, square(rules.line(k).diameter));
  }
  for (int step = 0; step <= hole.steps; ++step) hole.area.push_back(rules.area(step));
  add_pulls(rules, hole);
  hole.binds = all > hole.area.front() || !hole.pulls.empty();
  if (!hole.binds) return;
  hole.alone_exceeds = thickest > hole.area.front();
  add_equals(rules, hole);
  add_pairs(rules, hole);
}

Hole make_hole(const Instance& instance, int aperture, std::vector<int> lines) {
  const Aperture& from = instance.apertures[static_cast<std::size_t>(aperture)];
  const Rules_at rules(instance, aperture);
  std::stable_sort(lines.begin(), lines.end(), [&](int j, int k) {
    const Line &p = rules.line(j), &q = rules.line(k);
    return square(p.lead) - square(p.diameter) > square(q.lead) - square(q.diameter);
  });
  Hole hole{};
  hole.aperture = aperture;
  hole.lines = std::move(lines);
  hole.steps = from.enlarge_max;
  hole.step_cost = from.enlarge_cost;
  hole.exclusive = from.exclusive;
  for (const int k : hole.lines)
    if (rules.line(k).lead > from.width)
      hole.needs_step.emplace_back(k, static_cast<int>(rules.line(k).lead - from.width));
  if (hole.exclusive)
    hole.binds = hole.lines.size() > 1;
  else
    fill_shared(rules, hole);
  if ((hole.exclusive || !hole.binds) && hole.needs_step.empty()) hole.steps = 0;
  return hole;
}

}  // namespace

Model make_model(const Instance& instance) {
  Model model{instance,
              list_columns(instance),
              {},
              {},
              std::vector<std::vector<std::pair<int, int>>>(instance.apertures.size()),
              false};
  std::vector<std::vector<int>> through(instance.apertures.size());
  for (std::size_t k = 0; k < model.columns.size(); ++k) {
    std::uint64_t any = 0;
    for (const Column& column : model.columns[k]) any |= column.apertures;
    for (std::size_t a = 0; a < through.size(); ++a)
      if ((any >> a & 1) != 0) through[a].push_back(static_cast<int>(k));
    model.hopeless = model.hopeless || model.columns[k].empty();
  }
  std::map<int, std::vector<std::pair<int, int>>> places;
  for (std::size_t d = 0; d < instance.devices.size(); ++d)
    for (std::size_t s = 0; s < instance.devices[d].size(); ++s) {
      const Seat& seat = instance.devices[d][s];
      const std::pair<int, int> which(static_cast<int>(d), static_cast<int>(s));
      if (seat.place >= 0) places[seat.place].push_back(which);
      if (seat.aperture >= 0) model.seats_at_aperture[static_cast<std::size_t>(seat.aperture)].push_back(which);
    }
  for (auto& [place, seats] : places)
    if (seats.size() > 1) model.seats_at_place.push_back(seats);
  for (std::size_t a = 0; a < through.size(); ++a)
    if (!through[a].empty() || model.seats_at_aperture[a].size() > 1)
      model.holes.push_back(make_hole(instance, static_cast<int>(a), through[a]));
  return model;
}

}  // namespace route_peers
