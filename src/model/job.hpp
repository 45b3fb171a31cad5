#pragma once
// A job is one bicycle being built: sheet (edited), decisions (chosen), journal (append-only).

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/bicycle.hpp"
#include "model/operation.hpp"
#include "model/part.hpp"

namespace cotter::model {

/// What fills a place of the template; `id` is the job's own name for it.
struct Place {
  std::string id;
  std::string is;                                 ///< place of the template
  std::string part;                               ///< part id; empty: open
  bool ordered = false;                           ///< already at hand or ordered
  std::map<std::string, quantity::Value> values;  ///< `interface.dimension` -> value that replaces the part's own
  bool used = false;                              ///< this piece is used, whatever the part's entry says
  std::optional<Condition> condition{};           ///< of this very piece
  std::string seat{};                             ///< the seat of the template it must sit on; empty: any
};

/// A way that was measured with a string or liner lying in the frame; it replaces the computed one.
struct MeasuredWay {
  std::int64_t way = 0;  ///< millimetres from end to end
  std::string by, on;
};

/// A line wanted between two ports.
struct LineWish {
  std::string id;
  std::string part;  ///< empty: the lead of the device at `from`
  std::string from_place, from_port, to_place, to_port;
  std::int64_t least_slack = 0;        ///< millimetres
  std::int64_t most_stow = 0;          ///< millimetres of surplus that can be stowed, for offered lengths
  std::int64_t surfaces = 0;           ///< how often it may come out and go in again
  std::vector<std::string> through{};  ///< `place.opening`s that the builder pins it to
  std::vector<std::string> avoid{};    ///< `place.opening`s that it must not pass
  std::optional<MeasuredWay> measured{};
};

/// An opening that something else sits in, and what.
struct TakenOpening {
  std::string opening;  ///< `place.opening`
  std::string by;
};

/// Which hand works the front brake, as a person has confirmed it for this rider.
struct BrakeHands {
  bool left_is_front = true;
  std::string by, on;
};

/// A maker's written statement for one part of this bicycle, which sets its own limit in the place of a rule's.
struct Paper {
  std::string id;
  std::string finding;     ///< whose limit it sets
  std::string part;        ///< id of the part that it is for
  std::string written_by;  ///< the maker, described: "maker of the frame"
  std::string document;    ///< title
  std::string page;
  std::string on;           ///< date of the document
  Window limit;             ///< an end that is left out stays the rule's own
  std::string signed_by;    ///< who has read it and answers for it
  std::string signed_when;  ///< and on which day
};

struct Sheet {
  std::string id;
  std::string title;
  std::string note;
  std::string bicycle;
  std::string revision;
  std::vector<Part> parts;  ///< parts written in the job
  std::vector<Place> places;
  std::vector<JointForm> joints;  ///< joints beyond those of the template
  std::vector<LineWish> lines;
  std::vector<TakenOpening> taken;
  std::optional<BrakeHands> hands;             ///< empty: nobody has said
  std::map<std::string, std::string> aliases;  ///< old name -> name now
  Shop shop;
  std::vector<Paper> papers;
};

/// Which end of a limit a decision passes; `nothing`: it signs for what lies within every limit.
enum class Passes { nothing, below, above };
std::string_view word_for(Passes passes);
Passes passes_from(std::string_view word);

/// A person's answer to a finding that may be accepted.
struct Decision {
  std::string finding;
  std::string by;
  std::string when;
  std::string reason;
  std::int64_t margin = 0;  ///< margin when it was accepted, base units of the finding's result
  Passes passes = Passes::nothing;
};

/// One line of the journal. Never edited; an undo is a new line that names an old one.
struct JournalEntry {
  enum class Kind { value, sign_off, fact, undo, accept };
  std::string id;             ///< made by the sender; the same id twice is applied once
  std::int64_t revision = 0;  ///< revision the sender had seen
  Kind kind = Kind::fact;
  std::string by, when;
  std::string target;                    ///< `place.interface.dimension`, operation id, entry id, or finding id
  std::optional<quantity::Value> value;  ///< accept: the margin at that time
  std::string note;                      ///< accept: the reason
  Passes passes = Passes::nothing;       ///< accept only
};

struct Job {
  Sheet sheet;
  std::vector<Decision> decisions;
  std::vector<JournalEntry> journal;
};

/// What the journal says now: the fold of its entries in order.
struct WorkState {
  std::map<std::string, quantity::Value> values;  ///< latest value by target
  std::map<std::string, std::string> signed_off;  ///< operation -> who
  std::vector<Decision> decisions;                ///< findings accepted, in the order of the entries
  std::int64_t revision = 0;                      ///< entries applied
};
WorkState fold(const std::vector<JournalEntry>& journal);

}  // namespace cotter::model
