#pragma once
// A stack as linear forms over named lengths: a shell with its cups and spacers, a headset with its shims, a steerer
// with its cut, a plug in its clamp zone. Pieces from a kit go into slots until every form that has a window is in it.
//
// Not for: lengths that bear on each other other than by adding up (tapers, press fits), or spacers whose own
// tolerance matters: pieces are taken at their measured thickness. Formulas and sources: docs/stack.md.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "quantity/amount.hpp"
#include "quantity/interval.hpp"

namespace cotter::engine::stack {

using quantity::Certainty;
using quantity::Interval;
using quantity::Length;

/// Beyond these a problem is refused, so that every sum stays inside 64 bits and the search's tables stay small.
inline constexpr Length k_most_length = quantity::nanometres(1'000'000'000'000);
inline constexpr std::int64_t k_most_factor = 8;
inline constexpr std::size_t k_most_terms = 256;
inline constexpr std::size_t k_most_forms = 64;
inline constexpr std::size_t k_most_slots = 16;
inline constexpr std::size_t k_most_kinds = 64;  ///< kinds of piece in the kit
inline constexpr int k_most_pieces = 64;         ///< that all slots together may take

/// One length of the stack.
struct Term {
  std::string id;
  Interval<Length> interval;
  Length nominal;
  bool attested = true;  ///< measured, or from a maker's or a standard's paper
  bool known = true;     ///< false: the interval is merely what is possible, so it has no distribution
};

/// A spacer, shim or ring at hand, and how many of it there are for all slots together.
struct Piece {
  std::string id;
  Length thickness;
  int count = 0;
};

/// A place along the axis that takes pieces.
struct Slot {
  std::string id;
  int most_pieces = 0;
  std::vector<std::string> allowed{};  ///< pieces that may go here; empty = any
};

/// factor * term + ... + factor * (pieces in a slot) + ..., halved when `half` is set (a distance from the middle).
struct Form {
  std::string id;
  std::map<std::string, std::int64_t> coefficients{};       ///< term -> factor
  std::map<std::string, std::int64_t> slot_coefficients{};  ///< slot -> factor
  bool half = false;
  std::optional<Interval<Length>> window{};  ///< where the form must lie; none: the form is only reported
  std::optional<Interval<Length>> wish{};    ///< where common practice puts it; only ranks
  std::optional<Length> target{};            ///< the nearer the nominal, the better the rank
  std::string source{};                      ///< where the window comes from; handed through
};

/// The end of a window that has no such end; no sum within the bounds above gets there.
inline constexpr Length k_no_high = quantity::nanometres(100'000'000'000'000'000);
inline constexpr Length k_no_low = -k_no_high;

struct Problem {
  std::vector<Term> terms;
  std::vector<Slot> slots;
  std::vector<Piece> kit;
  std::vector<Form> forms;
};

struct Options {
  /// Most partial spacer sets looked at, over all piece counts.
  std::int64_t node_limit = 4'000'000;
  /// Most sets returned; the best ranked are kept, the others counted.
  std::size_t most_sets = 10;
  /// Partial sets of one piece count gone through before sets are counted by their sums; the answer is the same.
  std::int64_t few_nodes = 4'000;
};

/// The form lies in here whatever its terms are within their limits.
struct WorstCase {
  Interval<Length> range;
};

/// Middle of the limits, and root of the sum of squares of the half widths of the terms. Both in nanometres.
/// **Not for** a verdict: it assumes independent, centred errors.
struct RootSumSquare {
  double centre_nm = 0;
  double plus_minus_nm = 0;
};

/// Chance that the form is in its window when each term is spread evenly and independently over its limits.
struct Probability {
  double inside = 0;
};

enum class Edge { low, high };

/// Room between the worst case and the nearer edge of the window; negative when the worst case passes that edge.
struct Margin {
  Length room;
  Edge edge = Edge::low;
};

/// Would the form be decided if this term were measured exactly?
enum class Settles { always, sometimes, never };

/// What one wide term does to the answer.
struct Influence {
  std::size_t term = 0;
  double share = 0;  ///< part of the form's width that comes from this term, 0 to 1
  Settles settles = Settles::never;
  double settled_share = 0;  ///< part of the term's range in which measuring it decides the form, 0 to 1
};

/// A form with given pieces in the slots. Lengths of halved forms are rounded outward to whole nanometres; `status` is
/// decided before the rounding.
struct FormState {
  Length nominal;
  WorstCase worst_case;
  std::optional<RootSumSquare> root_sum_square;  ///< none when an unknown term takes part
  std::optional<Probability> probability;  ///< none without a window, with an unknown term, or with too many terms
  std::optional<Certainty> status;         ///< none without a window
  std::optional<Margin> margin;
  std::optional<Certainty> wish;
  std::vector<Influence> influences;  ///< wide terms, the one to measure first in front
};

struct FormResult {
  FormState without;                    ///< no pieces in any slot
  std::optional<FormState> with_best;   ///< with the first of the sets
  std::vector<std::size_t> unattested;  ///< terms the form rests on that nobody vouches for
};

struct Use {
  std::size_t slot = 0;
  std::size_t piece = 0;
  int count = 0;
  bool operator==(const Use&) const = default;
};

/// A form with the pieces of one set in.
struct Outlook {
  WorstCase worst_case;
  std::optional<Probability> probability;
};

/// So many of the best sets come with worst case and probability of each form.
inline constexpr std::size_t k_sets_with_outlook = 10;

/// Pieces in the slots that put every window form in its window, for certain or possibly.
struct SpacerSet {
  std::vector<Use> uses;             ///< by slot, then by piece
  std::vector<Length> slot_lengths;  ///< what each slot adds up to
  int pieces = 0;
  Certainty status = Certainty::open;  ///< holds or open
  std::vector<std::size_t> open_forms;
  std::vector<std::size_t> outside_wish;  ///< forms not for certain in their wish
  std::vector<Outlook> outlooks;          ///< one for each form; only of the best `k_sets_with_outlook`
  Length off_target;                      ///< distances of the nominals from their targets, added up, rounded up
};

/// How near the best set comes when no set will do.
struct NearestMiss {
  std::size_t form = 0;
  Length off;  ///< negative: the form stays this much below its window even at its greatest; positive: above it
  std::vector<Use> uses;
};

/// A term whose measurement would decide open forms, over all of them.
struct Measurement {
  std::size_t term = 0;
  std::vector<std::size_t> settles;     ///< forms decided whatever is measured
  std::vector<std::size_t> may_settle;  ///< forms decided by some of the values
  double settled_share = 0;             ///< greatest over the open forms
  double share = 0;                     ///< greatest over the open forms
};

enum class Status {
  bad,                ///< a name that is used does not exist, or a number is out of bounds: see `faults`
  fits_without,       ///< every window holds for certain with empty slots
  fits_with_spacers,  ///< and with the sets given
  open,               ///< some set may do; for certain none does
  no_set,             ///< proven: no set will do
  unfinished          ///< the node limit came first
};

/// What is wrong with a problem.
struct Fault {
  enum class Kind { unknown_term, unknown_slot, unknown_piece, double_id, out_of_bounds };
  Kind kind;
  std::string where;  ///< id of the form, slot, piece or term that has the fault
  std::string name;   ///< the name that is not known, or is there twice, or the quantity that is out of bounds
  bool operator==(const Fault&) const = default;
};

struct Result {
  Status status = Status::bad;
  std::vector<Fault> faults;
  std::vector<FormResult> forms;  ///< in the order of the problem
  /// The best of all smallest certain sets, then, when they need no more pieces, of the smallest open ones.
  std::vector<SpacerSet> sets;
  std::size_t sets_left_out = 0;            ///< how many such sets there are beside
  std::optional<NearestMiss> nearest_miss;  ///< with no_set
  std::vector<Measurement> measure_first;   ///< with the best set, or without pieces when there is none
  bool complete = true;  ///< false: the node limit cut the search; sets, or a nearer miss, may be missing
  std::int64_t nodes = 0;
};

}  // namespace cotter::engine::stack
