// The command line: arguments in, text and an exit code out. Everything else is session's.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "cli/output.hpp"
#include "cli/place.hpp"
#include "serve/serve.hpp"
#include "session/session.hpp"

namespace {

using namespace cotter;

constexpr const char* k_exit_codes =
    "Exit codes: 0 done; 1 the plan holds at least one stop; 2 something given was wrong, nothing was written;\n"
    "64 the command itself was wrong; 70 a fault in cotter, please report it; 74 the result could not be written.";

struct Arguments {
  std::string job, later_job, finding, file, engine, output, schema, by, reason, bicycle, title;
  std::vector<std::string> catalogs, own, jobs;
  bool only_check = false;
  bool json = false;
  unsigned short port = 8317;
};

session::Report report_of(const Arguments& arguments) {
  session::Report report;
  report.form = arguments.json ? session::Form::json : session::Form::text;
  report.width = cli::terminal_width();
  report.emphasis = cli::wants_emphasis() ? session::Emphasis::bold : session::Emphasis::none;
  return report;
}

/// What to say when the first word is no command; empty when it is one, or when there is none.
std::string unknown_command(const CLI::App& app, int argc, char** argv) {
  if (argc < 2 || argv[1][0] == '-' || !app.get_subcommands().empty()) return "";
  std::string names;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
    names += (names.empty() ? "" : ", ") + command->get_name();
  return "There is no command \"" + std::string(argv[1]) + "\"; the commands are " + names + ".\n";
}

int run_serve(const session::Session& session, const Arguments& arguments) {
  serve::Options options;
  options.port = arguments.port;
  options.log = [](std::string_view line) { std::cerr << "cotter: " << line << "\n"; };
  const auto provider = [&] { return session.sheet(arguments.job); };
  const auto ready = [](const std::string& address) {
    std::cout << "Plan and drawing: " << address << " (this machine only; stop with Ctrl-C)\n" << std::flush;
  };
  const auto served = serve::serve(provider, options, ready);
  if (served) return cli::k_done;
  std::cerr << "cotter: " << served.error() << "\n";
  return cli::k_cannot_write;
}

int run(int argc, char** argv) {
  Arguments arguments;
  CLI::App app{"Cotter plans a bicycle build: what fits, which way the lines run, in which order it is built."};
  app.footer(k_exit_codes);
  app.set_version_flag("--version", COTTER_VERSION);
  app.require_subcommand(1);
  app.fallthrough();
  app.add_option("--catalog", arguments.catalogs, "Catalog folder; may be given again, later ones add to earlier ones")
      ->type_name("FOLDER");

  CLI::App* plan = app.add_subcommand("plan", "Print the plan of a job");
  plan->add_option("JOB", arguments.job, "Job file, YAML or JSON")->required();
  plan->add_flag("--json", arguments.json, "The plan as a document");
  CLI::App* why = app.add_subcommand("why", "Show the working behind a finding");
  why->add_option("JOB", arguments.job, "Job file")->required();
  why->add_option("FINDING", arguments.finding, "Name of the finding, or its beginning")->required();
  why->add_flag("--json", arguments.json, "The findings as a document");
  CLI::App* next = app.add_subcommand("next", "List what to measure next, and with what");
  next->add_option("JOB", arguments.job, "Job file")->required();
  next->add_flag("--json", arguments.json, "The list as a document");
  CLI::App* compare = app.add_subcommand("compare", "Say what a change to a job did");
  compare->add_option("BEFORE", arguments.job, "Job file as it was")->required();
  compare->add_option("AFTER", arguments.later_job, "Job file as it is now")->required();
  compare->add_flag("--json", arguments.json, "The difference as a document");
  CLI::App* accept = app.add_subcommand("accept", "Sign for a finding: written into the journal beside the job");
  accept->add_option("JOB", arguments.job, "Job file")->required();
  accept->add_option("FINDING", arguments.finding, "Name of the finding, in full")->required();
  accept->add_option("--by", arguments.by, "Who signs")->required();
  accept->add_option("--reason", arguments.reason, "Why it may be so")->required();
  CLI::App* begin = app.add_subcommand("new", "Start a job: every place of a bicycle template, with what it needs");
  begin->add_option("TEMPLATE", arguments.bicycle, "Bicycle template")->required();
  begin->add_option("--title", arguments.title, "Title of the job");
  begin
      ->add_option("--own", arguments.own,
                   "Place whose part is written in the job, every dimension ?; may be given again")
      ->type_name("PLACE");
  begin->add_option("-o,--output", arguments.output, "File to write; standard output when left out");
  CLI::App* import = app.add_subcommand("import", "Parts from a spreadsheet (CSV), as a parts document");
  import->add_option("FILE", arguments.file, "CSV file; one row an interface")->required();
  import->add_flag("--check", arguments.only_check, "Only say what is wrong");
  import->add_option("-o,--output", arguments.output, "File to write; standard output when left out");
  CLI::App* catalog =
      app.add_subcommand("catalog", "List the catalog by interface kind and family, and what is unused");
  catalog->add_option("JOB", arguments.jobs, "Jobs whose parts count as used");
  CLI::App* check = app.add_subcommand("check", "Say everything that is wrong with a job, a catalog file or a problem");
  check->add_option("FILE", arguments.file, "File to check")->required();
  CLI::App* solve = app.add_subcommand("solve", "Run one engine on its own problem");
  solve->add_option("ENGINE", arguments.engine, "stack, fit, bridge, route or sequence")->required();
  solve->add_option("PROBLEM", arguments.file, "Problem file, JSON or YAML")->required();
  CLI::App* draw = app.add_subcommand("draw", "Draw the side elevation");
  draw->add_option("JOB", arguments.job, "Job file")->required();
  draw->add_option("-o,--output", arguments.output, "SVG file to write; standard output when left out");
  CLI::App* schema = app.add_subcommand("schema", "Print the JSON Schema of a document kind");
  schema->add_option("NAME", arguments.schema,
                     "Document kind, engine problem, or interface:KIND; lists them when left out");
  CLI::App* serve_command = app.add_subcommand("serve", "Serve plan and drawing as one page, to this machine only");
  serve_command->add_option("JOB", arguments.job, "Job file")->required();
  serve_command->add_option("--port", arguments.port, "Port on the loopback address; 0 takes any that is free");

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    // Help and version are no errors; everything else is the caller's command.
    const std::string unknown = unknown_command(app, argc, argv);
    if (!unknown.empty()) {
      std::cerr << unknown;
      return cli::k_bad_command;
    }
    if (app.exit(error) != 0) return cli::k_bad_command;
    return cli::written() ? cli::k_done : cli::k_cannot_write;
  }
  const session::Session session({COTTER_VERSION, cli::catalogs(arguments.catalogs, COTTER_SOURCE_CATALOG, argv[0])});
  if (serve_command->parsed()) return run_serve(session, arguments);
  session::Answer answer;
  if (plan->parsed()) answer = session.plan(arguments.job, report_of(arguments));
  if (why->parsed()) answer = session.why(arguments.job, arguments.finding, report_of(arguments));
  if (next->parsed()) answer = session.next(arguments.job, report_of(arguments));
  if (compare->parsed()) answer = session.compare(arguments.job, arguments.later_job, report_of(arguments));
  if (begin->parsed()) answer = session.begin({arguments.bicycle, arguments.title, arguments.own});
  if (import->parsed())
    answer =
        session.import_parts(arguments.file, arguments.only_check ? session::Import::check : session::Import::print);
  if (catalog->parsed()) answer = session.catalog(arguments.jobs, report_of(arguments));
  if (accept->parsed())
    answer = session.accept(arguments.job, arguments.finding, {arguments.by, arguments.reason, cli::time_now()},
                            report_of(arguments));
  if (check->parsed()) answer = session.check(arguments.file);
  if (solve->parsed()) answer = session.solve(arguments.engine, arguments.file);
  if (draw->parsed()) answer = session.draw(arguments.job);
  if (schema->parsed()) answer = session.schema(arguments.schema);
  return cli::deliver(answer, arguments.output);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::cerr << "cotter: a fault in the program, please report it with the file that shows it: " << error.what()
              << "\n";
    return cli::k_fault;
  }
}
