#pragma once
// What `solve` answers: the plan of the lines with its proof, or the smallest set of lines that stand in each other's
// way.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/amount.hpp"

namespace cotter::engine::route {

enum class Status {
  optimal,     ///< proven best
  infeasible,  ///< proven that there is no way
  limit,       ///< effort ended first; what was found and what was proven are given
  bad,         ///< the problem contradicts itself, see `faults`
};

/// The way of one line.
struct Run {
  std::vector<int> path;               ///< apertures, from end 0 to end 1
  std::vector<std::int64_t> segments;  ///< mm from mark to mark: seat, apertures, seat; one more than the path
  std::int64_t way = 0;                ///< sum of the segments and the line's correction, mm; good to about 20 mm
  std::int64_t length = 0;             ///< offered length, or the length to cut, mm
  int leading_end = 0;                 ///< the end that is pulled through: the one with the smaller connector
};

/// Line `before` must be in the aperture before line `after` is pulled.
struct Precedence {
  enum class Because {
    needed,  ///< the other order fails at this aperture whatever the rest does
    chosen,  ///< no single pair is forced, but three or more lines need an order; this is the one of `pull_order`
  };
  int before = 0;
  int after = 0;
  int aperture = 0;
  Because because = Because::needed;

  bool operator==(const Precedence&) const = default;
};

/// When a device is put in through its entries.
struct DeviceEntry {
  int device = 0;
  std::vector<int> entries;
  std::vector<int> after;   ///< the lines captive to it, which go in first
  std::vector<int> before;  ///< lines that would leave no room for it
};

/// What lies in an aperture when all is pulled.
struct Fill {
  int aperture = 0;
  std::vector<int> lines;
  int area_permille = 0;  ///< of the (enlarged) opening's area, rounded up
  quantity::Length room;  ///< largest round body that is certain to fit beside them
};

struct Cost {
  std::int64_t ways = 0;
  std::int64_t apertures = 0;
  std::int64_t turns = 0;
  std::int64_t enlargement = 0;
  std::int64_t seats = 0;

  std::int64_t total() const { return ways + apertures + turns + enlargement + seats; }
  bool operator==(const Cost&) const = default;
};

/// Why a line of a conflict is in it. Fields that do not apply are empty.
struct ConflictReason {
  enum class Why {
    connector_too_large,  ///< the leading connector exceeds the aperture by `missing`, at the largest permitted size
    body_too_large,       ///< the line itself does, by `missing`
    no_length,            ///< there are ways, but no length suits any of them
    no_way,               ///< not even with every aperture wide open
    bend,                 ///< every way that is left bends sharper than the line may
    not_clear,            ///< every way that is left lies in a cell that the line must keep clear of
    pinned,               ///< no way passes the apertures it must and avoids the others
    contested,            ///< if the aperture took all lines at once there would be a way, with this line in it
  };
  int line = 0;
  Why why = Why::contested;
  std::optional<int> aperture;
  quantity::Length missing;

  bool operator==(const ConflictReason&) const = default;
};

/// Lines that cannot all be routed.
struct Conflict {
  std::vector<int> lines;    ///< empty = the devices alone cannot all be seated
  bool irreducible = false;  ///< proven: without any one of them there is a way for the others
  std::vector<ConflictReason> reasons;
};

/// Lines that might fit an aperture together, but for which no proof is at hand: they were counted as not fitting.
/// Named only where a plan that takes them for fitting would be cheaper, or would be a plan at all.
struct Undecided {
  int aperture = 0;
  std::vector<int> lines;

  bool operator==(const Undecided&) const = default;
};

/// One thing wrong with a problem: `what` as a stable word, `where` as a path such as `lines[2].ends[0]`.
struct Fault {
  std::string what;
  std::string where;

  bool operator==(const Fault&) const = default;
};

struct Result {
  Status status = Status::bad;
  std::optional<std::int64_t> objective;
  std::optional<std::int64_t> bound;    ///< no plan costs less; equal to the objective when optimal
  std::vector<int> seats;               ///< one for each device; empty without a plan, like the lists below
  std::vector<Run> runs;                ///< one for each line
  std::vector<int> enlarge;             ///< steps for each aperture
  std::vector<int> pull_order;          ///< all lines; one order that passes every aperture, thickest first where free
  std::vector<Precedence> precedences;  ///< every order that respects them passes every aperture
  std::vector<DeviceEntry> device_entries;  ///< devices with a body, on seats with entries
  std::vector<Fill> fills;                  ///< for each aperture with lines in it
  Cost cost;
  std::optional<Conflict> conflict;  ///< infeasible only
  std::vector<Undecided> undecided;  ///< exact packing only
  std::optional<std::int64_t> objective_if_undecided_fit;
  std::vector<Fault> faults;
  std::int64_t nodes = 0;
};

std::string_view word_for(Status status);
std::string_view word_for(Precedence::Because because);
std::string_view word_for(ConflictReason::Why why);

}  // namespace cotter::engine::route
