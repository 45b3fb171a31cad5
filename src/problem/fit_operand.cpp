#include "problem/fit_operand.hpp"

#include <array>
#include <fmt/format.h>

#include "engine/fit/standards/limits.hpp"
#include "engine/fit/standards/threads.hpp"
#include "problem/fit_read.hpp"
#include "quantity/text.hpp"

namespace cotter::problem {
namespace {

using document::Diagnostics;
using document::Node;
using engine::fit::Operand;
using quantity::Dimension;
using quantity::Length;
using quantity::Mixed;
using quantity::Range;

constexpr std::array k_dimensions = {Dimension::length, Dimension::angle,    Dimension::torque,   Dimension::force,
                                     Dimension::mass,   Dimension::pressure, Dimension::duration, Dimension::count};

Range as_range(Length low, Length high) {
  return {Mixed::from_base(low.base()), Mixed::from_base(high.base())};
}

class OperandReader {
 public:
  OperandReader(const Node& node, const std::string& role, const std::string& field, Diagnostics& diagnostics)
      : node_(node), field_(field), diagnostics_(diagnostics) {
    operand_.role = role;
  }

  std::optional<Operand> read(Dimension dimension) {
    operand_.dimension = dimension;
    const bool read = !node_.is_map() || node_.find("value")   ? read_value()
                      : node_.find("from") || node_.find("to") ? read_possible()
                                                               : read_standard();
    if (!read) return std::nullopt;
    return operand_;
  }

 private:
  bool complain(std::string code, std::string message, std::string found, std::string accepted) {
    diagnostics_.add(
        {std::move(code), "", node_.mark(), field_, std::move(message), std::move(found), std::move(accepted), ""});
    return false;
  }

  std::optional<quantity::Value> value_at(const Node& node, const std::string& field) {
    Diagnostics trouble(diagnostics_.file());
    document::check(node, *document::value_schema(operand_.dimension), trouble, field);
    diagnostics_.append(trouble);
    if (!trouble.empty()) return std::nullopt;
    return document::value_of(node, operand_.dimension);
  }

  bool read_value() {
    const auto value = value_at(node_, field_);
    if (!value) return false;
    if (!value->range_known)
      return complain("unknown_range", "An unknown operand needs the range of what is possible.", value->text,
                      "a value, or a map {from, to}");
    operand_.range = value->range();
    operand_.nominal = value->nominal;
    operand_.attested = quantity::is_attested(*value);
    return true;
  }

  bool read_possible() {
    const Node* from = node_.find("from");
    const Node* to = node_.find("to");
    if (!from || !to || node_.entries().size() != 2)
      return complain("mixed_operand", "A range of what is possible has two ends and nothing else.", "", "{from, to}");
    const auto low = value_at(*from, field_ + ".from");
    const auto high = value_at(*to, field_ + ".to");
    if (!low || !high) return false;
    if (!low->range_known || !high->range_known || low->range().low() > high->range().high())
      return complain("bad_range", "The range of what is possible has its ends swapped or unknown.",
                      low->text + " to " + high->text, "`from` no greater than `to`");
    operand_.range = {low->range().low(), high->range().high()};
    operand_.nominal = low->nominal + (high->nominal - low->nominal) / 2;
    operand_.attested = false;
    operand_.known = false;
    return true;
  }

  bool read_standard() {
    if (operand_.dimension != Dimension::length)
      return complain("wrong_dimension", "Classes, bearings and threads are lengths, and this role is none.",
                      std::string(quantity::word_for(operand_.dimension)), "a written value");
    if (node_.find("thread")) return read_thread();
    const Node* nominal = node_.find("nominal");
    const Node* tolerance_class = node_.find("class");
    const Node* bearing = node_.find("bearing");
    if (!nominal || (tolerance_class == nullptr) == (bearing == nullptr))
      return complain("mixed_operand", "The operand does not say what it is.", "",
                      "a written value, {nominal, class}, {bearing, nominal}, {thread, class, take} or {from, to}");
    const auto size = read_nominal(*nominal, field_ + ".nominal", diagnostics_);
    if (!size) return false;
    const auto limits = tolerance_class                ? engine::fit::iso286_limits(*size, tolerance_class->scalar())
                        : bearing->scalar() == "outer" ? engine::fit::iso492_outer(*size)
                                                       : engine::fit::iso492_bore(*size);
    if (!limits) {
      diagnostics_.add(class_diagnostic(limits.error(), node_, field_));
      return false;
    }
    const auto range = engine::fit::limits_of_size(*size, *limits);
    operand_.range = as_range(range.low(), range.high());
    operand_.nominal = size->base();
    return true;
  }

  bool read_thread() {
    const std::string take = document::text_or(node_, "take");
    if (take.empty() || node_.find("nominal") || node_.find("bearing"))
      return complain("mixed_operand", "A thread operand says which size of the thread is meant, and nothing else.", "",
                      "{thread, take: major, pitch, pitch_diameter or minor, class}");
    const auto name = engine::fit::parse_thread(node_.find("thread")->scalar());
    if (!name) {
      diagnostics_.add(class_diagnostic(name.error(), node_, field_));
      return false;
    }
    operand_.nominal = take == "pitch" ? name->pitch.low().base() : name->major.base();
    if (take == "pitch") {
      operand_.range = as_range(name->pitch.low(), name->pitch.high());
      return true;
    }
    return read_thread_diameter(*name, take);
  }

  bool read_thread_diameter(const engine::fit::ThreadName& name, const std::string& take) {
    const std::string tolerance_class = document::text_or(node_, "class", "basic");
    const auto limits = engine::fit::thread_limits(name.major, name.pitch.low(), tolerance_class);
    if (!limits) {
      diagnostics_.add(class_diagnostic(limits.error(), node_, field_));
      return false;
    }
    const engine::fit::EndLimits& ends = take == "major"            ? limits->major
                                         : take == "pitch_diameter" ? limits->pitch_diameter
                                                                    : limits->minor;
    if (!ends.least || !ends.greatest)
      return complain(
          "open_limit",
          fmt::format("The tables give this {} no {} limit.",
                      take == "pitch_diameter" ? "pitch diameter" : take + " diameter", ends.least ? "upper" : "lower"),
          tolerance_class, "class basic, or the limits written out");
    operand_.range = as_range(*ends.least, *ends.greatest);
    if (take != "major") operand_.nominal = ends.greatest->base();
    return true;
  }

  const Node& node_;
  const std::string& field_;
  Diagnostics& diagnostics_;
  Operand operand_;
};

}  // namespace

std::optional<Operand> read_operand(const Node& node, const std::string& role, Dimension dimension,
                                    const std::string& field, Diagnostics& diagnostics) {
  return OperandReader(node, role, field, diagnostics).read(dimension);
}

std::optional<Dimension> dimension_of(const Node& node) {
  const Node* written = &node;
  if (node.is_map()) written = node.find("value") ? node.find("value") : node.find("from");
  if (!written) return Dimension::length;
  for (const Dimension dimension : k_dimensions)
    if (quantity::parse_value(written->scalar(), dimension)) return dimension;
  return std::nullopt;
}

}  // namespace cotter::problem
