#pragma once
// The order of work: operations with what must be done before, the accesses they need open, and the accesses they open
// and close. An access is an opening that is open or closed at any moment; the seat tube's top, the empty shell.
//
// Not here: work done by two people at once, waiting times, and the undoing of steps. Rules and sources:
// docs/sequence.md.

#include <cstdint>
#include <string>
#include <vector>

namespace cotter::engine::sequence {

struct Access {
  std::string id;
  bool open_at_start = true;
};

enum class Reversible { yes, costly, no };

struct Operation {
  std::string id;
  std::vector<std::string> after{};                    ///< operations that must all be done earlier
  std::vector<std::vector<std::string>> needs_open{};  ///< of each group, one access at least must be open
  std::vector<std::string> closes{};                   ///< closed once the operation is done
  std::vector<std::string> opens{};                    ///< open once it is done, even if it closes the same access
  std::string position{};                              ///< how the bicycle stands; empty: any
  std::string side{};                                  ///< where the mechanic stands; empty: any
  std::vector<std::string> tools{};
  std::int64_t hundredths_of_minute = 0;
  Reversible reversible = Reversible::yes;
  bool checks = false;  ///< only looks or measures; done early among equals
};

/// Something still to be chosen, and the operations that cannot be done without it.
struct Choice {
  std::string id;
  std::vector<std::string> used_by;
};

struct Problem {
  std::vector<Operation> operations;
  std::vector<Access> accesses;
  std::vector<Choice> choices;
};

struct Options {
  /// Most states looked at, in each search.
  std::int64_t node_limit = 200'000;
};

/// Why one operation must come before another, or cannot come at all. Operations and accesses by index.
struct Reason {
  enum class Kind {
    after,               ///< `later` names `earlier`
    needs_before_close,  ///< `earlier` needs `access`, which `later` closes and nothing opens again
    opens_before_need,   ///< `earlier` opens `access`, which is closed until then, and `later` needs it
    needs_one_of         ///< `later` needs one of `accesses` open; `earlier` is the same operation
  };
  Kind kind = Kind::after;
  std::size_t earlier = 0;
  std::size_t later = 0;
  std::vector<std::size_t> accesses{};
  bool operator==(const Reason&) const = default;
};

/// A name that is used and does not exist, or exists twice.
struct Fault {
  enum class Kind { unknown_operation, unknown_access, double_id, empty_group, negative_minutes };
  Kind kind;
  std::string where;  ///< id of the operation, access or choice that has the fault
  std::string name;
  bool operator==(const Fault&) const = default;
};

struct DecideBy {
  std::size_t choice = 0;
  std::size_t operation = 0;  ///< the first of the order that uses the choice
  std::size_t place = 0;      ///< its place in the order, counted from 0
};

enum class Status {
  bad,         ///< see `faults`
  ordered,     ///< `order` is legal
  impossible,  ///< proven: no order is legal; see `circle` or `conflict`
  unfinished   ///< the node limit came first
};

struct Result {
  Status status = Status::bad;
  std::vector<Fault> faults;
  std::vector<std::size_t> order;
  int position_changes = 0;
  int least_position_changes = 0;  ///< no order has fewer: one less than there are positions
  int side_changes = 0;
  int tool_changes = 0;  ///< steps for which a tool must be fetched that the step before did not use
  std::int64_t hundredths_of_minute = 0;
  std::vector<DecideBy> decide_by;  ///< choices that some operation uses
  /// Precedences of which each one's later operation is the next one's earlier, and the last's later the first's
  /// earlier: a shortest circle.
  std::vector<Reason> circle;
  /// Demands that no order meets together, when no circle of precedences says it.
  std::vector<Reason> conflict;
  bool conflict_is_least = false;  ///< none of `conflict` can be left out; false when the node limit left that open
  /// Whether precedences alone say everything; otherwise states were searched.
  bool precedence_complete = false;
  std::int64_t nodes = 0;
};

}  // namespace cotter::engine::sequence
