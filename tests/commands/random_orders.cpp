#include "random_orders.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace blankwright {
namespace {

/// SplitMix64: Steele, Lea, Flood, "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014.
class SplitMix {
 public:
  explicit SplitMix(std::uint64_t seed) : state_{seed} {}

  std::uint64_t next() {
    std::uint64_t z = state_ += 0x9E3779B97F4A7C15U;
    z = (z ^ z >> 30U) * 0xBF58476D1CE4E5B9U;
    z = (z ^ z >> 27U) * 0x94D049BB133111EBU;
    return z ^ z >> 31U;
  }
  /// From `least` to `most`, both included.
  int whole(int least, int most) {
    return least + static_cast<int>(next() % static_cast<std::uint64_t>(most - least + 1));
  }
  bool one_in(int n) { return whole(1, n) == 1; }
  /// From `least` to `most` in steps of a tenth.
  double tenths(double least, double most) {
    return whole(static_cast<int>(10 * least), static_cast<int>(10 * most)) / 10.0;
  }
  template <class T>
  const T& of(const std::vector<T>& all) {
    return all.at(static_cast<std::size_t>(whole(0, static_cast<int>(all.size()) - 1)));
  }

 private:
  std::uint64_t state_;
};

const std::vector<std::string>& clients() {
  static const std::vector<std::string> all{
      "Q",
      "Osk & Brenn",
      "Wytwórnia Dłut „Żółw” Grzegorza Brzęczyszczykiewicza",
      "Εργαστήριο Λαβών Παπαδιαμαντόπουλος και Υιοί",
      "Größenwahn Gerätegriffe für Öfen und Äxte GmbH",
      "Hollowmere-upon-the-Wold Amalgamated Plane, Chisel and Gouge Fittings Works, Ltd"};
  return all;
}

struct ThreadSize {
  std::string name;
  double diameter;  // mm
};
const std::vector<ThreadSize>& threads(bool metric) {
  static const std::vector<ThreadSize> iso{{"M4", 4}, {"M5", 5}, {"M6", 6}, {"M8", 8}, {"M8x1", 8}, {"M10", 10}};
  static const std::vector<ThreadSize> unified{{"#10-24", 4.8}, {"1/4-20", 6.35}, {"5/16-18", 7.9}, {"3/8-16", 9.5}};
  return metric ? iso : unified;
}

std::string sentence(SplitMix& chance, int words) {
  static const std::vector<std::string> some{"the",   "seat",  "meets", "a",        "ferrule", "of",    "brass",
                                             "lines", "may",   "run",   "spalting", "nothing", "soft",  "within",
                                             "oiled", "twice", "grain", "upright",  "Maße",    "łatwo", "λαβή"};
  std::string out;
  for (int i = 0; i < words; ++i) out += (out.empty() ? "" : " ") + chance.of(some);
  return out + ".";
}

/// A length in the shop's unit.
std::string length(double mm, bool metric) {
  return metric ? fmt::format("{:.1f} mm", mm) : fmt::format("{:.3f} in", mm / 25.4);
}

std::string handle(SplitMix& chance, bool metric, double seat) {
  const bool smooth = chance.one_in(2);
  const int count = chance.one_in(8) ? chance.whole(15, 40) : chance.whole(2, 9);
  const double all = chance.tenths(std::max(45.0, 5.0 * count), std::max(180.0, 6.0 * count));
  std::string out = fmt::format("\n[handle]\nform = \"{}\"\ntolerance = \"{}\"\nstations = [\n",
                                smooth ? "smooth" : "straight", length(chance.tenths(0.2, 0.8), metric));
  double diameter = seat;
  for (int i = 0; i < count; ++i) {
    const double at = i == count - 1 ? all : std::floor(10 * all * i / (count - 1)) / 10;
    if (i > 0) diameter = std::clamp(diameter + chance.tenths(-4, 4.5), seat * 0.85, 44.0);
    out += fmt::format("  {{at = \"{}\", diameter = \"{}\"}},\n", length(at, metric), length(diameter, metric));
  }
  return out + "]\n";
}

std::string stud(SplitMix& chance, bool metric, const ThreadSize& thread) {
  const double enters = std::round(10 * 1.6 * thread.diameter) / 10;
  std::string out = fmt::format("\n[stud]\nthread = \"{}\"\nenters = \"{}\"\nhole_depth = \"{}\"\n", thread.name,
                                length(enters, metric), length(enters + 4, metric));
  if (chance.one_in(2)) out += fmt::format("pull = \"{} N\"\n", 50 * chance.whole(1, 8));
  if (chance.one_in(3)) out += "grade = \"A2-70\"\n";
  if (chance.one_in(5)) out += "\n[bore]\nfit = \"tapped\"\n";
  return out;
}

std::string wood(SplitMix& chance, bool metric) {
  static const std::vector<std::string> species{"European beech", "black walnut", "yellow-poplar", "sugar maple",
                                                "European ash"};
  static const std::vector<std::string> conditions{"sound", "spalted", "punky", "burl"};
  std::string out = fmt::format("\n[wood]\nspecies = \"{}\"\ncondition = \"{}\"\nmoisture = \"{} %\"\nmatched = {}\n",
                                chance.of(species), chance.of(conditions), chance.whole(6, 14), chance.one_in(3));
  if (!chance.one_in(3)) return out;
  out += "boards = [\n";
  for (int i = chance.whole(1, 4); i > 0; --i) {
    out += fmt::format("  {{name = \"B{}\", length = \"{}\", width = \"{}\", thickness = \"{}\"}},\n", i,
                       length(chance.tenths(500, 1500), metric), length(chance.tenths(90, 240), metric),
                       length(chance.tenths(50, 70), metric));
  }
  return out + "]\n";
}

std::string treatment(SplitMix& chance, bool metric) {
  if (chance.one_in(4)) return {};
  std::string out = fmt::format("\n[treatment]\nresin = \"{}\"\n", metric ? "Clear K" : "Hardener Creek 200");
  if (chance.one_in(3)) out += fmt::format("dye = \"{}\"\n", metric ? "moss" : "blue");
  if (chance.one_in(2)) out += "witness = true\n";
  return out;
}

}  // namespace

