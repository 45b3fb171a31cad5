#include "words/amounts.hpp"

#include <cstdlib>
#include <fmt/format.h>

namespace cotter::words {

std::string money(std::int64_t hundredths, const std::string& currency) {
  return fmt::format("{}{}.{:02}{}{}", hundredths < 0 ? "-" : "", std::abs(hundredths) / 100,
                     std::abs(hundredths) % 100, currency.empty() ? "" : " ", currency);
}

std::string hours(std::int64_t hundredths_of_minute) {
  const std::int64_t minutes = (hundredths_of_minute + 50) / 100;
  return minutes < 60 ? fmt::format("{} min", minutes) : fmt::format("{} h {:02} min", minutes / 60, minutes % 60);
}

std::string grams(std::int64_t base_units) {
  return fmt::format("{} g", (base_units + (base_units < 0 ? -500 : 500)) / 1000);
}

}  // namespace cotter::words
