// Shops that are lived through, a date promised for each order: how many of the dates hold.
#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <filesystem>

#include "shop.h"

namespace {

/// How many there were, and how many of them held.
struct Held {
  int all = 0, held = 0;
  void add(const promises_kept::Given& given) {
    ++all;
    held += given.holds ? 1 : 0;
  }
  double share() const { return all == 0 ? 0 : static_cast<double>(held) / all; }
};

int held_all(const std::vector<std::string>& words) {
  constexpr int enough = 200;  // so many tell a share to 4 % (two deviations of the binomial)
  const int orders = std::stoi(words.at(2));
  Held before, by_record;
  for (std::size_t i = 3; i < words.size(); ++i) {
    const std::filesystem::path folder = std::filesystem::path{words.at(1)} / ("seed-" + words.at(i));
    std::filesystem::remove_all(folder);
    promises_kept::Shop shop{words.at(0), folder, static_cast<unsigned>(std::stoi(words.at(i)))};
    Held of_shop;
    for (const auto& given : shop.live(orders)) {
      (given.by_record ? by_record : before).add(given);
      of_shop.add(given);
    }
    fmt::print("seed {}: {} of {} held\n", words.at(i), of_shop.held, of_shop.all);
  }
  fmt::print("at 90 %, before enough orders were on record: {} of {} held, {:.0f} %\n", before.held, before.all,
             100 * before.share());
  fmt::print("at 90 %, by the record: {} of {} held, {:.0f} %\n", by_record.held, by_record.all,
             100 * by_record.share());
  if (by_record.all == 0) {
    fmt::print("no promise was given by the record\n");
    return 1;
  }
  const bool is_as_meant = by_record.share() >= 0.85 && by_record.share() <= 0.95;
  return by_record.all < enough || is_as_meant ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words{argv + 1, argv + argc};
  if (words.size() < 4) {
    fmt::print("usage: promises_kept PROGRAM FOLDER ORDERS SEED...\n");
    return 2;
  }
  try {
    return held_all(words);
  } catch (const std::exception& problem) {
    fmt::print(stderr, "promises_kept: {}\n", problem.what());
    return 3;
  }
}
