#pragma once
// A node with its path, and short ways to say what is wrong with it: what every reader of a document needs.
//
// Readers go on after a fault so that one reading names them all. So nothing here assumes that the schema check has
// passed: a node of the wrong kind, already reported by that check, reads as absent.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "document/diagnostic.hpp"
#include "document/node.hpp"

namespace cotter::document {

struct SpotEntry;

/// A place in a document, whether or not anything stands there.
class Spot {
 public:
  Spot() = default;
  explicit Spot(const Node& root, std::string field = "");

  /// False when nothing stands there, or an empty value.
  bool exists() const { return node_ != nullptr && !node_->is_null(); }
  bool is_map() const { return exists() && node_->is_map(); }
  bool is_list() const { return exists() && node_->is_list(); }
  bool is_scalar() const { return exists() && node_->is_scalar(); }
  /// Requires `exists()`.
  const Node& node() const { return *node_; }

  /// The spot of a key; it carries the mark of this map when the key is missing.
  Spot at(std::string_view key) const;
  std::vector<Spot> items() const;
  std::vector<SpotEntry> entries() const;

  std::string text(std::string fallback = "") const;
  std::int64_t integer(std::int64_t fallback) const;
  double real(double fallback) const;
  /// Minutes as whole hundredths; 0 when nothing stands here.
  std::int64_t hundredths() const;
  bool flag(bool fallback) const;
  /// The texts of a list of scalars.
  std::vector<std::string> texts() const;

  const std::string& field() const { return field_; }
  Mark mark() const { return mark_; }
  /// The scalar that stands here, or the key when this is the spot of a name.
  std::string found() const;

 private:
  friend struct SpotEntry;
  const Node* node_ = nullptr;
  std::string field_;
  std::string name_;
  Mark mark_;
};

/// One entry of a map.
struct SpotEntry {
  std::string key;
  Spot name;   ///< the key itself, for faults of the key
  Spot value;  ///< what the key holds

  SpotEntry(const Spot& map, const Node::Entry& entry);
};

/// Adds a diagnostic at a spot; `found` is what stands there.
void report(Diagnostics& diagnostics, const Spot& spot, std::string code, std::string message,
            std::string accepted = "", std::string suggestion = "");
/// Says that a name leads nowhere: `unknown_name`, "There is no <noun> of this name.", with the nearest of `known`.
void report_unknown(Diagnostics& diagnostics, const Spot& spot, std::string_view noun,
                    const std::vector<std::string>& known);

/// Where the first of two equal names stands.
struct Seen {
  std::string file;
  Mark mark;
};
/// Says that a name is given twice: `duplicate_id`, with the place of the first.
void report_duplicate(Diagnostics& diagnostics, const Spot& spot, std::string_view noun, const Seen& first);

/// The same diagnostics in the order of the text; those of the schema and those of the meaning mixed.
Diagnostics in_text_order(const Diagnostics& diagnostics);

}  // namespace cotter::document
