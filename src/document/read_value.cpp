#include "document/read_value.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <fmt/format.h>

#include "document/schema.hpp"
#include "quantity/text.hpp"

namespace cotter::document {
namespace {

using quantity::Dimension;
using quantity::OriginKind;
using quantity::Value;

constexpr std::array k_dimensions{Dimension::length, Dimension::angle,    Dimension::torque,   Dimension::force,
                                  Dimension::mass,   Dimension::pressure, Dimension::duration, Dimension::count};

/// Text may leave its origin out; a map never does.
bool leaves_origin_out(const Node& node) {
  return !node.is_map() && !quantity::names_origin(node.scalar());
}

quantity::Range range_of(std::int64_t low, std::int64_t high) {
  return {quantity::Mixed::from_base(low), quantity::Mixed::from_base(high)};
}

const model::Tool* find_tool(const model::Shop& shop, const std::string& name) {
  const auto with = [&](auto member) {
    return std::find_if(shop.tools.begin(), shop.tools.end(), [&](const model::Tool& t) { return t.*member == name; });
  };
  auto tool = with(&model::Tool::id);
  if (tool == shop.tools.end()) tool = with(&model::Tool::kind);
  return tool == shop.tools.end() ? nullptr : &*tool;
}

/// Plus and minus the resolution of the tool that measured.
std::optional<quantity::Range> reading_error(const Value& value, const model::Shop* shop) {
  if (value.origin.kind != OriginKind::measured || shop == nullptr) return std::nullopt;
  const model::Tool* tool = find_tool(*shop, value.origin.tool);
  if (tool == nullptr) return std::nullopt;
  const auto step = quantity::parse_value(tool->resolution, value.dimension);
  if (!step || !step->range_known) return std::nullopt;
  return range_of(-step->nominal, step->nominal);
}

Value over_whole_range(Value value, const quantity::Range& permitted) {
  const std::int64_t low = permitted.low().base();
  const std::int64_t high = permitted.high().base();
  value.nominal = low + (high - low) / 2;
  value.lower = low - value.nominal;
  value.upper = high - value.nominal;
  value.deviations = quantity::Deviations::filled;
  value.range_known = true;
  return value;
}

void set_deviations(Value& value, const quantity::Range& deviations) {
  // A unit that is no whole number of base units has left its own limits there already.
  value.lower += deviations.low().base();
  value.upper += deviations.high().base();
  value.deviations = quantity::Deviations::filled;
}

Value filled(Value value, const model::KindDimension& dimension, const model::Shop* shop) {
  if (!value.range_known) return over_whole_range(std::move(value), dimension.permitted);
  if (value.deviations != quantity::Deviations::unstated) return value;
  const quantity::Range deviations = reading_error(value, shop).value_or(dimension.unstated);
  if (deviations == quantity::Range{}) return value;
  set_deviations(value, deviations);
  return value;
}

/// Hundredths of a written amount with at most two decimals.
std::optional<std::int64_t> hundredths_in(std::string_view text) {
  constexpr std::size_t k_most_digits = 12;
  const std::size_t point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  std::string decimals(point == std::string_view::npos ? "" : text.substr(point + 1));
  if (whole.empty() || decimals.size() > 2 || (point != std::string_view::npos && decimals.empty()))
    return std::nullopt;
  decimals.append(2 - decimals.size(), '0');
  const std::string digits = std::string(whole) + decimals;
  const bool all_digits = std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!all_digits || digits.size() > k_most_digits) return std::nullopt;
  std::int64_t amount = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), amount);
  return amount;
}

