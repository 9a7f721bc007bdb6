#include "seeds.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cstdio>
#include <exception>
#include <fstream>
#include <iterator>
#include <map>
#include <mutex>
#include <nlohmann/json.hpp>
#include <thread>

namespace calendar_rules {
namespace {

using nlohmann::json;

/// Tells one build of the program from another.
std::string print_of(const std::filesystem::path& program) {
  std::ifstream in{program, std::ios::binary};
  std::uint64_t hash = 1469598103934665603ULL;  // FNV-1a
  for (std::istreambuf_iterator<char> at{in}, end; at != end; ++at)
    hash = (hash ^ static_cast<unsigned char>(*at)) * 1099511628211ULL;
  return fmt::format("{:016x}", hash);
}

json to_json(const Lived& lived) {
  json out = {{"seed", lived.seed},   {"orders", lived.orders},  {"refused", lived.refused},
              {"runs", lived.runs},   {"baths", lived.baths},    {"under way", lived.under_way},
              {"cpu_s", lived.cpu_s}, {"broken", json::array()}, {"commands", lived.commands}};
  for (const Breach& breach : lived.breaches) out["broken"].push_back({{"rule", breach.rule}, {"what", breach.what}});
  return out;
}

json result_of(const Seeds& seeds, int seed, const std::string& print) {
  const std::filesystem::path file = seeds.folder / fmt::format("seed-{}.json", seed);
  if (seeds.keep_results && std::filesystem::exists(file)) {
    json kept = json::parse(std::ifstream{file}, nullptr, false);
    if (!kept.is_discarded() && kept["program"] == print) return kept;
  }
  const std::filesystem::path folder = seeds.folder / fmt::format("seed-{}", seed);
  json result = to_json(live(seeds.program, folder, seed, seeds.with));
  result["program"] = print;
  const std::filesystem::path beside = file.string() + ".new";
  std::ofstream{beside} << result.dump(1);
  std::filesystem::rename(beside, file);
  if (result["broken"].empty()) std::filesystem::remove_all(folder);
  return result;
}

std::vector<json> results_of(const Seeds& seeds) {
  const std::string print = print_of(seeds.program);
  std::vector<json> out(seeds.seeds.size());
  std::atomic<std::size_t> next = 0;
  std::mutex one_speaks;
  std::exception_ptr problem;
  const auto work = [&] {
    for (std::size_t i = next++; i < out.size(); i = next++) {
      try {
        out[i] = result_of(seeds, seeds.seeds[i], print);
      } catch (const std::exception& wrong) {
        const std::scoped_lock lock{one_speaks};
        fmt::print(stderr, "seed {}: {}\n", seeds.seeds[i], wrong.what());
        problem = std::current_exception();
        next = out.size();
      }
    }
  };
  {
    std::vector<std::jthread> workers;
    for (unsigned i = 0; i < std::max(1U, std::thread::hardware_concurrency()); ++i) workers.emplace_back(work);
  }
  if (problem) std::rethrow_exception(problem);
  return out;
}

/// Of each rule the first ones; all of them stand in the seed's result.
void tell(const json& result, std::map<std::string, int>& told) {
  std::map<std::string, int> here;
  for (const json& broken : result["broken"]) {
    const std::string rule = broken["rule"];
    if (++here[rule] > 1 || ++told[rule] > 3) continue;
    fmt::print("BROKEN, seed {}: {}: {}\n", result["seed"].get<int>(), rule, broken["what"].get<std::string>());
    for (const json& command : result["commands"]) fmt::print("    {}\n", command.get<std::string>());
  }
}

}  // namespace

bool hold_all(const Seeds& seeds) {
  std::filesystem::create_directories(seeds.folder);
  std::map<std::string, int> told, sum, broken;
  double cpu_s = 0;
  for (const json& result : results_of(seeds)) {
    tell(result, told);
    for (const char* what : {"orders", "refused", "runs", "baths", "under way"}) sum[what] += result[what].get<int>();
    for (const json& one : result["broken"]) ++broken[one["rule"].get<std::string>()];
    cpu_s += result["cpu_s"].get<double>();
  }
  fmt::print(
      "{} shops, {} orders and {} that they cannot make, {} runs in {} baths, {} of them under way, {:.1f} CPU s\n",
      seeds.seeds.size(), sum["orders"], sum["refused"], sum["runs"], sum["baths"], sum["under way"], cpu_s);
  bool well = true;
  for (const auto& [rule, times] : broken) {
    const bool known = std::ranges::find(seeds.not_held_yet, rule) != seeds.not_held_yet.end();
    fmt::print("{}: {}: {} times\n", known ? "not held yet" : "BROKEN", rule, times);
    well = well && known;
  }
  return well;
}

}  // namespace calendar_rules