RandomOrder::RandomOrder(std::uint64_t seed) : lettering{std::array{100, 130, 90, 115}.at(seed % 4)} {
  SplitMix chance{seed};
  const bool metric = chance.one_in(2);
  shop = metric ? "metric" : "inch";
  paper = chance.one_in(2) ? "a4" : "letter";
  id = fmt::format("R{}{}", seed, chance.one_in(4) ? "-longer.number_7" : "");
  const int quantity = chance.one_in(20) ? chance.whole(100, 300) : chance.whole(1, 30);
  text = fmt::format("format = 1\nid = \"{}\"\nclient = \"{}\"\nitem = \"{}\"\nquantity = {}\n", id,
                     chance.of(clients()), sentence(chance, chance.whole(1, 6)), quantity);
  if (chance.one_in(2)) text += fmt::format("due = 2027-0{}-28\n", chance.whole(7, 9));
  if (chance.one_in(2)) text += "drawing = \"RD-1\"\nrevision = \"C\"\n";
  if (chance.one_in(2)) text += fmt::format("finish = \"{}\"\n", sentence(chance, chance.whole(2, 8)));
  if (chance.one_in(2))
    text += fmt::format("notes = \"{}\"\n", sentence(chance, chance.whole(3, chance.one_in(8) ? 300 : 40)));
  const ThreadSize& thread = chance.of(threads(metric));
  text += handle(chance, metric, std::round(10 * (2.2 * thread.diameter + chance.tenths(4, 10))) / 10);
  if (chance.one_in(3)) text += fmt::format("\n[seat]\nsquareness = \"{}\"\n", length(0.1, metric));
  text += stud(chance, metric, thread);
  text += wood(chance, metric);
  text += treatment(chance, metric);
  if (chance.one_in(4)) text += "\n[use]\ndriest = \"6 %\"\ndampest = \"12 %\"\n";
}

}  // namespace blankwright
