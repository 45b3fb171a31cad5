#pragma once
// The only way in for the command line and the server: opens a job with the catalog, plans it, and answers in text.

#include <string>
#include <string_view>
#include <vector>

namespace cotter::session {

/// How a command ends; the command line turns it into its exit code.
enum class Outcome {
  done,       ///< nothing in the answer speaks against building
  stopped,    ///< the plan holds at least one `stop`
  bad_input,  ///< something given was wrong; `trouble` says what, where and how to mend it
  unwritten,  ///< a file could not be written; it is as it was
};

struct Answer {
  Outcome outcome = Outcome::done;
  std::string text;     ///< the result, for standard output
  std::string trouble;  ///< for standard error; may be filled although the result stands (a torn journal line)
};

enum class Form { text, json };
enum class Emphasis { none, bold };

struct Report {
  Form form = Form::text;
  int width = 100;
  Emphasis emphasis = Emphasis::none;
};

struct Settings {
  std::string version;
  std::vector<std::string> catalogs;  ///< folders; later ones add to earlier ones
};

/// A person's word on a finding. The caller reads the clock.
struct Signature {
  std::string by;
  std::string reason;
  std::string when;  ///< `2026-05-03T09:12:00Z`
};

/// A job to be started from a template.
struct Beginning {
  std::string bicycle;           ///< template
  std::string title;             ///< empty: the template's label
  std::vector<std::string> own;  ///< places whose part is written in the job, with every dimension `?`
};

/// Whether an import prints what it read or only says whether it is in order.
enum class Import { print, check };

/// Everything a page needs of one planned job.
struct Sheet {
  Outcome outcome = Outcome::done;
  std::string title;
  std::string drawing;  ///< SVG
  std::string plan;     ///< the plan as plain text
  std::string json;
  std::string trouble;
  std::vector<std::string> cautions;
};

class Session {
 public:
  explicit Session(Settings settings);

  Answer plan(const std::string& job, const Report& report) const;
  /// The finding with its working; `finding` is an id or the beginning of one.
  Answer why(const std::string& job, const std::string& finding, const Report& report) const;
  /// What to measure next, best first, and nothing else of the plan.
  Answer next(const std::string& job, const Report& report) const;
  /// Writes a named person's acceptance of a finding into the journal beside the job, or says why it cannot be accepted
  /// and writes nothing. `finding` is a whole id. The answer shows the finding as it stands afterwards.
  Answer accept(const std::string& job, const std::string& finding, const Signature& signature,
                const Report& report) const;
  /// Says everything that is wrong with a job or a catalog file.
  Answer check(const std::string& file) const;
  /// What the later job's plan says that the earlier one's did not; `stopped` when the later one holds a stop.
  Answer compare(const std::string& before, const std::string& after, const Report& report) const;
  /// A new job from a template, as YAML with comments.
  Answer begin(const Beginning& beginning) const;
  /// Parts from a table (CSV) as a `cotter: parts 1` document.
  Answer import_parts(const std::string& file, Import import) const;
  /// Entries of the catalog by kind and family, and those that neither a template nor one of the jobs uses.
  Answer catalog(const std::vector<std::string>& jobs, const Report& report) const;
  /// Side elevation as SVG.
  Answer draw(const std::string& job) const;
  /// Runs one engine on its own problem; `file` is JSON or YAML.
  Answer solve(const std::string& engine, const std::string& file) const;
  /// Published schema of a document kind, of an engine's problem (`fit_problem`), or of an interface kind
  /// (`interface:press_shell`). An empty name lists them.
  Answer schema(const std::string& name) const;
  /// Plan and drawing together.
  Sheet sheet(const std::string& job) const;

 private:
  Settings settings_;
};

}  // namespace cotter::session
