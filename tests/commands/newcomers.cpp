#include "newcomers.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <sstream>
#include <string_view>

#include "paper.h"
#include "program.h"

namespace blankwright {
namespace {

std::string newcomers_file(const std::string& name) {
  return bytes_of(BLANKWRIGHT_SOURCE_DIR "/tests/errors/newcomers/" + name);
}

Stretch stretch_at(const std::string& line) {
  std::istringstream in{line};
  Stretch out;
  in >> out.file >> out.first >> out.count;
  if (in.fail()) {  // a name with a space in it
    const auto behind = line.find_last_of(' ', line.find_last_of(' ') - 1);
    std::istringstream numbers{line.substr(behind)};
    out.file = line.substr(0, behind);
    numbers >> out.first >> out.count;
  }
  return out;
}

}  // namespace

std::vector<NewcomersMistake> newcomers_mistakes() {
  std::vector<NewcomersMistake> all;
  std::vector<Stretch>* last = nullptr;
  std::istringstream in{newcomers_file("mistakes.txt")};
  for (std::string line; std::getline(in, line);) {
    const auto rest = [&](std::string_view word) { return line.substr(word.size()); };
    if (line.starts_with("#### ")) {
      all.emplace_back().what = rest("#### ");
    } else if (line.starts_with("|")) {
      last->back().lines.push_back(rest("|"));
    } else if (line.starts_with("wrong ")) {
      last = &all.back().wrong;
      last->push_back(stretch_at(rest("wrong ")));
    } else if (line.starts_with("mended ")) {
      last = &all.back().mended;
      last->push_back(stretch_at(rest("mended ")));
    } else if (line.starts_with("args ")) {
      all.back().args = rest("args ");
    } else if (line.starts_with("typed ")) {
      all.back().args = line;
    } else if (line.starts_with("says ")) {
      all.back().says.push_back(rest("says "));
    } else if (line.starts_with("then ")) {
      all.back().then = rest("then ");
    } else if (line == "read" || line == "unseen") {
      (line == "read" ? all.back().is_read : all.back().is_unseen) = true;
    }
  }
  return all;
}

NewcomersFiles files_with(const std::vector<Stretch>& stretches) {
  const NewcomersFiles own{{first_job, newcomers_file("job.toml")}, {"shop.toml", newcomers_file("shop.toml")}};
  std::map<std::string, std::vector<std::string>> lines;
  for (const auto& [name, text] : own) {
    std::istringstream in{text + "\n"};
    for (std::string line; std::getline(in, line);) lines[name].push_back(line);
  }
  // From the last one up, so that the others' places stay.
  for (auto one = stretches.rbegin(); one != stretches.rend(); ++one) {
    auto& of_file = lines[one->file];
    if (of_file.empty()) of_file.emplace_back();
    const auto at = of_file.begin() + static_cast<std::ptrdiff_t>(one->first) - 1;
    const auto place = of_file.erase(at, at + static_cast<std::ptrdiff_t>(one->count));
    of_file.insert(place, one->lines.begin(), one->lines.end());
  }
  NewcomersFiles files;
  for (const auto& [name, of_file] : lines) files[name] = fmt::format("{}", fmt::join(of_file, "\n"));
  return files;
}

}  // namespace blankwright
