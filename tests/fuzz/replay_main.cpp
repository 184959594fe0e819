// Runs a fuzz target over every file of its corpus and over what a fixed seed makes of each: the
// same inputs in every run, so that it can stand among the tests.
//   NAME_fuzz CORPUS_FOLDER
#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

void run(const std::string& input) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(input.data()), input.size());
}

std::string changed(std::string input, const std::string& other, std::mt19937& random) {
  const auto below = [&](std::size_t end) { return end == 0 ? 0 : random() % end; };
  switch (below(4)) {
    case 0:
      if (!input.empty()) input[below(input.size())] = static_cast<char>(random() % 256);
      break;
    case 1:
      input.insert(below(input.size() + 1), 1, static_cast<char>(random() % 256));
      break;
    case 2:
      input.erase(below(input.size() + 1), below(8));
      break;
    default:
      input = input.substr(0, below(input.size() + 1)) + other.substr(below(other.size() + 1));
  }
  return input;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) return 2;
  std::vector<std::filesystem::path> files;
  for (const auto& file : std::filesystem::directory_iterator(words[1])) files.push_back(file);
  std::sort(files.begin(), files.end());
  std::vector<std::string> inputs;
  for (const auto& path : files) {
    std::ifstream file(path, std::ios::binary);
    inputs.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  if (inputs.empty()) return 1;
  std::mt19937 random(20270503);
  std::size_t runs = 0;
  run("");
  for (const std::string& input : inputs) {
    run(input);
    std::string made = input;
    for (int step = 0; step < 50; ++step) {
      made = changed(made, inputs[random() % inputs.size()], random);
      run(made);
      ++runs;
    }
  }
  std::cout << inputs.size() << " inputs, " << runs << " made of them\n";
  return 0;
}
