#include "kept_results.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cstdint>
#include <cstdio>
#include <exception>
#include <fstream>
#include <iterator>
#include <mutex>
#include <string>
#include <thread>

namespace simulated {
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

json result_of(const KeptSeeds& kept, int seed, const std::string& print, const std::function<json(int)>& live) {
  const std::filesystem::path file = kept.folder / fmt::format("seed-{}.json", seed);
  if (kept.keep_results && std::filesystem::exists(file)) {
    json known = json::parse(std::ifstream{file}, nullptr, false);
    if (!known.is_discarded() && known["program"] == print) return known;
  }
  json result = live(seed);
  result["program"] = print;
  const std::filesystem::path beside = file.string() + ".new";
  std::ofstream{beside} << result.dump(1);
  std::filesystem::rename(beside, file);
  return result;
}

}  // namespace

std::vector<json> results_of(const KeptSeeds& kept, const std::function<json(int)>& live,
                             const std::function<void(const json&)>& tell) {
  const std::string print = print_of(kept.program);
  std::vector<json> out(kept.seeds.size());
  std::atomic<std::size_t> next = 0;
  std::mutex one_speaks;
  std::exception_ptr problem;
  const auto work = [&] {
    for (std::size_t i = next++; i < out.size(); i = next++) {
      try {
        out[i] = result_of(kept, kept.seeds[i], print, live);
        const std::scoped_lock lock{one_speaks};
        tell(out[i]);
      } catch (const std::exception& wrong) {
        const std::scoped_lock lock{one_speaks};
        fmt::print(stderr, "seed {}: {}\n", kept.seeds[i], wrong.what());
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

}  // namespace simulated
