#include "plan/figure/check_labels.h"

#include <string>
#include <vector>

#include "diagnose/problem.h"
#include "diagnose/says_common.h"
#include "measure/nearest.h"
#include "plan/figure/figure.h"

namespace blankwright {

void check_labels(const LabelTable& labels, Diagnostics& out) {
  std::vector<std::string> known;
  for (const FigureInfo& figure : figure_infos()) known.emplace_back(figure.path);
  for (const auto& [path, words] : labels.labels) {
    if (figure_at(path)) continue;
    auto& said = out.error(Problem::unknown_key, words.at, says::unknown_key, path);
    const auto meant = nearest_names(path, known, 1);
    if (!meant.empty()) said.hint(says::did_you_mean_path, meant.front());
  }
}

}  // namespace blankwright
