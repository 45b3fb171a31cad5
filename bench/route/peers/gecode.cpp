// Gecode on the columns: one variable a line (its column, cheapest first), one a device (its seat), one a hole (its
// step).
#include <algorithm>
#include <gecode/int.hh>
#include <gecode/minimodel.hh>
#include <gecode/search.hh>
#include <map>
#include <memory>

#include "answer.hpp"

namespace route_peers {

namespace {

using namespace Gecode;

int whole(std::int64_t n) {
  return static_cast<int>(n);
}

class Frame : public IntMinimizeSpace {
 public:
  Frame(const Model& model, GecodeSearch search) : model_(&model) {
    add_seats();
    for (std::size_t k = 0; k < model.columns.size(); ++k) add_line(k);
    for (const Hole& hole : model.holes) add_hole(hole);
    column = IntVarArray(*this, columns_);
    line_cost = IntVarArray(*this, line_costs_);
    other = IntVarArray(*this, others_);
    total = expr(*this, sum(all_costs_));
    branch_by(search);
    columns_ = line_costs_ = others_ = seats_ = IntVarArgs();
    all_costs_ = IntVarArgs();
    use_.clear();
  }
  Frame(Frame& from) : IntMinimizeSpace(from), model_(from.model_) {
    column.update(*this, from.column);
    line_cost.update(*this, from.line_cost);
    other.update(*this, from.other);
    total.update(*this, from.total);
  }
  Space* copy() override { return new Frame(*this); }
  IntVar cost() const override { return total; }

  IntVarArray column, line_cost, other;
  IntVar total;

 private:
  void add_seats() {
    for (const auto& device : model_->instance.devices) {
      seats_ << IntVar(*this, 0, whole(static_cast<std::int64_t>(device.size())) - 1);
      IntArgs costs;
      for (const Seat& seat : device) costs << whole(seat.cost);
      all_costs_ << expr(*this, Gecode::element(costs, seats_[seats_.size() - 1]));
      others_ << seats_[seats_.size() - 1];
    }
    for (const auto& at_place : model_->seats_at_place) only_one(seat_flags(at_place));
  }

  BoolVarArgs seat_flags(const std::vector<std::pair<int, int>>& which) {
    BoolVarArgs flags;
    for (const auto& [d, s] : which) flags << expr(*this, seats_[d] == s);
    return flags;
  }

  void only_one(const BoolVarArgs& flags) {
    if (flags.size() > 1) linear(*this, flags, IRT_LQ, 1);
  }

  void add_line(std::size_t k) {
    const auto& columns = model_->columns[k];
    columns_ << IntVar(*this, 0, static_cast<int>(columns.size()) - 1);
    const IntVar& x = columns_[columns_.size() - 1];
    IntArgs costs;
    for (const Column& c : columns) costs << whole(c.cost);
    IntVar cost(*this, costs[0], costs[costs.size() - 1]);
    element(*this, costs, x, cost, IPL_DOM);
    line_costs_ << cost;
    all_costs_ << cost;
    for (std::size_t end = 0; end < 2; ++end) {
      const int device = model_->instance.lines[k].devices[end];
      if (model_->instance.devices[static_cast<std::size_t>(device)].size() == 1) continue;
      IntArgs seats;
      for (const Column& c : columns) seats << c.seats[end];
      element(*this, seats, x, seats_[device], IPL_DOM);
    }
    for (const Hole& hole : model_->holes) {
      if (std::find(hole.lines.begin(), hole.lines.end(), static_cast<int>(k)) == hole.lines.end()) continue;
      std::vector<int> through;
      for (std::size_t c = 0; c < columns.size(); ++c)
        if ((columns[c].apertures >> hole.aperture & 1) != 0) through.push_back(static_cast<int>(c));
      BoolVar flag(*this, 0, 1);
      dom(*this, x, IntSet(through.data(), static_cast<int>(through.size())), flag);
      use_[{static_cast<int>(k), hole.aperture}] = flag;
    }
  }

  const BoolVar& use(int k, const Hole& hole) const { return use_.at({k, hole.aperture}); }
  int square(int k) const {
    const std::int64_t d = model_->instance.lines[static_cast<std::size_t>(k)].diameter;
    return whole(d * d);
  }

  void add_hole(const Hole& hole) {
    const BoolVarArgs devices = seat_flags(model_->seats_at_aperture[static_cast<std::size_t>(hole.aperture)]);
    BoolVarArgs lines;
    for (const int k : hole.lines) lines << use(k, hole);
    if (hole.exclusive) {
      only_one(devices + lines);
    } else {
      only_one(devices);
      for (int d = 0; d < devices.size(); ++d)
        for (int k = 0; k < lines.size(); ++k) rel(*this, devices[d], BOT_AND, lines[k], 0);
    }
    IntVar step(*this, 0, hole.steps);
    if (hole.steps > 0) {
      all_costs_ << expr(*this, step * whole(hole.step_cost));
      others_ << step;
    }
    for (const auto& [k, least] : hole.needs_step) rel(*this, step, IRT_GQ, least, imp(use(k, hole)));
    if (!hole.exclusive && hole.binds) add_bundle(hole, lines, step);
  }

