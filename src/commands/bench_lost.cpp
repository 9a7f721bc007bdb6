// The bench while the register's server is not there, and when it is back.

#include <fmt/format.h>

#include <array>
#include <utility>

#include "commands/bench_session.h"

namespace blankwright {

std::string BenchSession::in_short(const Entry& entry) const {
  const std::string says = says_text(entry, shop_.units.value);
  return fmt::format("{}{}{}{}", entry.blank ? entry.blank->shown() + " " : "", name_of(entry.kind),
                     says.empty() ? "" : ": ", says);
}

tl::expected<std::vector<Entry>, std::vector<Rejected>> BenchSession::send(const Entry& entry, Instant now) {
  sent_ = entry;
  auto added = known_.add(std::array{entry}, now);
  sent_.reset();
  return added;
}

BenchAnswer BenchSession::answer(std::string_view line) {
  if (std::string words = settled(); !words.empty()) untold_ = std::move(words);
  BenchAnswer said = answer_to(line);
  if (!untold_.empty()) said.words += " | " + std::exchange(untold_, {});
  return said;
}

BenchAnswer BenchSession::lost(std::string_view why) {
  figures_.clear();
  blank_.reset();
  if (after_all_) return BenchAnswer::no(fmt::format("{}; {} was entered", why, in_short(*after_all_)));
  if (!known_.is_unsure()) return BenchAnswer::no(fmt::format("{}; nothing was entered", why));
  return BenchAnswer::no(
      fmt::format("{}; whether {} was entered is told when the server is back", why, in_short(*sent_)));
}

std::string BenchSession::settled() {
  if (!known_.is_unsure()) return {};
  const auto came = known_.settle();
  const Entry sent = *std::exchange(sent_, std::nullopt);
  if (!came) return in_short(sent) + " was not entered when the connection broke";
  after_all_ = came->front();
  if (sent.kind == EntryKind::corrected) {
    added_.pop_back();
  } else {
    added_.push_back(after_all_->number);
  }
  return in_short(sent) + " was entered when the connection broke";
}

bool BenchSession::is_there_already(const Entry& entry) {
  if (!after_all_) return false;
  Entry there = *after_all_;
  there.number = entry.number;
  there.at = entry.at;
  there.offset = entry.offset;
  if (there == entry) return true;
  after_all_.reset();
  return false;
}

}  // namespace blankwright
