#include "document/parse_yaml.hpp"

#include <new>
#include <string>
#include <yaml.h>

#include "document/parse_quote.hpp"
#include "document/parse_tree.hpp"
#include "document/parse_yaml_refusal.hpp"

namespace cotter::document {
namespace {

using Step = Tree::Step;

constexpr Refusal k_container_key{"syntax", "A key must be a word, not a list or a map.",
                                  "a word, a colon and a value"};
constexpr Refusal k_text_behind_quote{
    "unclosed_quote", "There is more text after the closing quote.",
    "the quoted text alone; a quote inside it is written \\\" in double quotes and '' in single ones"};
constexpr Refusal k_escaped_control{"not_text", "The text holds a control character written as an escape.",
                                    "letters, signs and spaces"};

/// The parser of libyaml over one text, with its events.
class Events {
 public:
  explicit Events(std::string_view text);
  Events(const Events&) = delete;
  Events& operator=(const Events&) = delete;
  ~Events();

  /// Goes to the next event; false when the parser refuses the text.
  bool next();
  const yaml_event_t& event() const { return event_; }
  const yaml_parser_t& parser() const { return parser_; }

 private:
  yaml_parser_t parser_{};
  yaml_event_t event_{};
};

Events::Events(std::string_view text) {
  if (yaml_parser_initialize(&parser_) == 0) throw std::bad_alloc();
  yaml_parser_set_encoding(&parser_, YAML_UTF8_ENCODING);
  yaml_parser_set_input_string(&parser_, reinterpret_cast<const unsigned char*>(text.data()), text.size());
}

Events::~Events() {
  yaml_event_delete(&event_);
  yaml_parser_delete(&parser_);
}

bool Events::next() {
  yaml_event_delete(&event_);
  return yaml_parser_parse(&parser_, &event_) != 0;
}

/// Whether a plain scalar stands for nothing.
bool is_null(std::string_view plain) {
  return plain.empty() || plain == "~" || plain == "null" || plain == "Null" || plain == "NULL";
}

/// Turns the parser's events into a tree and refuses what a document of ours may not use.
class Builder {
 public:
  Builder(const Source& source, const Limits& limits, Diagnostics& diagnostics)
      : source_(source), tree_(limits, diagnostics), diagnostics_(diagnostics) {}

  /// Takes an event of the document's content; on `stop` a diagnostic has been added.
  Step take(const yaml_event_t& event);
  /// Offset of the last event taken.
  std::size_t reached() const { return source_.places.offset(place_); }
  Tree& tree() { return tree_; }

 private:
  void report(const Refusal& refusal) { diagnostics_.add(refused_at(refusal, source_, reached(), tree_.path())); }
  void refuse_extras(const yaml_char_t* anchor, const yaml_char_t* tag);
  Step open(Node container, bool in_brackets);
  void close();
  Step alias();
  Step scalar(const yaml_event_t& event);
  Step null(bool written);
  Step quoting();

  const Source& source_;
  Tree tree_;
  Diagnostics& diagnostics_;
  Mark place_{1, 1};
  int brackets_ = 0;  ///< lists and maps open from the outermost bracket on
};

Step Builder::take(const yaml_event_t& event) {
  place_ = mark_of(event.start_mark);
  switch (event.type) {
    case YAML_ALIAS_EVENT:
      return alias();
    case YAML_SCALAR_EVENT:
      refuse_extras(event.data.scalar.anchor, event.data.scalar.tag);
      return scalar(event);
    case YAML_SEQUENCE_START_EVENT:
      refuse_extras(event.data.sequence_start.anchor, event.data.sequence_start.tag);
      return open(Node::list(place_), event.data.sequence_start.style == YAML_FLOW_SEQUENCE_STYLE);
    case YAML_MAPPING_START_EVENT:
      refuse_extras(event.data.mapping_start.anchor, event.data.mapping_start.tag);
      return open(Node::map(place_), event.data.mapping_start.style == YAML_FLOW_MAPPING_STYLE);
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT:
      close();
      return Step::go_on;
    default:
      return Step::go_on;
  }
}

void Builder::refuse_extras(const yaml_char_t* anchor, const yaml_char_t* tag) {
  if (anchor != nullptr) report(k_anchor);
  if (tag != nullptr) report(k_tag);
}

Step Builder::open(Node container, bool in_brackets) {
  if (tree_.wants_key()) {
    report(k_container_key);
    return Step::stop;
  }
  if (in_brackets || brackets_ > 0) ++brackets_;
  return tree_.open(std::move(container));
}

void Builder::close() {
  if (brackets_ > 0) --brackets_;
  tree_.close();
}

Step Builder::alias() {
  report(k_alias);
  return tree_.wants_key() ? Step::stop : tree_.scalar(Node::null(place_));
}

/// A quote that is left open would have eaten the lines behind it.
Step Builder::quoting() {
  const Quote quote = quote_at(source_.text, reached());
  if (quote == Quote::closed) return Step::go_on;
  report(quote == Quote::open ? k_open_quote : k_text_behind_quote);
  return Step::stop;
}

Step Builder::null(bool written) {
  const std::size_t offset = reached();
  place_ = source_.places.at(offset);  // the parser may stand in a line behind the last
  if (tree_.wants_key()) {
    report(k_no_key);
    return Step::stop;
  }
  // What stands for a value that is not there lies behind the colon, if there is one.
  const bool colon = written || brackets_ > 0 || (offset > 0 && source_.text[offset - 1] == ':');
  if (const auto key = tree_.open_key(); key && !colon) {
    place_ = *key;
    report(k_no_colon);
  }
  return tree_.scalar(Node::null(place_));
}

Step Builder::scalar(const yaml_event_t& event) {
  const auto& scalar = event.data.scalar;
  std::string value(reinterpret_cast<const char*>(scalar.value), scalar.length);
  const bool plain = scalar.style == YAML_PLAIN_SCALAR_STYLE;
  if (plain && scalar.tag == nullptr && is_null(value)) return null(!value.empty());
  const bool in_quotes =
      scalar.style == YAML_DOUBLE_QUOTED_SCALAR_STYLE || scalar.style == YAML_SINGLE_QUOTED_SCALAR_STYLE;
  // Behind an anchor or a tag, which are refused anyway, the place is theirs and not that of the quote.
  const bool bare = scalar.anchor == nullptr && scalar.tag == nullptr;
  if (in_quotes && bare && quoting() == Step::stop) return Step::stop;
  if (in_quotes && !is_clean(value)) report(k_escaped_control);
  if (!tree_.wants_key()) return tree_.scalar(Node::text(std::move(value), place_, !plain));
  tree_.key(std::move(value), place_);
  return Step::go_on;
}

}  // namespace

Node parse_yaml(std::string_view text, const Places& places, const Limits& limits, Diagnostics& diagnostics) {
  const Source source{text, places};
  Builder builder(source, limits, diagnostics);
  Tree& tree = builder.tree();
  Events events(text);
  while (events.next()) {
    const yaml_event_t& event = events.event();
    if (event.type == YAML_STREAM_END_EVENT) {
      if (!tree.complete()) diagnostics.add(refused_at(k_empty, source, 0, ""));
      return tree.take();
    }
    if (event.type == YAML_DOCUMENT_START_EVENT && tree.complete()) {
      diagnostics.add(refused_at(k_many_documents, source, places.offset(mark_of(event.start_mark)), ""));
      return {};
    }
    if (builder.take(event) == Step::stop) return {};
  }
  diagnostics.add(parser_refusal(events.parser(), source, builder.reached(), tree.path()));
  return {};
}

}  // namespace cotter::document
