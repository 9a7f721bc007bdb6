#include "register/row_sums.h"

#include <string>
#include <utility>
#include <vector>

#include "entries/checksum.h"

namespace blankwright {

void add_sums(Database& db, const Sums& sums) {
  std::vector<std::pair<std::string, std::int64_t>> found;
  Statement rows{db, sums.select};
  while (rows.step()) {
    Checksum sum;
    rows.add_to(sum, 1, sums.covered);
    found.emplace_back(rows.text(0), sum.value());
  }
  Statement update{db, sums.update};
  for (const auto& [key, sum] : found) update.with(key, sum).run();
}

}  // namespace blankwright
