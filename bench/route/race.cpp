#include "race.hpp"

#include <algorithm>
#include <chrono>
#include <csignal>
#include <limits>
#include <poll.h>
#include <stdexcept>
#include <sys/wait.h>
#include <unistd.h>

#include "document/parse.hpp"
#include "engine/route/solve.hpp"
#include "problem/route_problem.hpp"

namespace route_peers {

namespace {

namespace route = cotter::engine::route;

Answer solve_with_ours(const route::Problem& problem) {
  constexpr auto endless = std::numeric_limits<std::int64_t>::max() / 4;
  route::Options options;
  options.node_limit = endless;
  options.way_limit = endless;
  const route::Result result = route::solve(problem, options);
  if (result.status == route::Status::optimal) return {Verdict::optimal, result.objective};
  if (result.status == route::Status::infeasible) return {Verdict::infeasible, {}};
  return {};
}

route::Problem read_problem(const std::string& file) {
  const auto node = cotter::document::parse_file(file);
  if (!node) throw std::runtime_error(file + " cannot be read");
  const auto problem = cotter::problem::read_route(*node, file);
  if (!problem) throw std::runtime_error(file + " is no route problem");
  return *problem;
}

template <class Solve>
Contestant peer(const std::string& name, Solve solve) {
  return {name, [solve](const std::string& file) -> std::function<Answer(double)> {
            return [solve, instance = read_instance(file)](double limit) { return solve(make_model(instance), limit); };
          }};
}

Run measure(const std::function<Answer(double)>& solve, double limit) {
  using Clock = std::chrono::steady_clock;
  std::vector<double> times;
  double all = 0;
  Run run;
  while (times.size() < 5 && all < 0.2) {
    const auto start = Clock::now();
    run.answer = solve(limit);
    times.push_back(std::chrono::duration<double>(Clock::now() - start).count());
    all += times.back();
  }
  std::nth_element(times.begin(), times.begin() + static_cast<std::ptrdiff_t>(times.size() / 2), times.end());
  run.seconds = times[times.size() / 2];
  return run;
}

/// What the child sends home.
struct Message {
  int verdict = static_cast<int>(Verdict::unproven);
  std::int64_t objective = -1;
  double seconds = 0;
};

[[noreturn]] void child(const std::function<Answer(double)>& solve, double limit, int out) {
  const Run run = measure(solve, limit);
  const Message message{static_cast<int>(run.answer.verdict), run.answer.objective.value_or(-1), run.seconds};
  const bool sent = write(out, &message, sizeof message) == static_cast<ssize_t>(sizeof message);
  _exit(sent ? 0 : 1);
}

}  // namespace

std::vector<Contestant> contestants() {
  const auto gecode = [](GecodeSearch search) {
    return [search](const Model& model, double limit) { return solve_with_gecode(model, search, limit); };
  };
  return {
      {"ours",
       [](const std::string& file) -> std::function<Answer(double)> {
         return [problem = read_problem(file)](double) { return solve_with_ours(problem); };
       }},
      peer("gecode size", gecode(GecodeSearch::thickness_of_domain)),
      peer("gecode failures", gecode(GecodeSearch::failures)),
      peer("gecode regret", gecode(GecodeSearch::regret_with_restarts)),
      peer("cbc", solve_with_cbc),
      peer("z3", solve_with_z3),
  };
}

Run timed(const Contestant& contestant, const std::string& file, double limit) {
  const auto solve = contestant.prepare(file);
  int ends[2];
  if (pipe(ends) != 0) throw std::runtime_error("no pipe");
  const pid_t process = fork();
  if (process < 0) throw std::runtime_error("no process");
  if (process == 0) child(solve, limit, ends[1]);
  close(ends[1]);
  Message message;
  pollfd wait{ends[0], POLLIN, 0};
  // A peer keeps its own limit, but not all look at the clock often enough. The short runs before do not count.
  const bool answered = poll(&wait, 1, static_cast<int>(1000 * (limit + 1))) == 1 &&
                        read(ends[0], &message, sizeof message) == static_cast<ssize_t>(sizeof message);
  kill(process, SIGKILL);
  waitpid(process, nullptr, 0);
  close(ends[0]);
  Run run{{}, limit};
  if (!answered || message.seconds > limit || message.verdict == static_cast<int>(Verdict::unproven)) return run;
  run.answer.verdict = static_cast<Verdict>(message.verdict);
  if (run.answer.verdict == Verdict::optimal) run.answer.objective = message.objective;
  run.seconds = message.seconds;
  return run;
}

}  // namespace route_peers
