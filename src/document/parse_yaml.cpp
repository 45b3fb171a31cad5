#include "document/parse_yaml.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <optional>
#include <sstream>
#include <vector>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include "document/parse_quote.hpp"
#include "document/parse_tree.hpp"

namespace cotter::document {
namespace {

/// Leaves the parser from within an event; the diagnostic has been added before.
struct Stop {};

constexpr const char* k_quote_accepted = "a closing quote on the line of the opening one";

std::string_view line_from(std::string_view text, std::size_t offset) {
  const std::string_view rest = text.substr(std::min(offset, text.size()));
  return rest.substr(0, rest.find_first_of("\r\n"));
}

/// Turns the parser's events into a tree and refuses what a document of ours may not use.
class Builder : public YAML::EventHandler {
 public:
  Builder(std::string_view text, const Places& places, const Limits& limits, Diagnostics& diagnostics)
      : text_(text),
        places_(places),
        tree_(limits, diagnostics),
        diagnostics_(diagnostics),
        depth_(static_cast<std::size_t>(limits.depth)) {}

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override;
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override;
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override;
  void OnMapEnd() override { close(); }

  Tree& tree() { return tree_; }
  /// Offset of the last event that had a place.
  std::size_t reached() const { return reached_; }
  /// Offset of the innermost bracket that is still open.
  std::optional<std::size_t> open_bracket() const;
  /// Says what had to wait for the end of the parsing.
  void finish();
  void report(std::string code, std::size_t offset, std::string message, std::string accepted);

 private:
  Mark enter(const YAML::Mark& mark);
  void refuse_anchor(YAML::anchor_t anchor);
  void refuse_tag(const std::string& tag);
  void open(Node container);
  void close();
  void add(Node scalar);
  bool check_quoting();

  std::string_view text_;
  const Places& places_;
  Tree tree_;
  Diagnostics& diagnostics_;
  std::size_t reached_ = 0;
  std::vector<std::size_t> containers_;  ///< where each open list and map begins
  /// A list or map in the place of a key. The parser makes one up, too, when a bracket is never closed, and tells so
  /// only later; from here on the events count for nothing but their brackets.
  std::optional<std::size_t> container_key_;
  std::size_t depth_;
};

void Builder::report(std::string code, std::size_t offset, std::string message, std::string accepted) {
  diagnostics_.add({std::move(code), "", places_.at(offset), tree_.path(), std::move(message),
                    std::string(line_from(text_, offset)), std::move(accepted), ""});
}

Mark Builder::enter(const YAML::Mark& mark) {
  // The parser marks what is not there with -1; the place before it serves then.
  if (mark.pos >= 0) reached_ = static_cast<std::size_t>(mark.pos);
  return places_.at(reached_);
}

void Builder::refuse_anchor(YAML::anchor_t anchor) {
  if (anchor == YAML::NullAnchor) return;
  report("alias", reached_, "Anchors (`&`) are not allowed.", "the value itself");
}

void Builder::refuse_tag(const std::string& tag) {
  if (tag.empty() || tag == "?") return;
  report("syntax", reached_, "Tags (`!`) are not allowed.", "the value itself, in quotes if it begins with `!`");
}

void Builder::open(Node container) {
  if (!container_key_ && tree_.wants_key()) container_key_ = reached_;
  containers_.push_back(reached_);
  if (!container_key_) {
    if (tree_.open(std::move(container)) == Tree::Step::stop) throw Stop();
  } else if (containers_.size() > depth_) {
    report("too_deep", reached_, fmt::format("The document is nested deeper than {} levels.", depth_),
           "lists and maps with fewer levels");
    throw Stop();
  }
}

void Builder::close() {
  containers_.pop_back();
  if (!container_key_) tree_.close();
}

std::optional<std::size_t> Builder::open_bracket() const {
  for (auto container = containers_.rbegin(); container != containers_.rend(); ++container) {
    const std::string_view first = text_.substr(*container, 1);
    if (first == "[" || first == "{") return *container;
  }
  return std::nullopt;
}

void Builder::finish() {
  if (!container_key_) return;
  report("syntax", *container_key_, "A key must be a word, not a list or a map.", "a word, a colon and a value");
}

void Builder::add(Node scalar) {
  if (tree_.scalar(std::move(scalar)) == Tree::Step::stop) throw Stop();
}

void Builder::OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) {
  const Mark place = enter(mark);
  if (container_key_) return;
  refuse_anchor(anchor);
  if (tree_.wants_key()) {
    report("syntax", reached_, "The key is missing here.", "a word, a colon and a value");
    throw Stop();
  }
  // A value that is not there and has the mark of its key: the parser saw no colon.
  if (tree_.awaits_value_of(place) && !open_bracket()) {
    report("syntax", reached_, "The colon is missing after this key.", "a word, a colon and a value");
  }
  add(Node::null(place));
}

void Builder::OnAlias(const YAML::Mark& mark, YAML::anchor_t) {
  const Mark place = enter(mark);
  if (container_key_) return;
  report("alias", reached_, "Aliases (`*`) are not allowed.", "the value itself, or the text in quotes");
  if (tree_.wants_key()) throw Stop();
  add(Node::null(place));
}

/// Whether the scalar at the place reached is quoted; a quote that is left open ends the parsing.
bool Builder::check_quoting() {
  const char first = reached_ < text_.size() ? text_[reached_] : '\0';
  if (first == '|' || first == '>') return true;
  if (first != '"' && first != '\'') {
    refuse_tag("!");
    return false;
  }
  const Quote quote = quote_at(text_, reached_);
  if (quote == Quote::closed) return true;
  if (quote == Quote::open) {
    report("unclosed_quote", reached_, "The quoted text does not end on its line.", k_quote_accepted);
  } else {
    report("unclosed_quote", reached_, "There is more text after the closing quote.",
           "the quoted text alone; a quote inside it is written \\\" in double quotes and '' in single ones");
  }
  throw Stop();
}

void Builder::OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       const std::string& value) {
  const Mark place = enter(mark);
  if (container_key_) return;
  refuse_anchor(anchor);
  bool quoted = false;
  if (tag == "!") {
    quoted = check_quoting();
  } else {
    refuse_tag(tag);
  }
  if (!is_clean(value)) {
    report("not_text", reached_, "The text holds a control character written as an escape.",
           "letters, signs and spaces");
  }
  if (tree_.wants_key()) {
    tree_.key(value, place);
  } else {
    add(Node::text(value, place, quoted));
  }
}