  IntVar at_step(const std::vector<std::int64_t>& values, const IntVar& step) {
    if (values.size() == 1 || step.assigned()) return IntVar(*this, whole(values.front()), whole(values.front()));
    IntArgs table;
    for (const std::int64_t v : values) table << whole(v);
    IntVar value(*this, table[0], table[table.size() - 1]);
    element(*this, table, step, value);
    return value;
  }

  void add_bundle(const Hole& hole, const BoolVarArgs& lines, const IntVar& step) {
    IntArgs squares;
    for (const int k : hole.lines) squares << square(k);
    const IntVar area = at_step(hole.area, step);
    if (!hole.alone_exceeds && hole.equals.empty()) {
      linear(*this, squares, lines, IRT_LQ, area);
    } else {
      BoolVarArgs reasons;
      reasons << BoolVar(*this, 0, 1);
      linear(*this, squares, lines, IRT_LQ, area, imp(reasons[0]));
      reasons << BoolVar(*this, 0, 1);
      linear(*this, lines, IRT_LQ, 1, imp(reasons[1]));
      for (const Equal& equal : hole.equals) reasons << equal_flag(hole, lines, step, equal);
      rel(*this, BOT_OR, reasons, 1);
    }
    for (const Pull& pull : hole.pulls) {
      IntArgs before;
      BoolVarArgs earlier;
      for (const int j : pull.earlier) {
        before << square(j);
        earlier << use(j, hole);
      }
      linear(*this, before, earlier, IRT_LQ, at_step(pull.budget, step), imp(use(pull.line, hole)));
    }
    for (const auto& [j, k] : hole.never_both) rel(*this, use(j, hole), BOT_AND, use(k, hole), 0);
  }

  BoolVar equal_flag(const Hole& hole, const BoolVarArgs& lines, const IntVar& step, const Equal& equal) {
    BoolVar flag(*this, 0, 1);
    BoolVarArgs same;
    for (int i = 0; i < lines.size(); ++i) {
      const int k = hole.lines[static_cast<std::size_t>(i)];
      if (model_->instance.lines[static_cast<std::size_t>(k)].diameter == equal.diameter)
        same << lines[i];
      else
        rel(*this, flag, BOT_AND, lines[i], 0);
    }
    linear(*this, same, IRT_LQ, at_step({equal.most.begin(), equal.most.end()}, step), imp(flag));
    return flag;
  }

  void branch_by(GecodeSearch search) {
    if (search == GecodeSearch::thickness_of_domain) {
      branch(*this, column, INT_VAR_SIZE_MIN(), INT_VAL_MIN());
    } else if (search == GecodeSearch::failures) {
      branch(*this, column, INT_VAR_AFC_SIZE_MAX(0.99), INT_VAL_MIN());
    } else {
      branch(*this, line_cost, INT_VAR_REGRET_MIN_MAX(), INT_VAL_MIN());
      branch(*this, column, INT_VAR_NONE(), INT_VAL_MIN());
    }
    branch(*this, other, INT_VAR_NONE(), INT_VAL_MIN());
  }

  const Model* model_;
  IntVarArgs columns_, line_costs_, others_, seats_, all_costs_;
  std::map<std::pair<int, int>, BoolVar> use_;
};

template <class Engine>
Answer run(Engine& engine) {
  Answer answer;
  while (Frame* frame = engine.next()) {
    answer.objective = frame->total.val();
    delete frame;
  }
  if (engine.stopped()) return {};
  answer.verdict = answer.objective ? Verdict::optimal : Verdict::infeasible;
  return answer;
}

}  // namespace

Answer solve_with_gecode(const Model& model, GecodeSearch search, double seconds) {
  if (model.hopeless) return {Verdict::infeasible, {}};
  const auto frame = std::make_unique<Frame>(model, search);
  Search::TimeStop stop(1000 * seconds);
  Search::Options options;
  options.threads = 1;
  options.stop = &stop;
  if (search == GecodeSearch::failures) {
    options.cutoff = Search::Cutoff::geometric(250, 1.5);
    options.nogoods_limit = 128;
    RBS<Frame, BAB> engine(frame.get(), options);
    return run(engine);
  }
  BAB<Frame> engine(frame.get(), options);
  return run(engine);
}

}  // namespace route_peers
