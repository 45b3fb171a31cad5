#include "document/parse_tree.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cotter::document {
namespace {

constexpr std::size_t k_key_most = 40;
/// Up to here a walk over the map is quicker than a table.
constexpr std::size_t k_few_keys = 16;

}  // namespace

std::string path_of_key(const std::string& map, std::string_view key) {
  std::string path;
  path.reserve(map.size() + 1 + key.size());
  path += map;
  if (!map.empty()) path += '.';
  return path += printable(key, k_key_most);
}

std::string path_of_item(const std::string& list, std::size_t index) {
  return fmt::format("{}[{}]", list, index);
}

void Tree::report(std::string code, Mark mark, std::string message, std::string accepted) {
  diagnostics_.add({std::move(code), "", mark, path(), std::move(message), "", std::move(accepted), ""});
}

Tree::Step Tree::count(Mark mark) {
  if (++nodes_ <= limits_.nodes) return Step::go_on;
  report("too_large", mark, fmt::format("The document has more than {} entries.", limits_.nodes), "a smaller document");
  return Step::stop;
}

Tree::Step Tree::open(Node container) {
  if (count(container.mark()) == Step::stop) return Step::stop;
  if (open_.size() >= static_cast<std::size_t>(limits_.depth)) {
    report("too_deep", container.mark(), fmt::format("The document is nested deeper than {} levels.", limits_.depth),
           "lists and maps with fewer levels");
    return Step::stop;
  }
  open_.emplace_back().node = std::move(container);
  return Step::go_on;
}

void Tree::close() {
  Node node = std::move(open_.back().node);
  open_.pop_back();
  place(std::move(node));
}

Tree::Step Tree::scalar(Node scalar) {
  if (count(scalar.mark()) == Step::stop) return Step::stop;
  place(std::move(scalar));
  return Step::go_on;
}

std::optional<Mark> Tree::Frame::given_before(const std::string& wanted) {
  const std::vector<Node::Entry>& entries = node.entries();
  if (entries.size() < k_few_keys) {
    const auto same =
        std::find_if(entries.begin(), entries.end(), [&](const Node::Entry& entry) { return entry.key == wanted; });
    return same == entries.end() ? std::nullopt : std::optional(same->key_mark);
  }
  for (; listed < entries.size(); ++listed) keys.emplace(entries[listed].key, entries[listed].key_mark);
  const auto same = keys.find(wanted);
  return same == keys.end() ? std::nullopt : std::optional(same->second);
}

void Tree::key(std::string key, Mark mark) {
  Frame& frame = open_.back();
  const auto first = frame.given_before(key);
  frame.key = std::move(key);
  frame.key_mark = mark;
  frame.has_key = true;
  if (!first) return;
  diagnostics_.add({"duplicate_key", "", mark, path(),
                    fmt::format("The same key stands in line {} already.", first->line), frame.key,
                    "each key once in a map", ""});
}

void Tree::place(Node node) {
  if (open_.empty()) {
    root_ = std::move(node);
    complete_ = true;
    return;
  }
  Frame& frame = open_.back();
  if (frame.node.is_list()) {
    frame.node.items().push_back(std::move(node));
  } else {
    // Not Node::set, which walks the map: the frame has looked for duplicates.
    frame.node.entries().push_back({std::move(frame.key), frame.key_mark, std::move(node)});
    frame.has_key = false;
  }
}

std::string Tree::path() const {
  std::string path;
  for (const Frame& frame : open_) {
    if (frame.node.is_list()) {
      path = path_of_item(path, frame.node.items().size());
    } else if (frame.has_key) {
      path = path_of_key(path, frame.key);
    }
  }
  return path;
}

}  // namespace cotter::document
