#include "commands/paper_record.h"

#include <fmt/format.h>

#include <algorithm>

#include "commands/output.h"

namespace blankwright {
namespace {

constexpr std::string_view begins = "paper ", with_tags = "tags", without_tags = "no-tags", with_replace = "replace",
                           nothing = "-";

std::string_view take_word(std::string_view& rest) {
  const std::string_view word = rest.substr(0, rest.find(' '));
  rest.remove_prefix(std::min(rest.size(), word.size() + 1));
  return word;
}

std::string_view or_nothing(std::string_view word) { return word.empty() ? nothing : word; }

}  // namespace

PaperRecord paper_record(const CompileFlags& flags, const PaperInHand* in_hand) {
  PaperRecord record{wants(flags, "tags"), flags.replace, flags.used_places, std::string{PaperRecord::all}};
  const bool is_right = in_hand != nullptr && in_hand->is_right;
  if (!wants(flags, "traveller") || is_right) {
    record.pages = PaperRecord::none;
  } else if (flags.changed && in_hand->can_be_compared()) {
    record.pages = PaperRecord::changed;
  } else if (!flags.pages.empty()) {
    record.pages = flags.pages;
  }
  record.tags = record.tags && !is_right;
  return record;
}

CompileFlags flags_of(const PaperRecord& record, CompileFlags asked) {
  asked.replace = record.replace;
  if (!asked.pages.empty()) return asked;
  if (asked.only.empty()) {
    for (const std::string& output : compile_outputs()) {
      const bool is_there =
          output == "traveller" ? record.pages != PaperRecord::none : output != "tags" || record.tags;
      if (is_there) asked.only.push_back(output);
    }
  }
  asked.changed = record.pages == PaperRecord::changed;
  if (record.is_part()) asked.pages = record.pages;
  return asked;
}

std::string kept_record(const PaperRecord& record) {
  if (record == PaperRecord{}) return {};
  return fmt::format("{}{} {} {} {}\n", begins, record.tags ? with_tags : without_tags,
                     or_nothing(record.replace ? with_replace : ""), or_nothing(record.used_places), record.pages);
}

PaperRecord read_record(std::string_view plan) {
  while (!plan.empty()) {
    std::string_view line = plan.substr(0, plan.find('\n'));
    plan.remove_prefix(std::min(plan.size(), line.size() + 1));
    if (!line.starts_with(begins)) continue;
    line.remove_prefix(begins.size());
    PaperRecord record;
    record.tags = take_word(line) == with_tags;
    record.replace = take_word(line) == with_replace;
    if (const auto used = take_word(line); used != nothing) record.used_places = used;
    record.pages = line;
    return record;
  }
  return {};
}

}  // namespace blankwright
