#pragma once
// The walk behind `check`: one object for the diagnostics and the marks they get.

#include <string>

#include "document/diagnostic.hpp"
#include "document/node.hpp"
#include "document/schema.hpp"

namespace cotter::document {

/// What a diagnostic of the walk says beside its place.
struct Complaint {
  std::string code;
  std::string message;
  std::string found;
  std::string accepted;
  std::string suggestion;
};

class Checker {
 public:
  explicit Checker(Diagnostics& diagnostics) : diagnostics_(diagnostics) {}

  void check(const Node& node, const Schema& schema, const std::string& field);

 private:
  void complain(Mark mark, const std::string& field, Complaint complaint);
  void wrong_kind(const Node& node, const Schema& schema, const std::string& field, std::string suggestion = {});
  void check_text(const Node& node, const Schema& schema, const std::string& field);
  void check_word(const Node& node, const Schema& schema, const std::string& field);
  void check_identifier(const std::string& word, Mark mark, const std::string& field);
  void check_integer(const Node& node, const Schema& schema, const std::string& field);
  void check_real(const Node& node, const Schema& schema, const std::string& field);
  void check_boolean(const Node& node, const Schema& schema, const std::string& field);
  void check_count(std::size_t count, const Node& node, const Schema& schema, const std::string& field);
  void check_list(const Node& node, const Schema& schema, const std::string& field);
  void check_map(const Node& node, const Schema& schema, const std::string& field);
  void check_object(const Node& node, const Schema& schema, const std::string& field);
  void check_either(const Node& node, const Schema& schema, const std::string& field);
  void check_value(const Node& node, const Schema& schema, const std::string& field);
  void check_written(const Node& node, const Schema& schema, const std::string& field);
  void check_papers(const Node& node, const Schema& schema, const std::string& field);
  void check_measurement(const Node& measured, const std::string& field);

  Diagnostics& diagnostics_;
};

}  // namespace cotter::document
