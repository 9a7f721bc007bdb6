// Writes what the speed comparison compiles: shop.toml, its template tags.toml, and job files S-0001.toml and on, a
// little different from each other, the same on every run. Names are invented.
//
//   make_jobs ORDERS FOLDER
//
// The shop states no yield, so that each order starts its 22 pieces and two spares: 24 tags, one page.

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>

namespace {

constexpr std::string_view shop_file = R"(format = 1
name = "Speed trial workshop"
zone = "Europe/Berlin"
units = "metric"
template = "tags.toml"
[hours]
monday = ["08:00-12:00", "13:00-17:00"]
tuesday = ["08:00-12:00", "13:00-17:00"]
wednesday = ["08:00-12:00", "13:00-17:00"]
thursday = ["08:00-12:00", "13:00-17:00"]
friday = ["08:00-12:00", "13:00-17:00"]
[glue]
least_edge = "150 %"
[yield]
spares = 2
[[routing]]
name = "Saw"
who = "sawyer"
fixed = "15 min"
per_piece = "3 min"
[[routing]]
name = "Oven-dry"
who = "bath hand"
fixed = "24 h"
hands_on = "ends"
hands_on_time = "15 min"
unattended = true
may_run_long = true
[[routing]]
name = "Soak"
who = "bath hand"
fixed = "16 h"
hands_on = "ends"
hands_on_time = "20 min"
unattended = true
may_run_long = true
[[routing]]
name = "Cure"
who = "bath hand"
fixed = "3 h"
hands_on = "ends"
[[routing]]
name = "Turn"
who = "turner"
per_piece = "12 min"
)";

constexpr std::string_view template_file = R"(format = 1
paper = "A4"
tag_sheet = "a4-3x8-70x37"
)";

std::string job_file(int number) {
  constexpr std::array<std::string_view, 4> species{"European beech", "Black walnut", "Yellow-poplar", "Sugar maple"};
  constexpr std::array<std::string_view, 3> threads{"M6", "M8", "5/16-18"};
  const auto index = static_cast<std::size_t>(number);
  const double wide = 28 + number % 9 * 0.5;
  return fmt::format(R"(format = 1
id = "S-{:04}"
client = "Maro & Co"
item = "file handle"
quantity = 22
due = {}-{:02}-{:02}
[handle]
stations = [
  {{at = "0 mm", diameter = "{} mm"}},
  {{at = "40 mm", diameter = "{} mm"}},
  {{at = "90 mm", diameter = "{} mm"}},
  {{at = "{} mm", diameter = "20 mm"}},
]
form = "{}"
[stud]
thread = "{}"
enters = "15 mm"
[wood]
species = "{}"
)",
                     number, 2030 + number / 336, 1 + number / 28 % 12, 1 + number % 28, wide - 4, wide, wide - 3,
                     106 + number % 13, number % 2 == 0 ? "smooth" : "straight", threads.at(index % threads.size()),
                     species.at(index % species.size()));
}

void write_file(const std::filesystem::path& path, std::string_view content) {
  std::ofstream file{path, std::ios::binary};
  file << content;
  file.close();
  if (!file) throw std::runtime_error{fmt::format("{} could not be written", path.string())};
}

int count_from(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || value < 1 || value > 9999) {
    throw std::runtime_error{fmt::format("{} is not a count from 1 to 9999", text)};
  }
  return value;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    if (argc != 3) throw std::runtime_error{"usage: make_jobs ORDERS FOLDER"};
    const int orders = count_from(argv[1]);
    const std::filesystem::path folder = argv[2];
    std::filesystem::create_directories(folder);
    write_file(folder / "shop.toml", shop_file);
    write_file(folder / "tags.toml", template_file);
    for (int number = 1; number <= orders; ++number) {
      write_file(folder / fmt::format("S-{:04}.toml", number), job_file(number));
    }
    return 0;
  } catch (const std::exception& error) {
    fmt::print(stderr, "make_jobs: {}\n", error.what());
    return 1;
  }
}
