// An independent check of a plan: it shares no code with the search, only the geometry and the problem itself.
#include <algorithm>
#include <cmath>

#include "engine/route/solve.hpp"
#include "geometry/packing.hpp"
#include "geometry/wide.hpp"

namespace cotter::engine::route {

namespace {

using geometry::Wide;
using quantity::Length;

std::size_t index(int i) {
  return static_cast<std::size_t>(i);
}

Wide square(Length length) {
  return static_cast<Wide>(length.base()) * length.base();
}

class PlanCheck {
 public:
  PlanCheck(const Problem& problem, const Result& result) : problem_(problem), result_(result) {}

  std::vector<std::string> check() {
    if (!sizes_right()) return {"shape"};
    check_devices();
    for (std::size_t k = 0; k < problem_.lines.size(); ++k) check_run(k);
    collect_users();
    for (std::size_t a = 0; a < problem_.apertures.size(); ++a) check_aperture(a);
    check_order(result_.pull_order, "pull_order");
    check_order(order_by_precedences(), "precedences");
    check_entries();
    check_cost();
    return std::move(found_);
  }

 private:
  void report(const std::string& code, std::size_t number, const char* kind) {
    found_.push_back(code + ": " + kind + " " + std::to_string(number));
  }

  bool sizes_right() const {
    std::vector<int> order = result_.pull_order;
    std::sort(order.begin(), order.end());
    for (std::size_t i = 0; i < order.size(); ++i) {
      if (order[i] != static_cast<int>(i)) return false;
    }
    for (std::size_t d = 0; d < result_.seats.size() && d < problem_.devices.size(); ++d) {
      if (result_.seats[d] < 0 || index(result_.seats[d]) >= problem_.devices[d].seats.size()) return false;
    }
    return result_.seats.size() == problem_.devices.size() && result_.runs.size() == problem_.lines.size() &&
           result_.enlarge.size() == problem_.apertures.size() && order.size() == problem_.lines.size();
  }

  const Seat& seat(int device) const {
    return problem_.devices[index(device)].seats[index(result_.seats[index(device)])];
  }

  void check_devices() {
    for (std::size_t d = 0; d < problem_.devices.size(); ++d) {
      const Seat& mine = seat(static_cast<int>(d));
      if (mine.aperture && problem_.apertures[index(*mine.aperture)].taken) report("taken", d, "device");
      for (std::size_t e = 0; e < d; ++e) {
        const Seat& other = seat(static_cast<int>(e));
        if (mine.place && mine.place == other.place) report("place", d, "device");
        if (mine.aperture && mine.aperture == other.aperture) report("mount", d, "device");
      }
    }
  }

  void check_run(std::size_t k) {
    const Line& line = problem_.lines[k];
    const Run& run = result_.runs[k];
    const Seat& from = seat(line.ends[0].device);
    const Seat& to = seat(line.ends[1].device);
    std::vector<int> nodes{from.node};
    std::vector<geometry::GridPoint> marks{from.position};
    for (const int a : run.path) {
      const Aperture& aperture = problem_.apertures[index(a)];
      if (aperture.a != nodes.back() && aperture.b != nodes.back()) return report("broken_way", k, "line");
      nodes.push_back(aperture.a == nodes.back() ? aperture.b : aperture.a);
      marks.push_back(aperture.position);
    }
    marks.push_back(to.position);
    if (nodes.back() != to.node) return report("broken_way", k, "line");
    check_nodes(k, nodes);
    check_length(k, marks);
    check_demands(k, nodes, marks);
    cost_ += result_.runs[k].way + problem_.rules.per_aperture * static_cast<std::int64_t>(run.path.size());
    for (std::size_t i = 1; i + 1 < marks.size(); ++i)
      cost_ += problem_.rules.turn_costs[index(
          static_cast<int>(geometry::turn_between(marks[i] - marks[i - 1], marks[i + 1] - marks[i])))];
  }

