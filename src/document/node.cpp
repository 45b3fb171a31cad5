#include "document/node.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "quantity/ensure.hpp"

namespace cotter::document {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// How many digits stand at `from`.
std::size_t digits_at(std::string_view text, std::size_t from) {
  std::size_t end = from;
  while (end < text.size() && is_digit(text[end])) ++end;
  return end - from;
}

/// Length of the sign and the digits before the point; 0 when there are none.
std::size_t whole_length(std::string_view text) {
  const std::size_t sign = text.starts_with('-') ? 1 : 0;
  if (text.substr(sign, 1) == "0") return sign + 1;
  const std::size_t digits = digits_at(text, sign);
  return digits == 0 ? 0 : sign + digits;
}

bool is_one_of(std::string_view letter, std::string_view letters) {
  return !letter.empty() && letters.find(letter) != std::string_view::npos;
}

}  // namespace

std::size_t number_length(std::string_view text) {
  std::size_t length = whole_length(text);
  if (length == 0) return 0;
  if (text.substr(length, 1) == ".") {
    const std::size_t digits = digits_at(text, length + 1);
    if (digits == 0) return length;
    length += 1 + digits;
  }
  if (is_one_of(text.substr(length, 1), "eE")) {
    const std::size_t sign = is_one_of(text.substr(length + 1, 1), "+-") ? 1 : 0;
    const std::size_t digits = digits_at(text, length + 1 + sign);
    if (digits > 0) length += 1 + sign + digits;
  }
  return length;
}

bool is_number(std::string_view text) {
  return !text.empty() && number_length(text) == text.size();
}

bool is_whole_number(std::string_view text) {
  return !text.empty() && whole_length(text) == text.size();
}

Node Node::null(Mark mark) {
  Node node;
  node.mark_ = mark;
  return node;
}

Node Node::boolean(bool value, Mark mark) {
  Node node = null(mark);
  node.kind_ = Kind::boolean;
  node.scalar_ = value ? "true" : "false";
  return node;
}

Node Node::number(std::string digits, Mark mark) {
  quantity::ensure(is_number(digits), "a number node needs a number as JSON writes it");
  Node node = null(mark);
  node.kind_ = Kind::number;
  node.scalar_ = std::move(digits);
  return node;
}

Node Node::integer(long long value, Mark mark) {
  return number(std::to_string(value), mark);
}

Node Node::real(double value, Mark mark) {
  quantity::ensure(std::isfinite(value), "a number in a document must be finite");
  std::array<char, 32> digits{};
  const auto [end, error] = std::to_chars(digits.data(), digits.data() + digits.size(), value);
  quantity::ensure(error == std::errc(), "the shortest decimal of a double has at most 24 characters");
  return number(std::string(digits.data(), end), mark);
}

Node Node::text(std::string value, Mark mark, bool quoted) {
  Node node = null(mark);
  node.kind_ = Kind::text;
  node.quoted_ = quoted;
  node.scalar_ = std::move(value);
  return node;
}

Node Node::list(Mark mark) {
  Node node = null(mark);
  node.kind_ = Kind::list;
  return node;
}

Node Node::map(Mark mark) {
  Node node = null(mark);
  node.kind_ = Kind::map;
  return node;
}

Node Node::list_of(std::initializer_list<Node> items) {
  Node node = list();
  node.items_ = items;
  return node;
}

const Node* Node::find(std::string_view key) const {
  const auto entry = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& e) { return e.key == key; });
  return entry == entries_.end() ? nullptr : &entry->value;
}

Node* Node::find(std::string_view key) {
  const auto entry = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& e) { return e.key == key; });
  return entry == entries_.end() ? nullptr : &entry->value;
}

Node& Node::push(Node item) {
  quantity::ensure(is_list(), "only a list takes items");
  items_.push_back(std::move(item));
  return *this;
}

Node& Node::set(std::string key, Node value, Mark key_mark) {
  quantity::ensure(is_map(), "only a map takes entries");
  quantity::ensure(find(key) == nullptr, "a map holds each key once");
  entries_.push_back({std::move(key), key_mark, std::move(value)});
  return *this;
}

bool Node::operator==(const Node& other) const {
  const auto same_entry = [](const Entry& a, const Entry& b) { return a.key == b.key && a.value == b.value; };
  return kind_ == other.kind_ && scalar_ == other.scalar_ && items_ == other.items_ &&
         std::equal(entries_.begin(), entries_.end(), other.entries_.begin(), other.entries_.end(), same_entry);
}

}  // namespace cotter::document
