#include "test_record/number_cell.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("a number's text says whether its mark can only stand before decimals") {
  for (const char* text : {"0.5", "-.5", "5.", "0.123", "12.34", "1234.567", "1.2345", "1.234e3", "+0.001"}) {
    CAPTURE(text);
    CHECK(form_of(text) == NumberForm::decimal_point);
  }
  for (const char* text : {"0,5", ",5", "0,123", "1,234E-3"}) {
    CAPTURE(text);
    CHECK(form_of(text) == NumberForm::decimal_comma);
  }
  for (const char* text : {"1.234", "-12.345", "123.456"}) {
    CAPTURE(text);
    CHECK(form_of(text) == NumberForm::unsure_point);
  }
  CHECK(form_of("1,234") == NumberForm::unsure_comma);
  for (const char* text : {"1.234,5", "1,234.5", "1,234,567", "1..2"}) {
    CAPTURE(text);
    CHECK(form_of(text) == NumberForm::grouped);
  }
  for (const char* text : {"0", "-12", "+3", "1e5", "12E-3"}) {
    CAPTURE(text);
    CHECK(form_of(text) == NumberForm::whole);
  }
  for (const char* text :
       {"", "-", ".", "e5", "1e", "1e+", "1e5.5", "nan", "inf", "0x10", "1 2", "--1", "1-", "\u22121"}) {
    CAPTURE(text);
    CHECK(form_of(text) == NumberForm::none);
  }
}

TEST_CASE("the same digits with either mark are the same number to the last bit") {
  for (const char* digits : {"0.1", "123.456", "-7.0e-12", "2.2250738585072014e-308"}) {
    std::string comma = digits;
    comma[comma.find('.')] = ',';
    CHECK(number_in(digits, '.').value() == number_in(comma, ',').value());
    CHECK_FALSE(number_in(digits, ',').has_value());
  }
  CHECK(number_in("0.1", '.').value() == 0.1);
  CHECK(number_in("+12", ',').value() == 12);
  CHECK_FALSE(number_in("1e400", '.').has_value());
  CHECK_FALSE(number_in("", '.').has_value());
}
