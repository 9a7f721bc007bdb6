#include "sheet/sheet/sheets.h"

#include <set>

#include "true_size_fixture.h"

namespace blankwright::true_size {
namespace {

struct OnProfile {
  Length along, diameter;
};

/// A page of the half-profile as a reader of the paper measures it, with this printer.
struct ProfilePage {
  Length axis;                   // x
  std::vector<Spot> edge;        // the wide line from the seat to the tail
  std::vector<Length> joints;    // y of their lines
  std::optional<Length> seat_y;  // of the wide line at the seat
};

ProfilePage read_profile(const Page& page) {
  ProfilePage out;
  for (const Stroke& s : strokes_on(page)) {
    const Path& p = s.paths.front();
    if (s.dash == Dash::centre && p.front().x == p.back().x) out.axis = p.front().x;
    // The edge is drawn before the detail of the seat, which has wide lines too.
    if (s.width == wide_line && s.paths.size() == 1 && p.front().y != p.back().y && out.edge.empty()) out.edge = p;
    if (s.width == wide_line && p.front().y == p.back().y && !out.seat_y) out.seat_y = p.front().y;
    if (s.paths.size() == 2 && s.paths[0].size() == 2 && s.paths[0][0].y == s.paths[1][1].y) {
      out.joints.push_back(p.front().y);
    }
  }
  std::sort(out.joints.begin(), out.joints.end());
  return out;
}

/// The edge of all pages, joined as the sheets say.
std::vector<OnProfile> joined(const std::vector<Page>& pages, const Handle& h) {
  std::vector<OnProfile> out;
  Length joint_along{};  // from the seat
  bool first = true;
  for (const Page& page : pages) {
    if (is_target_page(page)) continue;
    const ProfilePage p = read_profile(page);
    REQUIRE(p.edge.size() >= 2);
    const Length from = first ? *p.seat_y : p.joints.front();
    const Length base = first ? 0 * mm : joint_along;
    for (const Spot& s : p.edge) {
      out.push_back({base + (s.y - from) * (h.bar_y / 100), 2 * (s.x - p.axis) * (h.bar_x / 100)});
    }
    if (!p.joints.empty()) joint_along = base + (p.joints.back() - from) * (h.bar_y / 100);
    first = false;
  }
  return out;
}

/// Straight from station to station: by the rule of three.
Length straight(const Handle& h, Length along) {
  const double z = along / mm;
  for (std::size_t i = 1; i < h.stations.size(); ++i) {
    const auto& [a, da] = h.stations[i - 1];
    const auto& [b, db] = h.stations[i];
    if (z <= b + 1e-9) return (da + (z - a) * (db - da) / (b - a)) * mm;
  }
  return h.stations.back().second * mm;
}

}  // namespace

TEST_CASE("the half-profile's edge is half of the finished diameter from the axis, whatever the printer") {
  for (const Handle& h : kinds()) {
    CAPTURE(h.bar_x);
    CAPTURE(h.bar_y);
    const TestOrder order = order_of(h);
    const auto edge = joined(pages_of(order), h);
    std::size_t stations = 0;
    for (const OnProfile& p : edge) {
      CAPTURE(p.along / mm);
      CHECK(near(p.diameter, straight(h, p.along), 0.002 * mm));
      for (const auto& s : h.stations) stations += near(p.along, s.first * mm);
    }
    CHECK(stations == h.stations.size());
  }
}

TEST_CASE("a 250 mm handle is joined from several sheets without a step, smooth or straight") {
  for (const bool smooth : {false, true}) {
    for (const bool letter : {false, true}) {
      Handle h{{{0, 40}, {100, 78}, {180, 70}, {250, 50}}};
      h.smooth = smooth;
      h.letter = letter;
      h.bar_x = 99.5;
      h.bar_y = 100.6;
      const TestOrder order = order_of(h);
      const auto pages = pages_of(order);
      const auto profiles =
          std::count_if(pages.begin(), pages.end(), [](const Page& p) { return !is_target_page(p); });
      CHECK(profiles == 2);
      const auto edge = joined(pages, h);
      Length reached{};
      std::set<std::size_t> met;
      for (const OnProfile& p : edge) {
        CHECK(p.along <= reached + 100.01 * mm);  // no gap but between two stations of a straight form
        reached = std::max(reached, p.along);
        const Length within = std::clamp(p.along, 0 * mm, 250 * mm);
        const Length expected = smooth ? order.dossier().plan.form.diameter(within) : straight(h, p.along);
        CHECK(near(p.diameter, expected, 0.01 * mm));
        for (std::size_t i = 0; i < h.stations.size(); ++i) {
          if (near(p.along, h.stations[i].first * mm) && near(p.diameter, h.stations[i].second * mm)) met.insert(i);
        }
      }
      CHECK(met.size() == h.stations.size());
      CHECK(reached > 250 * mm);
      int letters = 0;
      for (const Page& page : pages) {
        for (const Text& t : texts_on(page)) letters += t.words == "A";
        check_page(page, 12 * mm);
      }
      CHECK(letters == 4);  // at both ends of the joint, on both sheets
    }
  }
}

TEST_CASE("stations are labelled, and of too many only as many as find room") {
  const TestOrder order = order_of({small});
  const Page page = pages_of(order).back();
  for (const char* label : {"0 · Ø26 · Seat", "40 · Ø34", "80 · Ø30", "108 · Ø24 · Tail"}) CHECK(shows(page, label));
  Handle many;
  for (int i = 0; i < 200; ++i) many.stations.emplace_back(i * 0.6, 26 + i % 2);
  const TestOrder crowded = order_of(many);
  for (const Page& p : pages_of(crowded)) check_page(p, 12 * mm);
  CHECK(shows(pages_of(crowded).back(), "119.4 · Ø27 · Tail"));
}

TEST_CASE("the seat's detail has its bore and stud at the scale that it names, inside the margins") {
  for (Handle h : kinds()) {
    h.stations = {{0, 26}, {40, 30}, {108, 22}};
    const TestOrder order = order_of(h);
    const Dossier& d = order.dossier();
    for (const Page& page : half_profile_pages(d, fonts_for_test())) {
      check_page(page, 12 * mm);
      int scale = 0;
      for (const Text& t : texts_on(page)) {
        if (t.words.starts_with("Detail of seat and bore, ")) scale = std::stoi(t.words.substr(t.words.rfind(' ')));
      }
      REQUIRE(scale >= 2);
      // Pairs of wide lines along the axis: of the bore's walls, of the thread's crests.
      std::vector<double> apart;
      for (const Stroke& s : strokes_on(page)) {
        if (s.width == wide_line && s.paths.size() == 2 && s.paths[0].size() == 2 && s.paths[1].size() == 2) {
          apart.push_back(abs(s.paths[0].front().y - s.paths[1].front().y) / mm / scale);
        }
      }
      REQUIRE(apart.size() == 2);
      CHECK(apart.front() == doctest::Approx(d.plan.bore.drill.diameter / mm));
      CHECK(apart.back() == doctest::Approx(d.order.stud.thread.value.major / mm));
    }
  }
}

}  // namespace blankwright::true_size
