#include "mip.hpp"

#include <algorithm>
#include <map>

#include "answer.hpp"

namespace route_peers {

namespace {

constexpr double k_none = -1e9;
double real(std::int64_t n) {
  return static_cast<double>(n);
}

class Builder {
 public:
  explicit Builder(const Model& model) : model_(model) {}

  Mip build() {
    add_seats();
    add_columns();
    for (const Hole& hole : model_.holes) add_hole(hole);
    return std::move(mip_);
  }

 private:
  int variable(double cost) {
    mip_.cost.push_back(cost);
    return static_cast<int>(mip_.cost.size()) - 1;
  }
  void row(std::vector<std::pair<int, double>> terms, double least, double most) {
    mip_.rows.push_back({std::move(terms), least, most});
  }
  const Line& line(int k) const { return model_.instance.lines[static_cast<std::size_t>(k)]; }
  double square(int k) const { return real(line(k).diameter * line(k).diameter); }

  void at_most_one(const std::vector<std::pair<int, int>>& seats) {
    Row sum{{}, k_none, 1};
    for (const auto& [d, s] : seats)
      sum.terms.emplace_back(seat_[static_cast<std::size_t>(d)][static_cast<std::size_t>(s)], 1);
    if (sum.terms.size() > 1) mip_.rows.push_back(sum);
  }

  void add_seats() {
    for (const auto& device : model_.instance.devices) {
      Row one{{}, 1, 1};
      seat_.emplace_back();
      for (const Seat& seat : device) {
        seat_.back().push_back(variable(real(seat.cost)));
        one.terms.emplace_back(seat_.back().back(), 1);
      }
      mip_.rows.push_back(one);
    }
    for (const auto& seats : model_.seats_at_place) at_most_one(seats);
  }

  void add_columns() {
    for (std::size_t k = 0; k < model_.columns.size(); ++k) {
      Row one{{}, 1, 1};
      std::map<int, Row> at_seat;
      std::map<int, std::vector<int>> through;
      for (const Column& column : model_.columns[k]) {
        const int x = variable(real(column.cost));
        one.terms.emplace_back(x, 1);
        for (std::size_t end = 0; end < 2; ++end) {
          const auto device = static_cast<std::size_t>(model_.instance.lines[k].devices[end]);
          if (seat_[device].size() > 1)
            at_seat[seat_[device][static_cast<std::size_t>(column.seats[end])]].terms.emplace_back(x, 1);
        }
        for (const int a : column.path) through[a].push_back(x);
      }
      mip_.rows.push_back(one);
      for (auto& [seat, sum] : at_seat) {
        sum.terms.emplace_back(seat, -1);
        row(sum.terms, 0, 0);
      }
      link_uses(static_cast<int>(k), through);
    }
  }

  /// use = sum of the columns through the hole, only where a hole can bind.
  void link_uses(int k, const std::map<int, std::vector<int>>& through) {
    for (const auto& [a, columns] : through) {
      const auto hole =
          std::find_if(model_.holes.begin(), model_.holes.end(), [&](const Hole& h) { return h.aperture == a; });
      if (!hole->binds && hole->needs_step.empty() && model_.seats_at_aperture[static_cast<std::size_t>(a)].empty())
        continue;
      Row link{{}, 0, 0};
      for (const int x : columns) link.terms.emplace_back(x, 1);
      use_[{k, a}] = variable(0);
      link.terms.emplace_back(use_[{k, a}], -1);
      mip_.rows.push_back(link);
    }
  }

  int use(int k, const Hole& hole) const { return use_.at({k, hole.aperture}); }

  void add_hole(const Hole& hole) {
    const auto& devices = model_.seats_at_aperture[static_cast<std::size_t>(hole.aperture)];
    if (hole.exclusive) {
      Row one{{}, k_none, 1};
      if (hole.binds || !devices.empty())
        for (const int k : hole.lines) one.terms.emplace_back(use(k, hole), 1);
      for (const auto& [d, s] : devices)
        one.terms.emplace_back(seat_[static_cast<std::size_t>(d)][static_cast<std::size_t>(s)], 1);
      if (one.terms.size() > 1) mip_.rows.push_back(one);
    }
    steps_.clear();
    if (hole.steps > 0) add_steps(hole);
    if (!hole.exclusive && hole.binds) add_bundle(hole);
    if (hole.exclusive || devices.empty()) return;
    at_most_one(devices);
    for (const auto& [d, s] : devices)
      for (const int k : hole.lines)
        row({{use(k, hole), 1}, {seat_[static_cast<std::size_t>(d)][static_cast<std::size_t>(s)], 1}}, k_none, 1);
  }

