// Every rule of the shipped catalog, through the whole path: what is right, what is beside by the smallest step of its
// gauge, what stays open, and what the deciding dimension does at either side of its limit.
#include <algorithm>
#include <gtest/gtest.h>
#include <set>
#include <stdexcept>

#include "engine/fit/laws/law.hpp"
#include "model/finding.hpp"
#include "pair.hpp"
#include "quantity/text.hpp"
#include "rows.hpp"

namespace cotter::kinds {
namespace {

using model::Finding;
using quantity::Dimension;

/// One field of the row's pair: `own.bore`.
struct Spot {
  bool is_own = true;
  std::string name;
};

Spot spot_of(const std::string& text) {
  const std::size_t point = text.find('.');
  const std::string side = text.substr(0, point);
  if (side != "own" && side != "other") throw std::runtime_error(text + " is neither own. nor other.");
  return {side == "own", text.substr(point + 1)};
}

std::int64_t amount(const std::string& text, Dimension dimension) {
  const auto value = quantity::parse_value(text, dimension);
  if (!value) throw std::runtime_error(text + " is no amount");
  return value->nominal;
}

/// The smallest step that a dimension is written in at the bench: 0.01 mm, 0.01°, 0.01 bar, one.
std::int64_t smallest_step(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
    case Dimension::angle:
    case Dimension::torque:
      return 10'000;
    case Dimension::pressure:
      return 1'000;
    case Dimension::count:
      return 1;
    default:
      return 100;
  }
}

/// The gauge's own resolution where the guide gives one as an amount.
std::int64_t gauge_step(const model::KindDimension& dimension) {
  const auto read = quantity::parse_value(dimension.measure.resolution, dimension.dimension);
  return read && read->nominal > 0 ? read->nominal : smallest_step(dimension.dimension);
}

std::string exact(std::int64_t base, Dimension dimension, std::int64_t spread = 0) {
  quantity::Value value;
  value.dimension = dimension;
  value.nominal = base;
  value.lower = -spread;
  value.upper = spread;
  value.deviations = quantity::Deviations::stated;
  value.origin.kind = quantity::OriginKind::maker;
  std::string text = quantity::print_value(value);
  for (const char* word : {" maker", " ≈"})
    if (text.ends_with(word)) text.resize(text.size() - std::string(word).size());
  return text;
}

/// One row with all that it asks.
class RowCheck {
 public:
  explicit RowCheck(const Row& row) : row_(row), place_(shipped_rules().at(row.rule)) {
    pair_ = {sharp(*place_.own, row.own), sharp(*place_.other, row.other), Vouched::by_maker};
  }

  void run() {
    expect(pair_, row_.says, "as written");
    never_ok_unless_vouched();
    for (const Limit& limit : row_.limits) at(limit);
    for (const Differs& one : row_.differs) word(one);
  }

  /// Which ends of `must` and of `should`, and which words, the row has moved across.
  std::set<std::string> seen;
  std::vector<std::string> faults;

 private:
  /// Amounts of a row are exact: without deviations the kind's own would be taken.
  static std::map<std::string, std::string> sharp(const model::InterfaceKind& kind,
                                                  std::map<std::string, std::string> fields) {
    for (auto& [name, text] : fields) {
      const model::KindDimension* dimension = find_dimension(kind, name);
      if (dimension == nullptr || text == "?") continue;
      const auto value = quantity::parse_value(text, dimension->dimension);
      if (!value) throw std::runtime_error(text + " is no amount");
      if (value->deviations == quantity::Deviations::unstated) text = exact(value->nominal, dimension->dimension);
    }
    return fields;
  }

  const model::KindDimension& dimension(const Spot& spot) const {
    const auto* found = find_dimension(spot.is_own ? *place_.own : *place_.other, spot.name);
    if (found == nullptr) throw std::runtime_error("no dimension " + spot.name);
    return *found;
  }

  Pair moved(const Spot& spot, const std::string& text) const {
    Pair pair = pair_;
    (spot.is_own ? pair.own : pair.other)[spot.name] = text;
    return pair;
  }

