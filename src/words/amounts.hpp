#pragma once
// Money, time and mass as a reader sees them.

#include <cstdint>
#include <string>

namespace cotter::words {

/// "54.00 EUR"; without a currency the number alone.
std::string money(std::int64_t hundredths, const std::string& currency);
/// "40 min", "2 h 05 min", rounded to the minute.
std::string hours(std::int64_t hundredths_of_minute);
/// "92 g" from base units of mass, rounded.
std::string grams(std::int64_t base_units);

}  // namespace cotter::words
