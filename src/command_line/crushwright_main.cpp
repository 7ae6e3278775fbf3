#include "command_line/command_line.hpp"

int main(int count, char** words) {
  return crushwright::run_command_line(count, words);
}
