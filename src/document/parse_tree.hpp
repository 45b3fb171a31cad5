#pragma once
// Builds a Node from the events of a parser, whichever it is, and holds the limits that both formats share.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "document/parse.hpp"

namespace cotter::document {

class Tree {
 public:
  Tree(const Limits& limits, Diagnostics& diagnostics) : limits_(limits), diagnostics_(diagnostics) {}

  /// Whether parsing may go on, or a limit is passed and the diagnostic says so.
  enum class Step { go_on, stop };

  /// Starts a list or a map.
  [[nodiscard]] Step open(Node container);
  void close();
  [[nodiscard]] Step scalar(Node scalar);
  /// A key given before in this map is a diagnostic; the entry is kept so that its value is read too.
  void key(std::string key, Mark mark);

  bool wants_key() const { return !open_.empty() && open_.back().node.is_map() && !open_.back().has_key; }
  /// Where the key stands whose value comes next.
  std::optional<Mark> open_key() const {
    if (open_.empty() || !open_.back().has_key) return std::nullopt;
    return open_.back().key_mark;
  }
  bool complete() const { return complete_; }
  /// Path of the node that comes next.
  std::string path() const;
  Node take() { return std::move(root_); }

 private:
  struct Frame {
    Node node;
    std::map<std::string, Mark> keys;  ///< of a map that has many
    std::size_t listed = 0;            ///< how many entries are in `keys`
    std::string key;
    Mark key_mark;
    bool has_key = false;
    std::optional<Mark> given_before(const std::string& wanted);
  };

  Step count(Mark mark);
  void place(Node node);
  void report(std::string code, Mark mark, std::string message, std::string accepted);

  Limits limits_;
  Diagnostics& diagnostics_;
  std::vector<Frame> open_;
  Node root_;
  bool complete_ = false;
  std::size_t nodes_ = 0;
};

/// Path of an entry of a map.
std::string path_of_key(const std::string& map, std::string_view key);
/// Path of an item of a list.
std::string path_of_item(const std::string& list, std::size_t index);

}  // namespace cotter::document
