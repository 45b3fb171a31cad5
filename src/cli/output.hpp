#pragma once
// Results to standard output or a file, trouble to standard error, and the exit code that goes with them.

#include <string>

#include "session/session.hpp"

namespace cotter::cli {

inline constexpr int k_done = 0;
inline constexpr int k_stopped = 1;
inline constexpr int k_bad_input = 2;
inline constexpr int k_bad_command = 64;
inline constexpr int k_fault = 70;
inline constexpr int k_cannot_write = 74;

/// Columns of the terminal on standard output; COLUMNS when set; 100 for a file or a pipe. Between 40 and 160.
int terminal_width();
/// The time now, as `2026-05-03T09:12:00Z`.
std::string time_now();
/// Bold heads on a terminal, unless NO_COLOR is set or the terminal is dumb.
bool wants_emphasis();

/// Brings standard output to its end; says so on standard error and gives false when it could not be written.
bool written();

/// Writes the answer; a file is written whole beside its place and then moved there, so that a failure leaves the old
/// one as it was. Bad input writes nothing but its trouble.
int deliver(const session::Answer& answer, const std::string& output_file);

}  // namespace cotter::cli