  void check_nodes(std::size_t k, const std::vector<int>& nodes) {
    int outside = 0;
    for (std::size_t i = 1; i + 1 < nodes.size(); ++i) outside += nodes[i] == k_outside ? 1 : 0;
    if (outside > problem_.lines[k].surface) report("surface", k, "line");
    if (nodes.size() == 1 && nodes[0] == k_outside) report("stays_outside", k, "line");
    std::vector<int> cells;
    std::copy_if(nodes.begin(), nodes.end(), std::back_inserter(cells), [](int node) { return node != k_outside; });
    if (has_twice(cells)) report("cell_twice", k, "line");
    if (has_twice(result_.runs[k].path)) report("aperture_twice", k, "line");
  }

  static bool has_twice(std::vector<int> list) {
    std::sort(list.begin(), list.end());
    return std::adjacent_find(list.begin(), list.end()) != list.end();
  }

  void check_length(std::size_t k, const std::vector<geometry::GridPoint>& marks) {
    const Line& line = problem_.lines[k];
    const Run& run = result_.runs[k];
    std::vector<std::int64_t> segments;
    std::int64_t way = 0;
    for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
      segments.push_back(geometry::rounded_distance_mm(marks[i], marks[i + 1]));
      way += segments.back();
    }
    way = std::max<std::int64_t>(0, way + line.correction);
    if (segments != run.segments || way != run.way) report("way", k, "line");
    const std::int64_t spare = run.length - way;
    const bool offered = std::find(line.lengths.begin(), line.lengths.end(), run.length) != line.lengths.end();
    const bool good = line.lengths.empty() ? spare >= line.min_slack && run.length <= line.cut_max
                                           : offered && spare >= line.min_slack && spare <= line.max_stow;
    if (!good) report("length", k, "line");
    const auto& ends = line.ends;
    const bool wrong_end = line.captive_end ? run.leading_end == *line.captive_end
                                            : ends[index(run.leading_end)].connector.diameter >
                                                  ends[index(1 - run.leading_end)].connector.diameter;
    if (wrong_end) report("leading_end", k, "line");
  }

  void check_demands(std::size_t k, const std::vector<int>& nodes, const std::vector<geometry::GridPoint>& marks) {
    const Line& line = problem_.lines[k];
    const std::vector<int>& path = result_.runs[k].path;
    const auto passed = [&](int a) { return std::find(path.begin(), path.end(), a) != path.end(); };
    if (!std::all_of(line.through.begin(), line.through.end(), passed)) report("through", k, "line");
    if (std::any_of(line.avoids.begin(), line.avoids.end(), passed)) report("avoids", k, "line");
    for (const CellRule& rule : problem_.cell_rules) {
      if (std::find(nodes.begin(), nodes.end(), rule.cell) == nodes.end()) continue;
      if ((rule.room && line.diameter > *rule.room) || (line.bare_cable && !rule.bare_cable))
        report("not_clear", k, "line");
    }
    double before = 0;
    for (std::size_t i = 1; i < marks.size(); ++i) {
      const geometry::GridPoint here = marks[i] - marks[i - 1];
      const double after = i + 1 == marks.size() ? 0 : half_arc(here, marks[i + 1] - marks[i], line.bend_radius);
      if (line.bend_radius > 0 && before + after > std::sqrt(static_cast<double>(dot(here, here)))) {
        report("bend", k, "line");
        return;
      }
      before = after;
    }
  }

  /// Stretch that an arc takes of each side of a corner, by half the angle between them.
  static double half_arc(geometry::GridPoint u, geometry::GridPoint v, std::int64_t radius) {
    const double size = std::sqrt(static_cast<double>(dot(u, u)) * static_cast<double>(dot(v, v)));
    if (size == 0) return 0;
    const double cosine = std::clamp(static_cast<double>(dot(u, v)) / size, -1.0, 1.0);
    return static_cast<double>(radius) * std::tan(std::acos(cosine) / 2);
  }

