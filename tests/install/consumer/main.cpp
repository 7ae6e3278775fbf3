#include <crushwright/quantity.hpp>

#include <iostream>

int main() {
  std::cout << crushwright::name_of(crushwright::Evidence::measured) << '\n';
  return 0;
}
