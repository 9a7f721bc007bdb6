#pragma once

#include <initializer_list>
#include <string>
#include <utility>

#include "entries/entry.h"

namespace blankwright {

/// Where the IDs of the tests' registers begin.
inline const BlankId series_0 = BlankId::nth(0);

/// Entries for tests: each an hour after the one before.
class EntriesForTest {
 public:
  static constexpr Instant start{std::chrono::seconds{1'800'000'000}};

  Entry made(EntryKind kind, std::optional<BlankId> blank,
             std::initializer_list<std::pair<Field, FieldValue>> values = {}) {
    Entry entry;
    entry.number = ++number_;
    entry.kind = kind;
    entry.at = start + std::chrono::hours{number_};
    entry.offset = std::chrono::minutes{60};
    entry.blank = blank;
    for (const auto& [field, value] : values) entry.set(field, value);
    return entry;
  }
  Instant now() const { return start + std::chrono::hours{number_}; }

 private:
  EntryNumber number_ = 0;
};

/// What a blank goes through from its ID to the parcel, as the trade does it, with plausible figures of our own.
inline std::vector<Entry> life_of(EntriesForTest& made, BlankId id, const std::string& order) {
  using F = Field;
  using K = EntryKind;
  return {
      made.made(K::issued, id, {{F::order, order}}),
      made.made(K::sawn, id, {{F::board, std::string{"B1"}}}),
      made.made(K::measured, id, {{F::width, 0.045}, {F::depth, 0.0452}, {F::length, 0.128}}),
      made.made(K::weighed, id, {{F::mass, 0.1310}, {F::tare, 0.003}}),
      made.made(K::weighed, id, {{F::mass, 0.1309}, {F::tare, 0.003}}),
      made.made(K::into_bath, id, {{F::bath, std::string{"bath-1"}}}),
      made.made(K::out_of_bath, id),
      made.made(K::drained, id),
      made.made(K::weighed, id, {{F::mass, 0.2630}, {F::tare, 0.003}}),
      made.made(K::into_oven, id, {{F::load, std::string{"load-1"}}}),
      made.made(K::out_of_oven, id),
      made.made(K::weighed, id, {{F::mass, 0.2580}, {F::tare, 0.003}}),
      made.made(K::graded, id, {{F::verdict, std::string{"fill"}}}),
      made.made(K::filled, id),
      made.made(K::squared, id, {{F::width, 0.040}, {F::depth, 0.040}, {F::length, 0.122}}),
      made.made(K::bored, id,
                {{F::face_1, 0.0197},
                 {F::face_2, 0.0201},
                 {F::face_3, 0.0203},
                 {F::face_4, 0.0199},
                 {F::lean_1, 0.0002},
                 {F::lean_2, 0.0},
                 {F::over, 0.1},
                 {F::diameter, 0.0084}}),
      made.made(K::stud_measured, id,
                {{F::face_1, 0.0196},
                 {F::face_2, 0.0201},
                 {F::face_3, 0.0204},
                 {F::face_4, 0.0199},
                 {F::lean_1, 0.0003},
                 {F::lean_2, -0.0001},
                 {F::over, 0.1}}),
      made.made(K::turned, id),
      made.made(K::inspected, id,
                {{F::result, std::string{"pass"}},
                 {F::thread, std::string{"pass"}},
                 {F::projection, 0.025},
                 {F::squareness, 0.00005}}),
      made.made(K::sent, id),
  };
}

}  // namespace blankwright
