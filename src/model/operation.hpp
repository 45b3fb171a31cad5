#pragma once
// Steps of the work, and the shop that does them.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "quantity/value.hpp"

namespace cotter::model {

enum class Reversible { yes, costly, no };

struct Operation {
  std::string id;
  std::string label;              ///< what is done, as an instruction
  std::string phase;              ///< heading it stands under on the papers: "bottom bracket"
  std::vector<std::string> when;  ///< facts that must all hold: `place:front_derailleur`, `line:hose`; `!` negates
  std::vector<std::string> after;
  std::vector<std::vector<std::string>> needs_open;  ///< all groups; any access of a group
  std::vector<std::string> opens, closes;
  std::vector<std::string> tools;
  std::string position;      ///< how the work is held: bench, stand, floor
  std::int64_t minutes = 0;  ///< hundredths of a minute
  Reversible reversible = Reversible::yes;
  bool hold_point = false;
  std::string evidence;  ///< what a hold point opens on
  std::string check;     ///< how one knows that it is right
  std::string caution;
};

struct Access {
  std::string id;
  std::string label;
  bool open_at_start = true;
};

struct OperationCatalog {
  std::vector<Access> accesses;
  std::vector<Operation> operations;
};

struct Tool {
  std::string id;
  std::string label;
  std::string kind;        ///< what it is for: bore_gauge, caliper, press
  std::string resolution;  ///< smallest step it can be trusted to
};

/// A spacer, shim or small part in the drawer.
struct KitPiece {
  std::string id;
  std::string label;
  std::string piece;  ///< kind of piece; a slot of a stack names the kind it takes
  quantity::Value thickness;
  std::int64_t count = 0;
  std::optional<quantity::Value> bore{};  ///< of its hole; a piece goes only where the hole fits
};

struct Shop {
  std::string name;
  std::string country;
  std::int64_t rate_hundredths = 0;  ///< money per hour, hundredths
  std::string currency;
  std::vector<Tool> tools;
  std::vector<KitPiece> kit;
};

}  // namespace cotter::model