  Finding expect(const Pair& pair, const std::string& says, const std::string& what) {
    const auto findings = findings_of(place_, pair);
    const auto found = findings.find(row_.rule);
    if (found == findings.end()) throw std::runtime_error(what + ": the joint has no finding of this rule");
    const Finding& finding = found->second;
    if (model::word_for(finding.verdict) != says)
      faults.push_back(what + ": says " + std::string(model::word_for(finding.verdict)) + ", not " + says +
                       (finding.result ? "; the number is " + std::to_string(finding.result->low().base()) : ""));
    return finding;
  }

  void never_ok_unless_vouched() {
    if (place_.rule->guards == model::Guards::nothing || place_.rule->operands.empty()) return;
    if (row_.says != "ok" && row_.says != "accept") return;
    Pair pair = pair_;
    pair.vouched = Vouched::assumed;
    expect(pair, "measure", "every value assumed");
    for (const auto& [role, ref] : place_.rule->operands) {
      if (ref.side == model::OperandRef::Side::fixed) continue;
      const bool is_own = ref.side == model::OperandRef::Side::own;
      expect(moved({is_own, ref.dimension}, "?"), "measure", role + " not known");
    }
  }

  static bool passes(const std::string& verdict) { return verdict == "ok" || verdict == "accept"; }

  void at(const Limit& limit) {
    const Spot spot = spot_of(limit.move);
    const model::KindDimension& moving = dimension(spot);
    const Dimension unit = moving.dimension;
    const std::int64_t base = amount(limit.at, unit);
    const bool holds_below = passes(limit.below);
    const std::int64_t step = limit.step.empty() ? smallest_step(unit) : amount(limit.step, unit);
    const std::int64_t gauge = std::max(limit.step.empty() ? gauge_step(moving) : step, step);
    const auto set = [&](std::int64_t to, std::int64_t spread = 0) { return moved(spot, exact(to, unit, spread)); };
    const std::string where = limit.move + " at " + limit.at;
    expect(set(base),
           passes(limit.below) == passes(limit.above) ? milder(limit)
           : holds_below                              ? limit.below
                                                      : limit.above,
           where);
    const Finding low = expect(set(base - step), limit.below, where + " less one step");
    const Finding high = expect(set(base + step), limit.above, where + " and one step");
    if (passes(limit.below) && passes(limit.above)) {
      note_wish(holds_wish(limit) ? high : low);
      return;
    }
    note_moved(spot);
    seen.insert(holds_below ? "too much" : "too little");
    if (holds_below == passes(limit.above)) throw std::runtime_error(where + " does not change whether the pair mates");
    const std::string beyond = holds_below ? limit.above : limit.below;
    note(expect(set(holds_below ? base + gauge : base - gauge), beyond, where + ", beside by one step of its gauge"));
    note(holds_below ? high : low);
    expect(set(base, gauge), "measure", where + ", read with its gauge only");
  }

  static std::string milder(const Limit& limit) {
    if (limit.below == "ok" || limit.above == "ok") return "ok";
    return "accept";
  }
  static bool holds_wish(const Limit& limit) { return limit.below == "ok"; }

  void note(const Finding& finding) {
    if (finding.governs == model::Edge::from) seen.insert("must from");
    if (finding.governs == model::Edge::to) seen.insert("must to");
  }

  /// Which of the law's equal pairs (pitch, number of holes) this dimension belongs to.
  void note_moved(const Spot& spot) {
    const auto& spec = engine::fit::law_spec(*engine::fit::law_from_word(place_.rule->law));
    for (const auto& equality : spec.equalities)
      for (const std::size_t role : {equality.own, equality.other}) {
        const model::OperandRef& ref = place_.rule->operands.at(std::string(spec.roles[role].name));
        const bool is_own = ref.side == model::OperandRef::Side::own;
        if (ref.dimension == spot.name && is_own == spot.is_own) seen.insert("equal " + std::string(equality.name));
      }
  }

  void note_wish(const Finding& finding) {
    if (!finding.result || !finding.should) throw std::runtime_error("a wish without a window");
    seen.insert(finding.result->low() < finding.should->low() ? "should from" : "should to");
  }