bool is_currency(std::string_view word) {
  return word.size() == 3 && std::all_of(word.begin(), word.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

}  // namespace

std::string shown(const Value& value) {
  return quantity::print_amount(value.nominal, value.dimension);
}

std::optional<Value> read_written(const Spot& spot, Dimension dimension, const ValueContext& context) {
  if (!spot.exists()) return std::nullopt;
  Diagnostics refused("");
  check(spot.node(), *value_schema(dimension), refused);
  if (!refused.empty()) return std::nullopt;
  Value value = value_of(spot.node(), dimension);
  if (!spot.is_map() && value.origin.kind == OriginKind::maker) value.origin.source = context.paper;
  if (leaves_origin_out(spot.node()) && !context.paper.empty()) {
    value.origin.kind = OriginKind::maker;
    value.origin.source = context.paper;
  }
  return value;
}

std::optional<Value> read_dimension(const Spot& spot, const model::InterfaceKind& kind,
                                    const model::KindDimension& dimension, const ValueContext& context,
                                    Diagnostics& diagnostics) {
  const auto written = read_written(spot, dimension.dimension, context);
  if (!written) return std::nullopt;
  const auto& permitted = dimension.permitted;
  if (written->range_known && written->range().width().base() > permitted.width().base()) {
    report(diagnostics, spot.is_map() ? spot.at("value") : spot, "out_of_range",
           fmt::format("The deviations of the {} are wider than all that is possible for this kind ({}).",
                       dimension.label, kind.label),
           fmt::format("at most {} in all", quantity::print_amount(permitted.width().base(), dimension.dimension)));
    return std::nullopt;
  }
  if (written->range_known && !permitted.contains(quantity::Mixed::from_base(written->nominal))) {
    const Spot where = spot.is_map() ? spot.at("value") : spot;
    report(diagnostics, where, "out_of_range",
           fmt::format("The {} is outside what is possible for this kind ({}).", dimension.label, kind.label),
           fmt::format("{} to {}", quantity::print_amount(permitted.low().base(), dimension.dimension),
                       quantity::print_amount(permitted.high().base(), dimension.dimension)));
    return std::nullopt;
  }
  if (written->origin.kind == OriginKind::measured && context.shop != nullptr && !written->origin.tool.empty() &&
      find_tool(*context.shop, written->origin.tool) == nullptr) {
    std::vector<std::string> tools;
    for (const model::Tool& tool : context.shop->tools) tools.push_back(tool.id);
    report_unknown(diagnostics, spot.is_map() ? spot.at("measured").at("with") : spot, "tool of the shop", tools);
    return std::nullopt;
  }
  return filled(*written, dimension, context.shop);
}

std::optional<Value> read_number(const Spot& spot, Dimension dimension, Sign sign, const ValueContext& context,
                                 Diagnostics& diagnostics) {
  const auto value = read_written(spot, dimension, context);
  if (!value) return std::nullopt;
  const Spot where = spot.is_map() ? spot.at("value") : spot;
  if (!value->range_known) {
    report(diagnostics, where, "bad_value", "This value has to be known; only a dimension of an interface may be `?`.",
           "a value, marked as assumed where it is: `{value: 45 mm, assumed: \"why\"}`");
    return std::nullopt;
  }
  const std::int64_t low = value->range().low().base();
  if ((sign == Sign::positive && low <= 0) || (sign == Sign::not_negative && low < 0)) {
    report(
        diagnostics, where, "out_of_range",
        sign == Sign::positive ? "This has to be more than nothing." : "This may not be negative.",
        fmt::format("{} {}", sign == Sign::positive ? "more than" : "at least", quantity::print_amount(0, dimension)));
    return std::nullopt;
  }
  return value;
}

std::optional<Value> read_any_value(const Spot& spot, Diagnostics& diagnostics) {
  if (!spot.is_scalar()) return std::nullopt;
  for (const Dimension dimension : k_dimensions)
    if (auto value = quantity::parse_value(spot.text(), dimension); value && value->range_known) return *value;
  report(diagnostics, spot, "bad_value", "This is not a value with a unit.",
         "a value such as 1.2 mm, 0.5° or 6 N·m, or a whole number");
  return std::nullopt;
}

Value with_reading_error(Value value, const model::Shop* shop) {
  if (value.deviations != quantity::Deviations::unstated) return value;
  if (const auto deviations = reading_error(value, shop)) set_deviations(value, *deviations);
  return value;
}

std::optional<quantity::Range> read_deviations(const Spot& spot, Dimension dimension, Diagnostics& diagnostics) {
  if (!spot.is_scalar()) return std::nullopt;
  const auto around_zero = quantity::parse_value("0 " + spot.text(), dimension);
  if (around_zero && around_zero->deviations == quantity::Deviations::stated) return around_zero->range();
  report(diagnostics, spot, "bad_value", "These are not deviations with a unit.",
         fmt::format("deviations of a {} such as ±{}", quantity::word_for(dimension),
                     quantity::print_amount(1'000'000, dimension)));
  return std::nullopt;
}

std::optional<model::Price> read_money(const Spot& spot, Diagnostics& diagnostics) {
  if (!spot.is_scalar()) return std::nullopt;
  const std::string text = spot.text();
  const std::size_t gap = text.find(' ');
  if (gap != std::string::npos && is_currency(std::string_view(text).substr(gap + 1)))
    if (const auto amount = hundredths_in(std::string_view(text).substr(0, gap)))
      return model::Price{*amount, text.substr(gap + 1)};
  report(diagnostics, spot, "bad_value", "This is not an amount of money.", "an amount such as 54.00 EUR");
  return std::nullopt;
}

std::optional<model::ClearShape> read_shape(const Spot& spot, const ValueContext& context, Diagnostics& diagnostics) {
  if (!spot.is_map()) return std::nullopt;
  const auto length = [&](const char* key) {
    return read_number(spot.at(key), Dimension::length, Sign::positive, context, diagnostics);
  };
  const bool is_round = spot.at("round").exists();
  const bool is_slot = spot.at("width").exists() && spot.at("length").exists();
  const bool mixed = is_round && (spot.at("width").exists() || spot.at("length").exists());
  if (mixed || (!is_round && !is_slot)) {
    report(diagnostics, spot, mixed ? "too_many" : "missing_field", "The shape is round, a slot or an oval.",
           "`{round: 6.5 mm}`, `{width: 7 mm, length: 15 mm}`, or that with `oval: true`");
    return std::nullopt;
  }
  if (is_round) {
    const auto diameter = length("round");
    if (!diameter) return std::nullopt;
    return model::ClearShape{*diameter, *diameter, model::ClearShape::Outline::round};
  }
  const auto width = length("width");
  const auto span = length("length");
  if (!width || !span) return std::nullopt;
  if (span->nominal < width->nominal) {
    report(diagnostics, spot.at("length"), "out_of_range", "An opening is at least as long as it is wide.",
           fmt::format("at least {}", shown(*width)));
    return std::nullopt;
  }
  if (width->nominal == span->nominal) return model::ClearShape{*width, *span, model::ClearShape::Outline::round};
  const bool oval = spot.at("oval").flag(false);
  return model::ClearShape{*width, *span, oval ? model::ClearShape::Outline::oval : model::ClearShape::Outline::slot};
}

}  // namespace cotter::document