  void collect_users() {
    users_.resize(problem_.apertures.size());
    for (std::size_t k = 0; k < result_.runs.size(); ++k) {
      for (const int a : result_.runs[k].path) users_[index(a)].push_back(static_cast<int>(k));
    }
  }

  geometry::Opening clear(std::size_t a) const {
    const Length more = k_enlarge_step * result_.enlarge[a];
    return {problem_.apertures[a].opening.width + more, problem_.apertures[a].opening.length + more,
            problem_.apertures[a].opening.shape};
  }

  void check_aperture(std::size_t a) {
    const Aperture& aperture = problem_.apertures[a];
    if (aperture.taken && !users_[a].empty()) report("taken", a, "aperture");
    if (result_.enlarge[a] < 0 || result_.enlarge[a] > aperture.enlarge_max) report("enlarge", a, "aperture");
    if (aperture.kind == ApertureKind::exclusive && users_[a].size() > 1) report("exclusive", a, "aperture");
    for (std::size_t d = 0; d < problem_.devices.size(); ++d) {
      if (seat(static_cast<int>(d)).aperture == static_cast<int>(a) && !users_[a].empty())
        report("mounted", a, "aperture");
    }
    if (!users_[a].empty() && !bodies_fit(a)) report("bundle", a, "aperture");
  }

  bool lie(const geometry::Bodies& bodies, std::size_t a) const {
    return geometry::judge_packing(clear(a), bodies).answer == geometry::PackingAnswer::fits;
  }

  bool bodies_fit(std::size_t a) const {
    const Length width = clear(a).width;
    std::vector<Length> bodies;
    Wide squares = 0;
    for (const int k : users_[a]) {
      bodies.push_back(problem_.lines[index(k)].diameter);
      squares += square(bodies.back());
    }
    if (bodies.size() == 1) return bodies[0] <= width;
    const Rules& rules = problem_.rules;
    if (rules.packing == Packing::exact) return lie({bodies, {}}, a);
    if (1000 * squares <= rules.pack_permille * square(width)) return true;
    if (std::count(bodies.begin(), bodies.end(), bodies[0]) != static_cast<std::ptrdiff_t>(bodies.size())) return false;
    return bodies.size() <= 7 && static_cast<Wide>(10000) * width.base() >=
                                     static_cast<Wide>(rules.equal_table[bodies.size() - 1]) * bodies[0].base();
  }

  bool pulls(int k, const std::vector<int>& inside, std::size_t a) const {
    const Line& line = problem_.lines[index(k)];
    return passes_beside(line.ends[index(result_.runs[index(k)].leading_end)].connector, inside, a);
  }

  bool passes_beside(const Connector& lead, const std::vector<int>& inside, std::size_t a) const {
    if (inside.empty())
      return lead.section ? geometry::passes(*lead.section, clear(a)) : geometry::passes(lead.diameter, clear(a));
    const Length width = clear(a).width;
    geometry::Bodies bodies{{}, lead.section};
    if (!lead.section) bodies.diameters.push_back(lead.diameter);
    Wide squares = square(lead.diameter);
    for (const int j : inside) {
      bodies.diameters.push_back(problem_.lines[index(j)].diameter);
      squares += square(bodies.diameters.back());
    }
    if (problem_.rules.packing == Packing::exact) return lie(bodies, a);
    return lead.diameter <= width && 1000 * squares <= problem_.rules.pull_permille * square(width);
  }

  void check_order(const std::vector<int>& order, const std::string& code) {
    std::vector<std::vector<int>> inside(problem_.apertures.size());
    for (const int k : order) {
      for (const int a : result_.runs[index(k)].path) {
        if (!pulls(k, inside[index(a)], index(a))) report(code, index(k), "line");
        inside[index(a)].push_back(k);
      }
    }
    if (order.size() != problem_.lines.size()) report(code + "_circle", order.size(), "line");
  }

