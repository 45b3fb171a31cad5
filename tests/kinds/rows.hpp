#pragma once
// The hand-written rows of tests/kinds/rows: for each rule a pair that mates, the limits of its dimensions, and what
// the plan must say on either side of each limit.

#include <map>
#include <string>
#include <vector>

namespace cotter::kinds {

/// The value of one dimension at which the answer changes, everything else as in the row.
struct Limit {
  std::string move;          ///< `own.bore`
  std::string at;            ///< `45.97 mm`
  std::string below, above;  ///< verdict words on either side
  std::string step;          ///< distance to either side; empty: 0.01 of the unit the dimension is counted in
};

/// A word that differs from the row's.
struct Differs {
  std::string set;  ///< `other.fluid`
  std::string to;
  std::string says;
};

struct Row {
  std::string place;  ///< file and line
  std::string rule;
  std::map<std::string, std::string> own, other;
  std::string says;
  std::vector<Limit> limits;
  std::vector<Differs> differs;
};

/// Two interfaces of parts of the catalog and what each rule of their meeting says.
struct PartPair {
  std::string place;
  std::string own, other;  ///< `part.interface`
  std::map<std::string, std::string> says;
};

/// All files of the folder. Throws when one is not of this shape.
std::vector<Row> read_rows(const std::string& folder);
std::vector<PartPair> read_part_pairs(const std::string& file);

}  // namespace cotter::kinds
