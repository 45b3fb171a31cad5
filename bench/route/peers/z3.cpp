// Z3's optimiser on the columns: choices as truth values, the rules of the holes as pseudo-boolean sums.
#include <algorithm>
#include <map>
#include <z3++.h>

#include "answer.hpp"

namespace route_peers {

namespace {

class Encoder {
 public:
  Encoder(const Model& model, z3::context& context, z3::optimize& optimize)
      : model_(model), context_(context), optimize_(optimize) {}

  void encode() {
    add_seats();
    for (std::size_t k = 0; k < model_.columns.size(); ++k) add_line(k);
    for (const Hole& hole : model_.holes) add_hole(hole);
  }
  /// Of the choices that Z3 has made.
  std::int64_t cost() const { return constant_ + (soft_ ? optimize_.lower(*soft_).get_numeral_int64() : 0); }

 private:
  struct Sum {
    z3::expr_vector terms;
    std::vector<int> weights;
  };
  Sum sum() { return {z3::expr_vector(context_), {}}; }
  static void add(Sum& sum, const z3::expr& term, std::int64_t weight) {
    if (weight <= 0) return;
    sum.terms.push_back(term);
    sum.weights.push_back(static_cast<int>(weight));
  }
  void at_most(const Sum& sum, std::int64_t most) {
    if (!sum.weights.empty()) optimize_.add(z3::pble(sum.terms, sum.weights.data(), static_cast<int>(most)));
  }
  z3::expr fresh() { return context_.bool_const(("b" + std::to_string(count_++)).c_str()); }

  /// Exactly one of them, at its cost; the least cost is paid in any case.
  void choose(const std::vector<z3::expr>& choices, const std::vector<std::int64_t>& costs) {
    z3::expr_vector all(context_);
    for (const z3::expr& choice : choices) all.push_back(choice);
    optimize_.add(z3::mk_or(all));
    if (choices.size() > 1) optimize_.add(z3::atmost(all, 1));
    const std::int64_t least = *std::min_element(costs.begin(), costs.end());
    constant_ += least;
    for (std::size_t i = 0; i < choices.size(); ++i)
      if (costs[i] > least) soft_ = optimize_.add_soft(!choices[i], static_cast<unsigned>(costs[i] - least));
  }

  void add_seats() {
    for (const auto& device : model_.instance.devices) {
      seat_.emplace_back();
      std::vector<std::int64_t> costs;
      for (const Seat& seat : device) {
        seat_.back().push_back(fresh());
        costs.push_back(seat.cost);
      }
      choose(seat_.back(), costs);
    }
    for (const auto& seats : model_.seats_at_place) only_one(seats);
  }

  const z3::expr& seat(const std::pair<int, int>& which) const {
    return seat_[static_cast<std::size_t>(which.first)][static_cast<std::size_t>(which.second)];
  }

  void only_one(const std::vector<std::pair<int, int>>& seats) {
    Sum one = sum();
    for (const auto& which : seats) add(one, seat(which), 1);
    if (seats.size() > 1) at_most(one, 1);
  }

  void add_line(std::size_t k) {
    std::vector<z3::expr> choices;
    std::vector<std::int64_t> costs;
    std::map<int, z3::expr_vector> through;
    for (const Column& column : model_.columns[k]) {
      choices.push_back(fresh());
      costs.push_back(column.cost);
      for (std::size_t end = 0; end < 2; ++end) {
        const auto device = static_cast<std::size_t>(model_.instance.lines[k].devices[end]);
        if (seat_[device].size() > 1)
          optimize_.add(z3::implies(choices.back(), seat_[device][static_cast<std::size_t>(column.seats[end])]));
      }
      for (const int a : column.path) through.try_emplace(a, context_).first->second.push_back(choices.back());
    }
    choose(choices, costs);
    for (auto& [a, columns] : through) {
      const auto [at, fresh_one] = use_.emplace(std::pair(static_cast<int>(k), a),
                                                columns.size() == choices.size() ? context_.bool_val(true) : fresh());
      for (const z3::expr& column : columns) optimize_.add(z3::implies(column, at->second));
    }
  }

  const z3::expr& use(int k, const Hole& hole) const { return use_.at({k, hole.aperture}); }
  std::int64_t diameter(int k) const { return model_.instance.lines[static_cast<std::size_t>(k)].diameter; }