void Builder::OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                              YAML::EmitterStyle::value) {
  const Mark place = enter(mark);
  refuse_anchor(anchor);
  refuse_tag(tag);
  open(Node::list(place));
}

void Builder::OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value) {
  const Mark place = enter(mark);
  refuse_anchor(anchor);
  refuse_tag(tag);
  open(Node::map(place));
}

/// The parser's own refusal, or the open quote that led to it.
void report_refusal(const YAML::ParserException& refused, std::string_view text, Builder& builder) {
  const std::size_t offset = refused.mark.pos >= 0 ? static_cast<std::size_t>(refused.mark.pos) : builder.reached();
  if (const auto quote = find_open_quote(text, builder.reached(), std::max(offset, builder.reached() + 1))) {
    builder.report("unclosed_quote", *quote, "The quoted text does not end on its line.", k_quote_accepted);
    return;
  }
  const bool in_brackets =
      refused.msg == YAML::ErrorMsg::END_OF_SEQ_FLOW || refused.msg == YAML::ErrorMsg::END_OF_MAP_FLOW;
  if (const auto bracket = builder.open_bracket(); in_brackets && bracket) {
    builder.report("syntax", *bracket, "The bracket that opens here is not closed as it should be.",
                   "commas between the entries and the closing bracket behind the last");
    return;
  }
  builder.report("syntax", offset, fmt::format("The text cannot be read as YAML here ({}).", refused.msg),
                 "lines `key: value` moved in alike, items `- value`, and text with `: ` or ` #` in quotes");
}

/// The line that starts a second document behind `from`, or `from`.
std::size_t second_document(std::string_view text, std::size_t from) {
  for (const std::string_view line : {"\n---", "\n..."}) {
    const std::size_t found = text.find(line, from);
    if (found != std::string_view::npos) return found + 1;
  }
  return from;
}

}  // namespace

Node parse_yaml(std::string_view text, const Places& places, const Limits& limits, Diagnostics& diagnostics) {
  Builder builder(text, places, limits, diagnostics);
  std::istringstream stream{std::string(text)};
  try {
    YAML::Parser parser(stream);
    // Once only: on some broken texts the parser finds documents without end.
    if (!parser.HandleNextDocument(builder)) {
      builder.report("syntax", 0, "The document is empty.", "lines `key: value`");
    } else if (parser) {
      builder.report("many_documents", second_document(text, builder.reached()),
                     "There is more text after the end of the document.", "one document in a file");
    }
  } catch (const Stop&) {
    return {};
  } catch (const YAML::ParserException& refused) {
    report_refusal(refused, text, builder);
    return {};
  }
  builder.finish();
  return builder.tree().take();
}

}  // namespace cotter::document
