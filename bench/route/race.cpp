#include "race.hpp"

#include <csignal>
#include <ctime>
#include <limits>
#include <stdexcept>
#include <sys/resource.h>
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

/// The solvers' own limits go by other clocks; the process is ended instead.
constexpr double k_no_limit = 1e6;

template <class Solve>
Contestant peer(const std::string& name, Solve solve) {
  return {name, [solve](const std::string& file) -> std::function<Answer()> {
            return [solve, instance = read_instance(file)] { return solve(make_model(instance), k_no_limit); };
          }};
}

/// Seconds that this process, which has one thread, has worked: on a busy machine the clock says little.
double worked() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

/// The mean over as many runs as it takes to see it: that clock ticks in steps of up to 10 ms.
Run measure(const std::function<Answer()>& solve) {
  constexpr double enough = 0.2;
  const double start = worked();
  Run run;
  int runs = 0;
  do {
    run.answer = solve();
    ++runs;
    run.seconds = (worked() - start) / runs;
  } while (run.seconds * runs < enough);
  return run;
}

/// What the child sends home.
struct Message {
  int verdict = static_cast<int>(Verdict::unproven);
  std::int64_t objective = -1;
  double seconds = 0;
};

[[noreturn]] void child(const std::function<Answer()>& solve, double limit, int out) {
  // One second more, so that nobody loses by rounding.
  const auto most = static_cast<rlim_t>(limit) + 1;
  const rlimit limits{most, most + 1};
  setrlimit(RLIMIT_CPU, &limits);
  const Run run = measure(solve);
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
       [](const std::string& file) -> std::function<Answer()> {
         return [problem = read_problem(file)] { return solve_with_ours(problem); };
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
  const bool answered = read(ends[0], &message, sizeof message) == static_cast<ssize_t>(sizeof message);
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