  /// Devices go in after the lines captive to them and beside all that are not said to come later; and there is an
  /// order of lines and devices that keeps all that is said of both.
  void check_entries() {
    std::size_t expected = 0;
    for (std::size_t d = 0; d < problem_.devices.size(); ++d)
      expected += problem_.devices[d].body && !seat(static_cast<int>(d)).entries.empty() ? 1 : 0;
    if (result_.device_entries.size() != expected) found_.emplace_back("entries");
    for (const DeviceEntry& entry : result_.device_entries) check_entry(entry);
    check_circles();
  }

  void check_entry(const DeviceEntry& entry) {
    const auto lists = [](const std::vector<int>& list, int k) {
      return std::find(list.begin(), list.end(), k) != list.end();
    };
    for (std::size_t k = 0; k < problem_.lines.size(); ++k) {
      const Line& line = problem_.lines[k];
      if (line.captive_end && line.ends[index(*line.captive_end)].device == entry.device &&
          !lists(entry.after, static_cast<int>(k)))
        report("captive", k, "line");
    }
    if (entry.entries != seat(entry.device).entries) report("entries", index(entry.device), "device");
    for (const int a : entry.entries) {
      std::vector<int> inside;
      for (const int k : users_[index(a)])
        if (!lists(entry.before, k)) inside.push_back(k);
      if (!passes_beside(*problem_.devices[index(entry.device)].body, inside, index(a)))
        report("entry", index(entry.device), "device");
    }
  }

  /// Takes away, again and again, what waits for nothing; what is left goes round in a circle.
  void check_circles() {
    std::vector<std::pair<int, int>> waits;  // second after first; devices are counted on from the lines
    const auto lines = static_cast<int>(problem_.lines.size());
    for (const Precedence& pair : result_.precedences) waits.emplace_back(pair.before, pair.after);
    for (const DeviceEntry& entry : result_.device_entries) {
      for (const int k : entry.after) waits.emplace_back(k, lines + entry.device);
      for (const int k : entry.before) waits.emplace_back(lines + entry.device, k);
    }
    for (bool changed = true; changed;) {
      const auto kept = std::remove_if(waits.begin(), waits.end(), [&](const std::pair<int, int>& one) {
        return std::none_of(waits.begin(), waits.end(), [&](const auto& other) { return other.second == one.first; });
      });
      changed = kept != waits.end();
      waits.erase(kept, waits.end());
    }
    if (!waits.empty()) found_.emplace_back("entry_circle");
  }

  /// An order that respects the precedences and otherwise goes against `pull_order`, to see whether they suffice.
  std::vector<int> order_by_precedences() const {
    std::vector<int> waiting(result_.pull_order.rbegin(), result_.pull_order.rend());
    std::vector<int> order;
    for (auto next = waiting.begin(); next != waiting.end();) {
      const bool ready =
          std::none_of(result_.precedences.begin(), result_.precedences.end(), [&](const Precedence& pair) {
            return pair.after == *next && std::find(order.begin(), order.end(), pair.before) == order.end();
          });
      if (!ready) {
        ++next;
        continue;
      }
      order.push_back(*next);
      waiting.erase(next);
      next = waiting.begin();
    }
    return order;
  }

  void check_cost() {
    for (std::size_t a = 0; a < result_.enlarge.size(); ++a)
      cost_ += problem_.apertures[a].enlarge_cost * result_.enlarge[a];
    for (std::size_t d = 0; d < problem_.devices.size(); ++d) cost_ += seat(static_cast<int>(d)).cost;
    if (result_.objective != cost_ || result_.cost.total() != cost_) found_.emplace_back("cost");
    if (result_.status == Status::optimal && result_.bound != cost_) found_.emplace_back("bound");
  }

  const Problem& problem_;
  const Result& result_;
  std::vector<std::vector<int>> users_;
  std::int64_t cost_ = 0;
  std::vector<std::string> found_;
};

}  // namespace

std::vector<std::string> violations(const Problem& problem, const Result& result) {
  return PlanCheck(problem, result).check();
}

}  // namespace cotter::engine::route
