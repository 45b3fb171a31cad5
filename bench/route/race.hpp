#pragma once
// Runs one solver on one instance in a process of its own, with a limit on its processor time.

#include <functional>
#include <string>
#include <vector>

#include "peers/answer.hpp"

namespace route_peers {

struct Run {
  Answer answer;
  double seconds = 0;  ///< of processor time to the proof; the limit when there is none
};

struct Contestant {
  std::string name;
  /// Makes ready whatever is not counted (parsing) and gives back what is: list the ways, build the model, solve.
  std::function<std::function<Answer()>(const std::string& file)> prepare;
};

std::vector<Contestant> contestants();

/// The mean of several runs while they are short; one run when it is long.
Run timed(const Contestant& contestant, const std::string& file, double limit);

}  // namespace route_peers