  void add_steps(const Hole& hole) {
    Row one{{}, 1, 1};
    for (int step = 0; step <= hole.steps; ++step) {
      steps_.push_back(variable(real(step * hole.step_cost)));
      one.terms.emplace_back(steps_.back(), 1);
    }
    mip_.rows.push_back(one);
    for (const auto& [k, least] : hole.needs_step) {
      Row wide{{{use(k, hole), 1}}, k_none, 0};
      for (int step = least; step <= hole.steps; ++step)
        wide.terms.emplace_back(steps_[static_cast<std::size_t>(step)], -1);
      mip_.rows.push_back(wide);
    }
  }

  /// terms <= the value at the chosen step.
  void within(Row sum, const std::vector<std::int64_t>& value) {
    sum.least = k_none;
    sum.most = real(value.front());
    for (std::size_t step = 1; step < steps_.size(); ++step)
      sum.terms.emplace_back(steps_[step], -real(value[step] - value.front()));
    mip_.rows.push_back(std::move(sum));
  }

  void add_bundle(const Hole& hole) {
    Row area{{}, 0, 0};
    double most_alone = 0;
    for (const int k : hole.lines) {
      area.terms.emplace_back(use(k, hole), square(k));
      most_alone = std::max(most_alone, square(k));
    }
    if (hole.alone_exceeds) {
      const int alone = variable(0);
      area.terms.emplace_back(alone, -(most_alone - real(hole.area.front())));
      Row single{{{alone, real(static_cast<std::int64_t>(hole.lines.size()) - 1)}},
                 k_none,
                 real(static_cast<std::int64_t>(hole.lines.size()))};
      for (const int k : hole.lines) single.terms.emplace_back(use(k, hole), 1);
      mip_.rows.push_back(single);
    }
    for (const Equal& equal : hole.equals) area.terms.emplace_back(add_equal(hole, equal), -most_area(hole, equal));
    within(area, hole.area);
    for (const Pull& pull : hole.pulls) {
      Row before{{}, 0, 0};
      double all = 0;
      for (const int j : pull.earlier) {
        before.terms.emplace_back(use(j, hole), square(j));
        all += square(j);
      }
      std::vector<std::int64_t> budget = pull.budget;
      const double relief = all - real(budget.front());
      before.terms.emplace_back(use(pull.line, hole), relief);
      for (std::int64_t& b : budget) b += static_cast<std::int64_t>(relief);
      within(before, budget);
    }
    for (const auto& [j, k] : hole.never_both) row({{use(j, hole), 1}, {use(k, hole), 1}}, k_none, 1);
  }

  static double most_area(const Hole& hole, const Equal& equal) {
    std::int64_t most = 0;
    for (std::size_t step = 0; step < equal.most.size(); ++step)
      most = std::max(most, equal.most[step] * equal.diameter * equal.diameter - hole.area[step]);
    return real(most);
  }

  int add_equal(const Hole& hole, const Equal& equal) {
    const int all_equal = variable(0);
    const auto lines = static_cast<std::int64_t>(hole.lines.size());
    Row count{{{all_equal, real(lines - equal.most.front())}}, 0, 0};
    for (const int k : hole.lines) {
      if (line(k).diameter != equal.diameter)
        row({{use(k, hole), 1}, {all_equal, 1}}, k_none, 1);
      else
        count.terms.emplace_back(use(k, hole), 1);
    }
    std::vector<std::int64_t> most;
    for (const int n : equal.most) most.push_back(n + lines - equal.most.front());
    within(count, most);
    return all_equal;
  }

  const Model& model_;
  Mip mip_;
  std::vector<std::vector<int>> seat_;
  std::map<std::pair<int, int>, int> use_;
  std::vector<int> steps_;
};

std::string sum_text(const std::vector<std::pair<int, double>>& terms) {
  std::string text;
  for (const auto& [x, factor] : terms) {
    const auto whole = static_cast<std::int64_t>(factor);
    text += (whole < 0 ? " - " : " + ") + std::to_string(std::abs(whole)) + " x" + std::to_string(x) + "\n";
  }
  return text;
}

}  // namespace

Mip make_mip(const Model& model) {
  return Builder(model).build();
}

std::string linear_program_text(const Model& model) {
  const Mip mip = make_mip(model);
  std::vector<std::pair<int, double>> objective;
  for (std::size_t x = 0; x < mip.cost.size(); ++x) objective.emplace_back(static_cast<int>(x), mip.cost[x]);
  std::string text = "Minimize\n obj:" + sum_text(objective) + "Subject To\n";
  for (const Row& row : mip.rows) {
    const std::string sum = sum_text(row.terms);
    if (row.most < -k_none)
      text +=
          sum + (row.least == row.most ? " = " : " <= ") + std::to_string(static_cast<std::int64_t>(row.most)) + "\n";
  }
  text += "Binary\n";
  for (std::size_t x = 0; x < mip.cost.size(); ++x) text += " x" + std::to_string(x) + "\n";
  return text + "End\n";
}

}  // namespace route_peers
