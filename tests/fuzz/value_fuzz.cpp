// Any bytes as a written value: no crash, no exception, and what was read is printed and read back to the same limits.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "quantity/ensure.hpp"
#include "quantity/text.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace cotter::quantity;
  if (size == 0) return 0;
  const auto dimension = static_cast<Dimension>(data[0] % 8);
  const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
  const auto value = parse_value(text, dimension);
  names_origin(text);
  if (!value) {
    ensure(value.error().offset <= text.size(), "an error beyond the end of its text");
    return 0;
  }
  for (const LengthUnit unit : {LengthUnit::millimetre, LengthUnit::inch}) {
    for (const DecimalMark mark : {DecimalMark::point, DecimalMark::comma}) {
      const auto again = parse_value(print_value(*value, {unit, mark}), dimension);
      ensure(again.has_value(), "a printed value is not read back");
      ensure(again->range_known == value->range_known, "a printed value became known or unknown");
      ensure(!value->range_known || again->range() == value->range(), "a printed value has other limits");
      ensure(again->origin.kind == value->origin.kind, "a printed value has another origin");
    }
  }
  return 0;
}