  void add_hole(const Hole& hole) {
    const auto& devices = model_.seats_at_aperture[static_cast<std::size_t>(hole.aperture)];
    only_one(devices);
    for (const auto& which : devices)
      for (const int k : hole.lines) optimize_.add(!seat(which) || !use(k, hole));
    add_steps(hole);
    if (hole.exclusive && hole.binds) {
      Sum one = sum();
      for (const int k : hole.lines) add(one, use(k, hole), 1);
      at_most(one, 1);
    } else if (hole.binds) {
      add_bundle(hole);
    }
  }

  /// wider_[e]: enlarged by at least e steps, for e from 1.
  void add_steps(const Hole& hole) {
    wider_.clear();
    for (int step = 1; step <= hole.steps; ++step) {
      wider_.push_back(fresh());
      if (step > 1) optimize_.add(z3::implies(wider_.back(), wider_[wider_.size() - 2]));
      if (hole.step_cost > 0) soft_ = optimize_.add_soft(!wider_.back(), static_cast<unsigned>(hole.step_cost));
    }
    for (const auto& [k, least] : hole.needs_step)
      optimize_.add(z3::implies(use(k, hole), wider_[static_cast<std::size_t>(least) - 1]));
  }

  /// sum <= value at the step there is; each step not taken weighs what it would have brought.
  void within(Sum sum, const std::vector<std::int64_t>& value, std::int64_t more = 0) {
    for (std::size_t step = 0; step < wider_.size(); ++step) add(sum, !wider_[step], value[step + 1] - value[step]);
    at_most(sum, value[wider_.size()] + more);
  }

  void add_bundle(const Hole& hole) {
    Sum area = sum();
    std::int64_t all = 0, relief = 0;
    for (const int k : hole.lines) {
      add(area, use(k, hole), diameter(k) * diameter(k));
      all += diameter(k) * diameter(k);
    }
    if (hole.alone_exceeds || !hole.equals.empty()) {
      relief = all;
      add(area, !otherwise_fine(hole), all);
    }
    within(area, hole.area, relief);
    for (const Pull& pull : hole.pulls) {
      Sum before = sum();
      std::int64_t together = 0;
      for (const int j : pull.earlier) {
        add(before, use(j, hole), diameter(j) * diameter(j));
        together += diameter(j) * diameter(j);
      }
      add(before, use(pull.line, hole), together);
      within(before, pull.budget, together);
    }
    for (const auto& [j, k] : hole.never_both) optimize_.add(!use(j, hole) || !use(k, hole));
  }

  /// True only if the lines fit for another reason than their area: one alone, or equal ones by the table.
  z3::expr otherwise_fine(const Hole& hole) {
    z3::expr fine = fresh();
    z3::expr_vector reasons(context_);
    reasons.push_back(!fine);
    if (hole.alone_exceeds) {
      reasons.push_back(fresh());
      Sum one = sum();
      const auto lines = static_cast<std::int64_t>(hole.lines.size());
      for (const int k : hole.lines) add(one, use(k, hole), 1);
      add(one, reasons.back(), lines);
      at_most(one, lines + 1);
    }
    for (const Equal& equal : hole.equals) {
      reasons.push_back(fresh());
      Sum count = sum();
      const auto lines = static_cast<std::int64_t>(hole.lines.size());
      for (const int k : hole.lines) {
        if (diameter(k) != equal.diameter)
          optimize_.add(!reasons.back() || !use(k, hole));
        else
          add(count, use(k, hole), 1);
      }
      add(count, reasons.back(), lines);
      within(count, {equal.most.begin(), equal.most.end()}, lines);
    }
    optimize_.add(z3::mk_or(reasons));
    return fine;
  }

  const Model& model_;
  z3::context& context_;
  z3::optimize& optimize_;
  std::vector<std::vector<z3::expr>> seat_;
  std::map<std::pair<int, int>, z3::expr> use_;
  std::vector<z3::expr> wider_;
  std::int64_t constant_ = 0;
  std::optional<z3::optimize::handle> soft_;
  int count_ = 0;
};

}  // namespace

Answer solve_with_z3(const Model& model, double seconds) {
  if (model.hopeless) return {Verdict::infeasible, {}};
  z3::context context;
  z3::optimize optimize(context);
  z3::params params(context);
  params.set("timeout", static_cast<unsigned>(1000 * seconds));
  // Of its ways to add up, the one that went through these instances fastest.
  params.set("maxsat_engine", context.str_symbol("wmax"));
  optimize.set(params);
  Encoder encoder(model, context, optimize);
  encoder.encode();
  const z3::check_result result = optimize.check();
  if (result == z3::unsat) return {Verdict::infeasible, {}};
  if (result != z3::sat) return {};
  return {Verdict::optimal, encoder.cost()};
}

}  // namespace route_peers
