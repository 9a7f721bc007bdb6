#include "plan/figure/check_labels.h"

#include <algorithm>
#include <string>
#include <vector>

#include "diagnose/problem.h"
#include "diagnose/says_common.h"
#include "measure/nearest.h"
#include "plan/figure/figure.h"
#include "read/shape.h"

namespace blankwright {
namespace {

void add_sources(const std::vector<KeyInfo>& keys, std::vector<std::string>& into) {
  for (const KeyInfo& key : keys) {
    if (!key.source.empty()) into.push_back(key.source);
    add_sources(key.shape.keys, into);
    if (key.shape.item) add_sources(key.shape.item->keys, into);
  }
}

}  // namespace

void check_names(const LabelTable& names, const std::vector<std::string>& known, Diagnostics& out) {
  for (const auto& [name, words] : names.labels) {
    if (std::ranges::find(known, name) != known.end()) continue;
    auto& said = out.error(Problem::unknown_key, words.at, says::unknown_key, name);
    const auto meant = nearest_names(name, known, 1);
    if (!meant.empty()) said.hint(says::did_you_mean_path, meant.front());
  }
}

void check_labels(const LabelTable& labels, Diagnostics& out) {
  std::vector<std::string> known;
  for (const FigureInfo& figure : figure_infos()) known.emplace_back(figure.path);
  check_names(labels, known, out);
}

void check_sources(const LabelTable& sources, std::vector<std::string> of_tables, Diagnostics& out) {
  if (sources.labels.empty()) return;
  std::vector<std::string> known = std::move(of_tables);
  for (const FigureInfo& figure : figure_infos()) known.emplace_back(figure.source);
  add_sources(job_key_infos(), known);
  add_sources(shop_key_infos(), known);
  check_names(sources, known, out);
}

}  // namespace blankwright
