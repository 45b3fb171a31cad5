#pragma once
// The third error channel: a condition that only a bug can break. Stays on in release builds.
// What a user can cause is a Diagnostic or a Finding, never this.

#include <stdexcept>
#include <string>

namespace cotter::quantity {

/// Thrown by `ensure`; caught only at the outer edge of the command line and of the server.
class BugError : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

/// Stops with a BugError that carries `why` when `condition` does not hold.
inline void ensure(bool condition, const char* why) {
  if (!condition) throw BugError(why);
}

}  // namespace cotter::quantity
