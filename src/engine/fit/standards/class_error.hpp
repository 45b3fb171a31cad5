#pragma once
// Why a standard's table gives no limits. There is never a guess: a size without a sourced row is an error.

#include <string>

namespace cotter::engine::fit {

struct ClassError {
  enum class Code {
    bad_class,  ///< the class is not written as the standard writes it, or is not one the tables know
    no_row      ///< the class is right, but the table has no sourced value for this size
  };
  Code code;
  std::string table;     ///< which table: "ISO 286 grades"
  std::string wanted;    ///< what was looked for in it: "IT10 at 12 mm"
  std::string accepted;  ///< what would be accepted
};

}  // namespace cotter::engine::fit
