#pragma once
// The catalog's adapters as a problem of the bridge: kinds, rules and words become numbers, and back.

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "engine/fit/bridge/solve.hpp"
#include "model/catalog.hpp"

namespace cotter::plan {

/// Everything that the bridge knows of a catalog; built once, asked for every joint.
class BridgeCatalog {
 public:
  /// `catalog` must outlive this.
  explicit BridgeCatalog(const model::Catalog& catalog);

  const engine::fit::bridge::Index& index() const { return *index_; }
  /// The part behind a piece, and one of its interfaces by its number within the piece.
  const model::Part& part(std::uint32_t piece) const { return *parts_[piece]; }
  const model::Interface& interface(std::uint32_t piece, std::uint32_t feature) const;
  /// The parts of a chain in a row: "a sleeve + a ring".
  std::string label(const engine::fit::bridge::Chain& chain) const;
  /// A feature of the job as numbers; nothing when no adapter may stand there.
  std::optional<engine::fit::bridge::Feature> feature(const model::Interface& interface) const;
  /// A rule of the meeting of two kinds, in the order of a Joint's rules.
  const model::Meeting* meeting(const std::string& kind_a, const std::string& kind_b) const;

 private:
  std::vector<engine::fit::bridge::Meeting> meetings() const;
  std::uint32_t word_number(const std::string& word) const;

  const model::Catalog& catalog_;
  std::map<std::string, std::uint32_t> kinds_;
  std::map<std::string, std::uint32_t> words_;
  std::vector<const model::Part*> parts_;
  std::vector<std::vector<const model::Interface*>> interfaces_;
  std::unique_ptr<engine::fit::bridge::Index> index_;
};

}  // namespace cotter::plan
