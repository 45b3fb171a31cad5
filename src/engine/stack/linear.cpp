#include "engine/stack/linear.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace cotter::engine::stack {
namespace {

using Index = std::map<std::string, std::size_t>;

/// Looks names up and collects what is wrong on the way.
class Resolver {
 public:
  explicit Resolver(const Problem& problem) : problem_(problem) {}

  tl::expected<Linear, std::vector<Fault>> resolve() {
    terms_ = index_of(problem_.terms);
    slots_ = index_of(problem_.slots);
    kit_ = index_of(problem_.kit);
    index_of(problem_.forms);
    check_bounds();
    Linear linear;
    for (const Form& form : problem_.forms) linear.forms.push_back(linear_form(form));
    for (std::size_t slot = 0; slot < problem_.slots.size(); ++slot) add_variables(slot, linear.variables);
    std::sort(linear.variables.begin(), linear.variables.end(), [this](const Variable& a, const Variable& b) {
      const Length thick_a = problem_.kit[a.piece].thickness, thick_b = problem_.kit[b.piece].thickness;
      return std::tuple(thick_b, a.piece, a.slot) < std::tuple(thick_a, b.piece, b.slot);
    });
    if (!faults_.empty()) return tl::unexpected(faults_);
    return linear;
  }

 private:
  template <class T>
  Index index_of(const std::vector<T>& list) {
    Index index;
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (!index.emplace(list[i].id, i).second) add(Fault::Kind::double_id, list[i].id, list[i].id);
    }
    return index;
  }

  void check_bounds() {
    for (const Term& term : problem_.terms) {
      check(term.interval, term.id, "interval");
      if (!term.interval.contains(term.nominal)) add(Fault::Kind::out_of_bounds, term.id, "nominal");
    }
    for (const Piece& piece : problem_.kit) {
      const bool thick = piece.thickness > Length{} && piece.thickness <= k_most_length;
      if (!thick) add(Fault::Kind::out_of_bounds, piece.id, "thickness");
      if (piece.count < 0) add(Fault::Kind::out_of_bounds, piece.id, "count");
    }
    std::int64_t pieces = 0;
    for (const Slot& slot : problem_.slots) {
      pieces += slot.most_pieces;
      if (slot.most_pieces < 0 || pieces > k_most_pieces) add(Fault::Kind::out_of_bounds, slot.id, "most_pieces");
    }
    check_count(problem_.terms.size(), k_most_terms, "terms");
    check_count(problem_.forms.size(), k_most_forms, "forms");
    check_count(problem_.slots.size(), k_most_slots, "slots");
    check_count(problem_.kit.size(), k_most_kinds, "kit");
  }

  void check_count(std::size_t count, std::size_t most, const std::string& list) {
    if (count > most) add(Fault::Kind::out_of_bounds, list, list);
  }

  void check(Interval<Length> interval, const std::string& where, const std::string& name) {
    if (interval.low() < -k_most_length || interval.high() > k_most_length) {
      add(Fault::Kind::out_of_bounds, where, name);
    }
  }

  void check_window(const std::optional<Interval<Length>>& window, const std::string& where, const std::string& name) {
    if (!window) return;
    const Length low = window->low() == k_no_low ? Length{} : window->low();
    const Length high = window->high() == k_no_high ? low : window->high();
    check({std::min(low, high), std::max(low, high)}, where, name);
  }

  std::int64_t checked_factor(std::int64_t factor, const std::string& form, const std::string& name) {
    if (factor >= -k_most_factor && factor <= k_most_factor) return factor;
    add(Fault::Kind::out_of_bounds, form, name);
    return 0;
  }

  LinearForm linear_form(const Form& form) {
    LinearForm linear;
    linear.slot_factors.assign(problem_.slots.size(), 0);
    linear.divisor = form.half ? 2 : 1;
    check_window(form.window, form.id, "window");
    check_window(form.wish, form.id, "wish");
    if (form.target) check(Interval<Length>(*form.target), form.id, "target");
    if (form.window) linear.window = scaled(*form.window, linear.divisor);
    if (form.wish) linear.wish = scaled(*form.wish, linear.divisor);
    if (form.target) linear.target = *form.target * linear.divisor;
    add_factors(form, linear);
    for (const Factor& factor : linear.factors) {
      linear.range = linear.range + scaled(problem_.terms[factor.term].interval, factor.factor);
      linear.nominal += problem_.terms[factor.term].nominal * factor.factor;
    }
    return linear;
  }

  void add_factors(const Form& form, LinearForm& linear) {
    for (const auto& [name, factor] : form.coefficients) {
      const auto found = terms_.find(name);
      const std::int64_t checked = checked_factor(factor, form.id, name);
      if (found == terms_.end()) {
        add(Fault::Kind::unknown_term, form.id, name);
      } else if (checked != 0) {
        linear.factors.push_back({found->second, checked});
      }
    }
    std::sort(linear.factors.begin(), linear.factors.end(),
              [](const Factor& a, const Factor& b) { return a.term < b.term; });
    for (const auto& [name, factor] : form.slot_coefficients) {
      const auto found = slots_.find(name);
      const std::int64_t checked = checked_factor(factor, form.id, name);
      if (found == slots_.end()) {
        add(Fault::Kind::unknown_slot, form.id, name);
      } else {
        linear.slot_factors[found->second] = checked;
      }
    }
  }

  void add_variables(std::size_t slot_index, std::vector<Variable>& variables) {
    const Slot& slot = problem_.slots[slot_index];
    std::set<std::size_t> allowed;
    for (const std::string& name : slot.allowed) {
      const auto found = kit_.find(name);
      if (found == kit_.end()) {
        add(Fault::Kind::unknown_piece, slot.id, name);
      } else {
        allowed.insert(found->second);
      }
    }
    for (std::size_t piece = 0; piece < problem_.kit.size(); ++piece) {
      if (!slot.allowed.empty() && allowed.count(piece) == 0) continue;
      const int most = std::min(slot.most_pieces, problem_.kit[piece].count);
      if (most > 0) variables.push_back({slot_index, piece, most});
    }
  }

  void add(Fault::Kind kind, std::string where, std::string name) {
    faults_.push_back({kind, std::move(where), std::move(name)});
  }

  const Problem& problem_;
  Index terms_, slots_, kit_;
  std::vector<Fault> faults_;
};

}  // namespace

Interval<Length> scaled(Interval<Length> interval, std::int64_t factor) {
  const Length a = interval.low() * factor;
  const Length b = interval.high() * factor;
  return {std::min(a, b), std::max(a, b)};
}

tl::expected<Linear, std::vector<Fault>> resolve(const Problem& problem) {
  return Resolver(problem).resolve();
}

}  // namespace cotter::engine::stack
