#pragma once
// The first line of every document, `cotter: job 1`: which kind it is, of which version, and how an older one is read.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "document/read_spot.hpp"

namespace cotter::document {

struct Header {
  std::string kind;
  int version = 0;
  bool operator==(const Header&) const = default;
};

/// Newest version of each kind that this program reads and writes.
constexpr int k_format_version = 1;

/// **Fails with** `missing_field`, `bad_value` for a line of another shape, `unknown_word` with the nearest kind, and
/// `newer_version` for one that only a later program can read.
std::optional<Header> read_header(const Node& document, const std::vector<std::string>& kinds,
                                  Diagnostics& diagnostics);

/// Brings a document of one version to the next.
using MigrationStep = Node (*)(Node document);
/// Steps by kind and by the version they start from.
using MigrationTable = std::map<std::string, std::map<int, MigrationStep>>;
/// The steps this program knows. Version 1 is the first, so there is none yet.
const MigrationTable& migration_steps();

/// A document of version `from` as one of version `to`, one step after the other.
/// **Fails with** `no_migration` when a step is missing.
std::optional<Node> migrate(Node document, const Header& from, int to, const MigrationTable& steps,
                            Diagnostics& diagnostics);

/// A document of this kind in the newest version. **Fails with** what `read_header` and `migrate` say.
std::optional<Node> newest_version(Node document, const std::vector<std::string>& kinds, std::string& kind,
                                   Diagnostics& diagnostics);

}  // namespace cotter::document
