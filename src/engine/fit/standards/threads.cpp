#include "engine/fit/standards/threads.hpp"

#include <cmath>
#include <iso262_coarse.hpp>
#include <iso965_external.hpp>
#include <iso965_internal.hpp>
#include <numbers>

#include "engine/fit/standards/csv_table.hpp"
#include "quantity/text.hpp"

namespace cotter::engine::fit {
namespace {

using quantity::Length;

const CsvTable& external_limits() {
  static const CsvTable table(k_iso965_external);
  return table;
}

const CsvTable& internal_tolerances() {
  static const CsvTable table(k_iso965_internal);
  return table;
}

const CsvTable& coarse_pitches() {
  static const CsvTable table(k_iso262_coarse);
  return table;
}

constexpr std::string_view k_accepted_thread = "M5, M10x1 or 1.37 in x 24 tpi";

ClassError bad_thread(std::string_view text) {
  return {ClassError::Code::bad_class, "threads", std::string(text), std::string(k_accepted_thread)};
}

std::string trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(' ');
  if (begin == std::string_view::npos) return {};
  return std::string(text.substr(begin, text.find_last_not_of(' ') - begin + 1));
}

tl::expected<quantity::Value, ClassError> read_length(const std::string& text, std::string_view whole) {
  const auto value = quantity::parse_value(text, quantity::Dimension::length);
  if (!value || !value->range_known || value->nominal <= 0) return tl::unexpected(bad_thread(whole));
  return *value;
}

tl::expected<ThreadName, ClassError> with_coarse_pitch(Length major, std::string_view text) {
  const CsvTable& table = coarse_pitches();
  for (std::size_t row = 0; row < table.rows(); ++row)
    if (table.millimetres(row, "major_mm") == major)
      return ThreadName{major, quantity::Interval<Length>(*table.millimetres(row, "pitch_mm"))};
  return tl::unexpected(ClassError{ClassError::Code::no_row, "ISO 262 coarse pitches", std::string(text),
                                   "the pitch written out, for example M10x1"});
}

/// The standard's tables carry basic diameters to three decimals (ISO 724).
Length to_micrometre(Length length) {
  return quantity::micrometres((length.base() + 500) / 1000);
}

std::optional<std::size_t> row_of(const CsvTable& table, Length major, Length pitch, std::string_view tolerance_class) {
  for (std::size_t row = 0; row < table.rows(); ++row)
    if (table.cell(row, "class") == tolerance_class && table.millimetres(row, "major_mm") == major &&
        table.millimetres(row, "pitch_mm") == pitch)
      return row;
  return std::nullopt;
}

std::string source_of(const CsvTable& table, std::size_t row, std::string source) {
  const std::string_view sure = table.cell(row, "sure");
  if (sure == "memory") return source + ", from memory";
  if (sure == "minor from memory") return source + " (minor diameter from memory)";
  return source;
}

ThreadLimits external_at(std::size_t row) {
  const CsvTable& table = external_limits();
  ThreadLimits limits;
  limits.major = {table.millimetres(row, "major_min"), table.millimetres(row, "major_max")};
  limits.pitch_diameter = {table.millimetres(row, "pitch_min"), table.millimetres(row, "pitch_max")};
  limits.source = source_of(table, row, "ISO 965 limits, through a fastener distributor's catalogue, page 711");
  return limits;
}

ThreadLimits internal_at(std::size_t row, Length major, const BasicProfile& basic) {
  const CsvTable& table = internal_tolerances();
  ThreadLimits limits;
  limits.major.least = major;
  limits.pitch_diameter.least = to_micrometre(basic.pitch_diameter);
  if (const auto tolerance = table.micrometres(row, "pitch_tolerance_um"))
    limits.pitch_diameter.greatest = *limits.pitch_diameter.least + *tolerance;
  limits.minor = {to_micrometre(basic.minor), table.millimetres(row, "minor_max")};
  limits.source = source_of(table, row, "ISO 68-1 profile and ISO 965 tolerances, through a tap maker's catalogue");
  return limits;
}

}  // namespace

tl::expected<ThreadName, ClassError> parse_thread(std::string_view text) {
  const std::size_t cross = text.find('x');
  const bool metric = !text.empty() && text.front() == 'M';
  const std::string first =
      trimmed(text.substr(metric ? 1 : 0, cross == std::string_view::npos ? cross : cross - (metric ? 1 : 0)));
  const auto major = read_length(metric ? first + " mm" : first, text);
  if (!major) return tl::unexpected(major.error());
  const Length diameter = quantity::nominal_length(*major);
  if (cross == std::string_view::npos)
    return metric ? with_coarse_pitch(diameter, text) : tl::unexpected(bad_thread(text));
  const std::string second = trimmed(text.substr(cross + 1));
  const auto pitch = read_length(metric ? second + " mm" : second, text);
  if (!pitch) return tl::unexpected(pitch.error());
  return ThreadName{diameter, quantity::length_interval(*pitch)};
}

BasicProfile basic_profile(Length major, Length pitch) {
  const double height = static_cast<double>(pitch.base()) * std::numbers::sqrt3 / 2;
  const auto rounded = [](double nanometres) { return quantity::nanometres(std::llround(nanometres)); };
  return {major - rounded(height * 3 / 4), major - rounded(height * 5 / 4)};
}

tl::expected<ThreadLimits, ClassError> thread_limits(Length major, Length pitch, std::string_view tolerance_class) {
  const BasicProfile basic = basic_profile(major, pitch);
  if (tolerance_class == "basic")
    return ThreadLimits{{major, major},
                        {basic.pitch_diameter, basic.pitch_diameter},
                        {basic.minor, basic.minor},
                        "ISO 68-1, basic profile"};
  if (tolerance_class == "6g")
    if (const auto row = row_of(external_limits(), major, pitch, tolerance_class)) return external_at(*row);
  if (tolerance_class == "6H")
    if (const auto row = row_of(internal_tolerances(), major, pitch, tolerance_class))
      return internal_at(*row, major, basic);
  if (tolerance_class != "6g" && tolerance_class != "6H")
    return tl::unexpected(ClassError{ClassError::Code::bad_class, "ISO 965", std::string(tolerance_class),
                                     "6g (external), 6H (internal) or basic"});
  const auto text = [](Length length) { return quantity::print_number(length.base(), quantity::Dimension::length); };
  return tl::unexpected(ClassError{ClassError::Code::no_row, "ISO 965",
                                   std::string(tolerance_class) + " for " + text(major) + " x " + text(pitch) + " mm",
                                   "a thread with a sourced row, class basic, or the limits written out"});
}

}  // namespace cotter::engine::fit
