// Our solver beside general-purpose ones on the same instances, one thread: processor time from the parsed instance to
// the listing of ways and building of models included. What is unproven at the limit counts as the limit.
//   route_compare [--limit SECONDS] [--only NAME] [--answers CSV] [--lp DIR] FILE...
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <map>

#include "race.hpp"

namespace {

using namespace route_peers;

struct Arguments {
  double limit = 10;
  std::string only, answers, programs;
  std::vector<std::string> files;
};

Arguments read_arguments(int count, char** values) {
  Arguments arguments;
  for (int i = 1; i < count; ++i) {
    const std::string word = values[i];
    if (word == "--limit" && i + 1 < count)
      arguments.limit = std::stod(values[++i]);
    else if (word == "--only" && i + 1 < count)
      arguments.only = values[++i];
    else if (word == "--answers" && i + 1 < count)
      arguments.answers = values[++i];
    else if (word == "--lp" && i + 1 < count)
      arguments.programs = values[++i];
    else
      arguments.files.push_back(word);
  }
  return arguments;
}

/// Seconds of one solver on all instances of a size, or of all sizes.
using Times = std::vector<double>;
using Table = std::map<std::string, std::map<std::string, Times>>;  // size, solver

const std::vector<std::string> k_sizes = {"small", "medium", "large", "xl", "all"};
const char* const k_best = "gecode best";

double quantile(Times times, double share) {
  std::sort(times.begin(), times.end());
  const auto at = static_cast<std::size_t>(std::ceil(share * static_cast<double>(times.size()))) - 1;
  return times[std::min(at, times.size() - 1)];
}

double shifted_mean(const Times& times) {
  constexpr double shift = 1e-4;
  double sum = 0;
  for (const double t : times) sum += std::log(t + shift);
  return std::exp(sum / static_cast<double>(times.size())) - shift;
}

double share_within(const Times& times, double limit) {
  const auto n = std::count_if(times.begin(), times.end(), [&](double t) { return t < limit; });
  return 100.0 * static_cast<double>(n) / static_cast<double>(times.size());
}

const char* word_for(Verdict verdict) {
  return verdict == Verdict::optimal ? "optimal" : verdict == Verdict::infeasible ? "infeasible" : "unproven";
}

void print_table(const Table& table, double limit) {
  std::printf("\n%-7s %-16s %5s %11s %11s %11s %8s %8s %8s\n", "size", "solver", "n", "median ms", "95 % ms", "mean ms",
              "<100 ms", "<1 s", "proven");
  for (const std::string& size : k_sizes) {
    if (table.count(size) == 0) continue;
    for (const auto& [solver, times] : table.at(size))
      std::printf("%-7s %-16s %5zu %11.2f %11.2f %11.2f %7.0f%% %7.0f%% %7.0f%%\n", size.c_str(), solver.c_str(),
                  times.size(), 1e3 * quantile(times, 0.5), 1e3 * quantile(times, 0.95), 1e3 * shifted_mean(times),
                  share_within(times, 0.1), share_within(times, 1), share_within(times, limit));
  }
  std::printf("mean: shifted geometric, shift 0.1 ms; unproven counts as %g s\n", limit);
}

void print_ratios(const Table& table) {
  for (const std::string size : {"all", "xl"}) {
    if (table.count(size) == 0 || table.at(size).count("ours") == 0) continue;
    const double ours = shifted_mean(table.at(size).at("ours"));
    for (const auto& [solver, times] : table.at(size))
      if (solver != "ours")
        std::printf("%s: mean of %s over ours: %.1f\n", size.c_str(), solver.c_str(), shifted_mean(times) / ours);
  }
}

class Comparison {
 public:
  explicit Comparison(const Arguments& arguments) : arguments_(arguments) {
    if (!arguments.answers.empty()) answers_.open(arguments.answers);
    if (answers_) answers_ << "instance,size,solver,verdict,optimum,milliseconds\n";
  }

  void run(const std::string& file) {
    const Instance instance = read_instance(file);
    if (!arguments_.programs.empty())
      std::ofstream(arguments_.programs + "/" + instance.name + ".lp") << linear_program_text(make_model(instance));
    std::vector<std::pair<std::string, Run>> runs;
    double best_gecode = -1;
    for (const Contestant& contestant : contestants()) {
      if (!arguments_.only.empty() && contestant.name != arguments_.only) continue;
      const Run run = timed(contestant, file, arguments_.limit);
      note(instance, contestant.name, run);
      runs.emplace_back(contestant.name, run);
      if (contestant.name.starts_with("gecode") && (best_gecode < 0 || run.seconds < best_gecode))
        best_gecode = run.seconds;
    }
    if (best_gecode >= 0) count(instance.size, k_best, best_gecode);
    compare(instance, runs);
    std::printf("\n");
    std::fflush(stdout);
  }

  int finish() const {
    print_table(table_, arguments_.limit);
    print_ratios(table_);
    std::printf("different answers: %d\n", different_);
    return different_ == 0 ? 0 : 1;
  }

 private:
  void count(const std::string& size, const std::string& solver, double seconds) {
    table_[size][solver].push_back(seconds);
    table_["all"][solver].push_back(seconds);
  }

  void note(const Instance& instance, const std::string& solver, const Run& run) {
    count(instance.size, solver, run.seconds);
    const std::string optimum = run.answer.objective ? std::to_string(*run.answer.objective) : "";
    if (answers_)
      answers_ << instance.name << ',' << instance.size << ',' << solver << ',' << word_for(run.answer.verdict) << ','
               << optimum << ',' << 1e3 * run.seconds << std::endl;
    if (solver == "ours" || !arguments_.only.empty()) std::printf("%-22s", instance.name.c_str());
    std::printf(" %s %s %.2f ms;", solver.c_str(), optimum.empty() ? word_for(run.answer.verdict) : optimum.c_str(),
                1e3 * run.seconds);
    std::fflush(stdout);
  }

  void compare(const Instance& instance, const std::vector<std::pair<std::string, Run>>& runs) {
    const Run* first = nullptr;
    for (const auto& [solver, run] : runs) {
      if (run.answer.verdict == Verdict::unproven) continue;
      if (first == nullptr) first = &run;
      if (run.answer.verdict == first->answer.verdict && run.answer.objective == first->answer.objective) continue;
      ++different_;
      std::printf(" DIFFERENT: %s on %s;", solver.c_str(), instance.name.c_str());
    }
  }

  Arguments arguments_;
  std::ofstream answers_;
  Table table_;
  int different_ = 0;
};

}  // namespace

int main(int count, char** values) {
  const Arguments arguments = read_arguments(count, values);
  if (arguments.files.empty()) {
    std::fputs("usage: route_compare [--limit SECONDS] [--only NAME] [--answers CSV] [--lp DIR] FILE...\n", stderr);
    return 2;
  }
  Comparison comparison(arguments);
  for (const std::string& file : arguments.files) comparison.run(file);
  return comparison.finish();
}