  void word(const Differs& one) {
    const Spot spot = spot_of(one.set);
    const auto* counted = find_dimension(spot.is_own ? *place_.own : *place_.other, spot.name);
    const std::string to = counted == nullptr ? one.to : exact(amount(one.to, counted->dimension), counted->dimension);
    expect(moved(spot, to), one.says, one.set + " " + one.to);
    expect(moved(spot, "?"), "measure", one.set + " not known");
    note_moved(spot);
    for (const auto& [role, words] : place_.rule->words)
      if (spot.name == (spot.is_own ? words.first : words.second)) seen.insert("word " + role);
  }

  const Row& row_;
  const RulePlace& place_;
  Pair pair_;
};

/// What the rows of a rule must move across.
std::set<std::string> wanted(const model::Rule& rule) {
  const auto& spec = engine::fit::law_spec(*engine::fit::law_from_word(rule.law));
  std::set<std::string> out;
  const bool bare = !rule.must.from && !rule.must.to;
  using enum engine::fit::Unwindowed;
  if (!spec.number.empty()) {
    if (rule.must.from || (spec.unwindowed == at_least_zero) || (spec.unwindowed == zero && bare))
      out.insert("must from");
    if (rule.must.to || (spec.unwindowed == zero && bare)) out.insert("must to");
  }
  // A wish that ends where the limit does cannot be missed alone.
  const auto apart = [](const auto& wish, const auto& limit) {
    return wish && (!limit || wish->nominal != limit->nominal);
  };
  if (apart(rule.should.from, rule.must.from)) out.insert("should from");
  if (apart(rule.should.to, rule.must.to)) out.insert("should to");
  for (const auto& [role, words] : rule.words) out.insert("word " + role);
  for (const auto& equality : spec.equalities) out.insert("equal " + std::string(equality.name));
  // The least of two numbers has one window and two ways to miss it; so has a bolt between too short and too long.
  const auto depth = rule.operands.find("depth");
  const bool bottoms = depth != rule.operands.end() && depth->second.side != model::OperandRef::Side::fixed;
  if (spec.number.size() > 1 || bottoms) out.insert({"too little", "too much"});
  return out;
}

struct Judged {
  std::vector<std::string> faults;
  std::map<std::string, std::set<std::string>> seen;  ///< by rule
};

const Judged& judged() {
  static const Judged all = [] {
    Judged out;
    for (const Row& row : read_rows(std::string(COTTER_SOURCE_DIR) + "/tests/kinds/rows")) {
      const auto fault = [&](const std::string& text) {
        out.faults.push_back(row.place + ": " + row.rule + ": " + text);
      };
      if (!shipped_rules().contains(row.rule)) {
        fault("no rule of this name");
        continue;
      }
      try {
        RowCheck check(row);
        check.run();
        for (const std::string& text : check.faults) fault(text);
        out.seen[row.rule].merge(check.seen);
      } catch (const std::runtime_error& error) {
        fault(error.what());
      }
    }
    return out;
  }();
  return all;
}

TEST(Kinds, EveryRowSaysWhatWasWrittenByHand) {
  for (const std::string& fault : judged().faults) ADD_FAILURE() << fault;
}

TEST(Kinds, PartsOfTheCatalogSayWhatWasWrittenByHand) {
  for (const PartPair& pair : read_part_pairs(std::string(COTTER_SOURCE_DIR) + "/tests/kinds/pairs.yaml")) {
    try {
      std::map<std::string, std::string> says;
      for (const auto& [rule, finding] : findings_of(pair.own, pair.other))
        says[rule] = std::string(model::word_for(finding.verdict));
      EXPECT_EQ(says, pair.says) << pair.place << ": " << pair.own << " and " << pair.other;
    } catch (const std::runtime_error& error) {
      ADD_FAILURE() << pair.place << ": " << error.what();
    }
  }
}

TEST(Kinds, EveryRuleHasARowForEachOfItsEndsAndWords) {
  for (const auto& [id, place] : shipped_rules()) {
    const auto found = judged().seen.find(id);
    if (found == judged().seen.end()) {
      ADD_FAILURE() << "no row for " << id << " (own " << place.own->id << ", other " << place.other->id << ")";
      continue;
    }
    for (const std::string& end : wanted(*place.rule))
      if (!found->second.contains(end)) ADD_FAILURE() << "no row of " << id << " moves across: " << end;
  }
}

}  // namespace
}  // namespace cotter::kinds
