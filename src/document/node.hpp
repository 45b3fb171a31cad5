#pragma once
// One tree for YAML and JSON alike: scalars as written, lists, ordered maps, each with its place in the text.

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "document/diagnostic.hpp"

namespace cotter::document {

/// Length of the longest number at the front of the text as JSON writes numbers; 0 when there is none.
std::size_t number_length(std::string_view text);
/// Whether the text is a number as JSON writes it: no leading zero, no leading `+`, digits on both sides of the point.
bool is_number(std::string_view text);
/// Whether the text is such a number without point and exponent.
bool is_whole_number(std::string_view text);

class Node {
 public:
  enum class Kind { null, boolean, number, text, list, map };
  struct Entry;

  Node() = default;
  static Node null(Mark mark = {});
  static Node boolean(bool value, Mark mark = {});
  /// `digits` is the number as written; it is never converted to a double on the way through.
  static Node number(std::string digits, Mark mark = {});
  static Node integer(long long value, Mark mark = {});
  /// Shortest decimal that reads back to the same double; `value` must be finite.
  static Node real(double value, Mark mark = {});
  /// `quoted` tells a quoted YAML scalar or a JSON string from a plain one.
  static Node text(std::string value, Mark mark = {}, bool quoted = true);
  static Node list(Mark mark = {});
  static Node map(Mark mark = {});
  static Node list_of(std::initializer_list<Node> items);

  Kind kind() const { return kind_; }
  bool is_scalar() const { return kind_ != Kind::list && kind_ != Kind::map; }
  bool is_null() const { return kind_ == Kind::null; }
  bool is_list() const { return kind_ == Kind::list; }
  bool is_map() const { return kind_ == Kind::map; }
  bool quoted() const { return quoted_; }
  Mark mark() const { return mark_; }

  /// Text of any scalar, as written ("" for null).
  const std::string& scalar() const { return scalar_; }
  const std::vector<Node>& items() const { return items_; }
  std::vector<Node>& items() { return items_; }
  const std::vector<Entry>& entries() const { return entries_; }
  std::vector<Entry>& entries() { return entries_; }

  /// The value of a key, or nullptr.
  const Node* find(std::string_view key) const;
  Node* find(std::string_view key);

  /// Appends to a list; returns *this.
  Node& push(Node item);
  /// Appends an entry to a map; returns *this. The key must be new.
  Node& set(std::string key, Node value, Mark key_mark = {});

  /// Same kind, scalars and order; marks and quoting do not count.
  bool operator==(const Node& other) const;

 private:
  Kind kind_ = Kind::null;
  bool quoted_ = false;
  Mark mark_;
  std::string scalar_;
  std::vector<Node> items_;
  std::vector<Entry> entries_;
};

struct Node::Entry {
  std::string key;
  Mark key_mark;
  Node value;
};

}  // namespace cotter::document
