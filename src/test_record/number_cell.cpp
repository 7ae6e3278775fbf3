#include "test_record/number_cell.hpp"

#include <algorithm>
#include <charconv>
#include <system_error>

namespace crushwright {

namespace {

bool is_digit(char letter) {
  return letter >= '0' && letter <= '9';
}

std::string_view without_sign(std::string_view text) {
  return !text.empty() && (text.front() == '-' || text.front() == '+') ? text.substr(1) : text;
}

bool all_digits(std::string_view text) {
  return std::all_of(text.begin(), text.end(), is_digit);
}

struct Parts {
  std::string_view mantissa; ///< digits and marks, no sign
  bool has_exponent = false;
};

std::optional<Parts> parts_of(std::string_view cell) {
  const std::string_view body = without_sign(cell);
  const std::size_t at = body.find_first_of("eE");
  Parts parts{body.substr(0, at), at != std::string_view::npos};
  if (parts.has_exponent) {
    const std::string_view exponent = without_sign(body.substr(at + 1));
    if (exponent.empty() || !all_digits(exponent))
      return std::nullopt;
  }
  const bool has_digit = std::any_of(parts.mantissa.begin(), parts.mantissa.end(), is_digit);
  const bool only_marks = std::all_of(parts.mantissa.begin(), parts.mantissa.end(),
                                      [](char letter) { return is_digit(letter) || letter == '.' || letter == ','; });
  return has_digit && only_marks ? std::optional<Parts>(parts) : std::nullopt;
}

/// 1 to 3 digits without a leading zero, then the mark, then exactly three: as thousands are parted.
bool could_part_thousands(const Parts& parts, std::size_t mark) {
  return !parts.has_exponent && mark >= 1 && mark <= 3 && parts.mantissa.front() != '0' &&
         parts.mantissa.size() == mark + 4;
}

} // namespace

NumberForm form_of(std::string_view cell) {
  const std::optional<Parts> parts = parts_of(cell);
  if (!parts)
    return NumberForm::none;
  const std::size_t mark = parts->mantissa.find_first_of(".,");
  if (mark == std::string_view::npos)
    return NumberForm::whole;
  if (parts->mantissa.find_first_of(".,", mark + 1) != std::string_view::npos)
    return NumberForm::grouped;
  const bool unsure = could_part_thousands(*parts, mark);
  if (parts->mantissa[mark] == '.')
    return unsure ? NumberForm::unsure_point : NumberForm::decimal_point;
  return unsure ? NumberForm::unsure_comma : NumberForm::decimal_comma;
}

std::optional<double> number_in(std::string_view cell, char decimal_mark) {
  const NumberForm form = form_of(cell);
  const bool other_mark = cell.find(decimal_mark == '.' ? ',' : '.') != std::string_view::npos;
  if (form == NumberForm::none || form == NumberForm::grouped || other_mark)
    return std::nullopt;
  std::string digits(cell.front() == '+' ? cell.substr(1) : cell);
  std::replace(digits.begin(), digits.end(), ',', '.');
  double number = 0;
  const std::from_chars_result result = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (result.ec != std::errc() || result.ptr != digits.data() + digits.size())
    return std::nullopt;
  return number;
}

void DecimalMarkSearch::see(std::string_view cell, std::size_t line) {
  const auto keep_first = [&](std::optional<Sighting>& first) {
    if (!first)
      first = Sighting{std::string(cell), line};
  };
  switch (form_of(cell)) {
  case NumberForm::none:
  case NumberForm::whole:
    break;
  case NumberForm::decimal_point:
    keep_first(decimal_point);
    break;
  case NumberForm::decimal_comma:
    keep_first(decimal_comma);
    break;
  case NumberForm::unsure_point:
    keep_first(unsure_point);
    break;
  case NumberForm::unsure_comma:
    keep_first(unsure_comma);
    break;
  case NumberForm::grouped:
    keep_first(grouped);
    break;
  }
}

} // namespace crushwright
