#include "document/parse_json.hpp"

#include <nlohmann/json.hpp>

#include "document/parse_tree.hpp"

namespace cotter::document {
namespace {

using Json = nlohmann::json;

/// Walks the text in step with the parser's events, which come without a place. The parser has accepted every token
/// that is asked for here, but not what stands behind it: `[01]` gives the number 0 before it is refused.
class Tokens {
 public:
  explicit Tokens(std::string_view text) : text_(text) {}

  /// Goes to the next token and returns its text; `offset()` is where it begins.
  std::string_view next() {
    begin_ = std::min(text_.find_first_not_of(" \t\r\n,:", end_), text_.size());
    end_ = begin_ + length();
    return text_.substr(begin_, end_ - begin_);
  }
  std::size_t offset() const { return begin_; }

 private:
  std::size_t length() const {
    const std::string_view rest = text_.substr(begin_);
    switch (rest.empty() ? '\0' : rest.front()) {
      case '"':
        return string_length(rest);
      case 't':
      case 'n':
        return 4;
      case 'f':
        return 5;
      case '{':
      case '}':
      case '[':
      case ']':
        return 1;
      default:
        return number_length(rest);
    }
  }
  static std::size_t string_length(std::string_view rest) {
    for (std::size_t i = 1; i < rest.size(); ++i) {
      if (rest[i] == '"') return i + 1;
      if (rest[i] == '\\') ++i;
    }
    return rest.size();
  }

  std::string_view text_;
  std::size_t begin_ = 0;
  std::size_t end_ = 0;
};

/// Interface of the parser's events; its names are given.
class Builder {
 public:
  Builder(std::string_view text, const Places& places, const Limits& limits, Diagnostics& diagnostics)
      : text_(text), places_(places), tokens_(text), tree_(limits, diagnostics), diagnostics_(diagnostics) {}

  bool null() { return add(Node::null(step())); }
  bool boolean(bool value) { return add(Node::boolean(value, step())); }
  bool number_integer(Json::number_integer_t) { return number(); }
  bool number_unsigned(Json::number_unsigned_t) { return number(); }
  bool number_float(Json::number_float_t, const Json::string_t&) { return number(); }
  bool string(Json::string_t& value) {
    const Mark mark = step();
    check_clean(value, mark);
    return add(Node::text(std::move(value), mark, true));
  }
  bool binary(Json::binary_t&) { return false; }
  bool start_object(std::size_t) { return tree_.open(Node::map(step())) == Tree::Step::go_on; }
  bool start_array(std::size_t) { return tree_.open(Node::list(step())) == Tree::Step::go_on; }
  bool end_object() { return end(); }
  bool end_array() { return end(); }
  bool key(Json::string_t& key) {
    const Mark mark = step();
    tree_.key(key, mark);
    check_clean(key, mark);
    return true;
  }
  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception& error);

  Tree& tree() { return tree_; }

 private:
  Mark step() {
    token_ = tokens_.next();
    return places_.at(tokens_.offset());
  }
  bool number() {
    const Mark mark = step();
    return add(Node::number(std::string(token_), mark));
  }
  bool add(Node scalar) { return tree_.scalar(std::move(scalar)) == Tree::Step::go_on; }
  bool end() {
    step();
    tree_.close();
    return true;
  }
  void check_clean(const std::string& value, Mark mark);

  std::string_view text_;
  const Places& places_;
  Tokens tokens_;
  std::string_view token_;
  Tree tree_;
  Diagnostics& diagnostics_;
};

void Builder::check_clean(const std::string& value, Mark mark) {
  if (is_clean(value)) return;
  diagnostics_.add({"not_text", "", mark, tree_.path(), "The text holds a control character written as an escape.",
                    value, "letters, signs and spaces", ""});
}

/// The part of the parser's message between two of its fixed words; empty when they are not there.
std::string between(std::string_view message, std::string_view before, std::string_view after) {
  const std::size_t found = message.find(before);
  if (found == std::string_view::npos) return {};
  const std::string_view rest = message.substr(found + before.size());
  return std::string(rest.substr(0, rest.find(after)));
}

bool Builder::parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception& error) {
  const std::string_view message = error.what();
  Diagnostic diagnostic;
  diagnostic.code = "syntax";
  const std::size_t offset = std::min(position > 0 ? position - 1 : 0, text_.size());
  diagnostic.mark = places_.at(offset);
  diagnostic.field = tree_.path();
  const std::string_view rest = text_.substr(offset);
  diagnostic.found = std::string(rest.substr(0, rest.find_first_of("\r\n")));
  diagnostic.accepted = between(message, "; expected ", "\n");
  const std::string where = between(message, "syntax error while parsing ", " - ");
  diagnostic.message = where.empty()
                           ? "The text cannot be read as JSON here."
                           : "The text cannot be read as JSON here, where it should go on with: " + where + ".";
  if (tree_.complete()) {
    diagnostic.code = "many_documents";
    diagnostic.message = "There is more text after the end of the document.";
    diagnostic.accepted = "one document in a file";
  } else if (text_.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    diagnostic.message = "The document is empty.";
  } else if (message.find("number overflow") != std::string_view::npos) {
    diagnostic.code = "out_of_range";
    diagnostic.message = "The number is too large.";
    diagnostic.accepted = "a number below 1e308";
  }
  diagnostics_.add(std::move(diagnostic));
  return false;
}

}  // namespace

Node parse_json(std::string_view text, const Places& places, const Limits& limits, Diagnostics& diagnostics) {
  Builder builder(text, places, limits, diagnostics);
  if (!Json::sax_parse(text, &builder)) return {};
  return builder.tree().take();
}

}  // namespace cotter::document
