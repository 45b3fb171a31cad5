#pragma once
// What is wrong with a document: where, what was found, what is accepted there, and the mend. All of them in one go.

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

namespace cotter::document {

/// A place in a text; line and column start at 1. Line 0 = the node was made by the program, not read.
struct Mark {
  int line = 0;
  int column = 0;
  bool operator==(const Mark&) const = default;
};

struct Diagnostic {
  std::string code;  ///< stable word for the kind of trouble, for example `unknown_field`
  std::string file;  ///< as the user named it
  Mark mark;
  std::string field;       ///< path in the document: `parts[2].interfaces.shell.width`
  std::string message;     ///< one sentence: what is wrong
  std::string found;       ///< the text found there, shortened; empty when something is missing
  std::string accepted;    ///< what would be accepted
  std::string suggestion;  ///< the nearest right word, or empty

  bool operator==(const Diagnostic&) const = default;
};

/// Collects diagnostics of one file; keeps at most `k_most` and counts the rest.
class Diagnostics {
 public:
  static constexpr std::size_t k_most = 100;

  explicit Diagnostics(std::string file) : file_(std::move(file)) {}
  /// Keeps the diagnostic with every text made printable, `found` shortened and `file` filled in.
  void add(Diagnostic diagnostic);
  void append(const Diagnostics& other);
  bool empty() const { return list_.empty(); }
  const std::vector<Diagnostic>& list() const { return list_; }
  std::size_t left_out() const { return left_out_; }
  const std::string& file() const { return file_; }

 private:
  std::string file_;
  std::vector<Diagnostic> list_;
  std::size_t left_out_ = 0;
};

/// A value, or everything that is wrong with the text it should have come from.
template <class T>
using Read = tl::expected<T, Diagnostics>;

/// The text as it may be shown: bytes that are not UTF-8, control characters and characters that turn the writing
/// direction are written `\n`, `\t` or `\xNN`; beyond `most_characters` it ends in `…`.
std::string printable(std::string_view text, std::size_t most_characters);

/// `file:line:column: field: message; found "x"; accepted: y; did you mean "z"?` on one line.
std::string one_line(const Diagnostic& diagnostic);

}  // namespace cotter::document
