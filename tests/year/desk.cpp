#include "desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace simulated {
namespace {

const std::vector<std::string>& columns() {
  static const std::vector<std::string> names = {
      "board",    "bath",        "load",   "in_blank", "mass",   "tare",   "width",  "depth",      "length",
      "gauge",    "temperature", "face_1", "face_2",   "face_3", "face_4", "lean_1", "lean_2",     "over",
      "diameter", "filled",      "hard",   "verdict",  "result", "reason", "order",  "projection", "squareness"};
  return names;
}

std::string cell(const std::string& text) { return text.find(',') == std::string::npos ? text : "\"" + text + "\""; }

std::string table_of(const std::vector<Entry>& entries) {
  std::vector<std::string> used;
  for (const std::string& column : columns())
    if (std::ranges::any_of(entries, [&](const Entry& entry) { return !entry.value(column).empty(); }))
      used.push_back(column);
  std::string out = "kind,blank,at,replaces,override";
  for (const std::string& column : used) out += "," + column;
  out += "\n";
  for (const Entry& entry : entries) {
    out += fmt::format("{},{},{},{},{}", entry.kind, entry.blank, text(entry.at),
                       entry.replaces > 0 ? std::to_string(entry.replaces) : "", cell(entry.override_why));
    for (const std::string& column : used) out += "," + cell(entry.value(column));
    out += "\n";
  }
  return out;
}

/// Another digit in the place of one of a figure's.
std::string with_wrong_digit(std::string figure, Chance& chance) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < figure.size() && figure[i] != ' '; ++i)
    if (figure[i] >= '0' && figure[i] <= '9') places.push_back(i);
  if (places.empty()) return figure;
  char& digit = figure.at(chance.one_of(places));
  digit = static_cast<char>('0' + (digit - '0' + chance.whole(1, 9)) % 10);
  return figure;
}

std::string with_wrong_unit(const std::string& figure) {
  static const std::vector<std::pair<std::string, std::string>> pairs = {
      {" mm", " cm"}, {" in", " mm"}, {" g", " oz"},     {" oz", " g"},
      {" °C", " °F"}, {" °F", " °C"}, {" kPa", " inHg"}, {" inHg", " kPa"}};
  for (const auto& [right, wrong] : pairs)
    if (figure.ends_with(right)) return figure.substr(0, figure.size() - right.size()) + wrong;
  return figure;
}

/// What an entry is about: its blank, bath, load.
std::set<std::string> names_of(const Entry& entry) {
  std::set<std::string> out{entry.subject()};
  if (const std::string bath = entry.value("bath"); !bath.empty()) out.insert("bath " + bath);
  if (const std::string load = entry.value("load"); !load.empty()) out.insert("load " + load);
  return out;
}

}  // namespace

std::string Entry::value(const std::string& field) const {
  for (const auto& [name, value] : says)
    if (name == field) return value;
  return {};
}

std::string Entry::subject() const {
  if (!blank.empty()) return blank;
  if (const std::string bath = value("bath"); !bath.empty()) return "bath " + bath;
  return "load " + value("load");
}

void Desk::note(Entry entry) {
  if (may_slip_ && slip(entry)) return;
  noted_.push_back(std::move(entry));
}

/// True: it is not entered now.
bool Desk::slip(Entry& entry) {
  const Entry right = entry;
  const bool later = chance_.yes(0.7);  // seven in ten are put right the next day
  if (const bool forgotten = chance_.yes(0.02); forgotten || chance_.yes(0.05)) {
    flaws_.push_back({entry.subject(), entry.kind, false, true, !forgotten || later, right, 0});
    slips_ += forgotten;
    return true;
  }
  if (!entry.blank.empty() && !noted_.empty() && chance_.yes(0.003)) {
    const std::string other = chance_.one_of(noted_).blank;
    if (other.empty() || other == entry.blank) return false;
    entry.blank = other;
    flaws_.push_back({right.blank, entry.kind, false, true, later, right, 0});
    // Whoever finds it takes the entry of the other blank back.
    Entry back{"corrected", "", right.at, {{"reason", "another blank"}}, 0, "", {}, 0};
    flaws_.push_back({other, entry.kind, true, true, later, back, 0});
    entry.slip = flaws_.size();
    ++slips_;
    return false;
  }
  std::vector<std::size_t> figures;
  for (std::size_t i = 0; i < entry.says.size(); ++i)
    if (entry.says[i].second.find_first_of("0123456789") == 0 && entry.says[i].second.find(' ') != std::string::npos)
      figures.push_back(i);
  if (figures.empty()) return false;
  const bool digit = chance_.yes(0.005);
  if (!digit && !chance_.yes(0.005)) return false;
  std::string& figure = entry.says.at(chance_.one_of(figures)).second;
  figure = digit ? with_wrong_digit(figure, chance_) : with_wrong_unit(figure);
  if (entry.says == right.says) return false;
  flaws_.push_back({entry.subject(), entry.kind, true, true, later, right, 0});
  entry.slip = flaws_.size();
  ++slips_;
  return false;
}

Answer Desk::enter(std::vector<Entry>& entries, Moment now) {
  const std::string name = fmt::format("entries-{}.csv", ++tables_);
  program_.write(name, table_of(entries));
  Answer answer = program_.run(now, {"enter", "--csv", name});
  if (answer.well()) {
    for (Entry& entry : entries) entry.entered = now;
    last_entered_ = now;
    listen(entries, answer);
  }
  return answer;
}

void Desk::listen(const std::vector<Entry>& entries, const Answer& answer) {
  std::vector<Entry> numbered = entries;
  std::size_t row = 0;
  std::set<std::string> fresh;
  for (const Entry& entry : entries) heard_[entry.subject()].clear();
  for (const std::string& line : lines_of(answer.text)) {
    if (line.starts_with("entry ")) {
      if (row < numbered.size()) numbered[row++].number = std::stol(line.substr(6));
      continue;
    }
    if (!line.starts_with("  ")) continue;
    std::string said = line.substr(2);
    const bool group = said.starts_with("load ") || said.starts_with("bath ");
    std::size_t end = said.find(' ');
    if (group && end != std::string::npos) end = said.find(' ', end + 1);
    std::string subject = said.substr(0, end);
    if (subject.ends_with(':')) subject.pop_back();
    const bool blank = subject.size() == 8 && subject[3] == '-';
    if (!group && !blank) {  // a sentence about the bath or the load that was entered
      const auto about = std::ranges::find_if(entries, [](const Entry& entry) { return entry.blank.empty(); });
      if (about == entries.end()) continue;
      subject = about->subject();
      end = std::string::npos;
    }
    if (fresh.insert(subject).second) heard_[subject].clear();
    heard_at_[subject] = entries.front().entered;
    heard_[subject].push_back(end == std::string::npos ? said : said.substr(end + 1));
    count_check(subject, said);
  }
  for (const Entry& entry : numbered) remember(entry);
}

void Desk::remember(const Entry& entry) {
  if (entry.slip > 0) flaws_.at(entry.slip - 1).number = entry.number;
  if (entry.replaces > 0) replaced_.insert(entry.replaces);
  taken_.push_back(entry);
}

/// What is questioned though it is true.
void Desk::count_check(const std::string& subject, const std::string& said) {
  if (said.find("CHECK") != std::string::npos && said.find("same figures") == std::string::npos &&
      evidence({subject}, {}) == Evidence::right)
    ++false_checks_;
}

/// A refusal makes people look: figures that were misread are read again.
void Desk::restore(std::vector<Entry>& entries) {
  for (Entry& entry : entries) {
    if (entry.slip == 0) continue;
    Flaw& flaw = flaws_.at(entry.slip - 1);
    flaw.open = false;
    // A wrong ID left two flaws: the blank that misses the entry, and before it the one that has it.
    Flaw& seen = flaw.right.kind == "corrected" ? flaws_.at(entry.slip - 2) : flaw;
    seen.open = false;
    entry = seen.right;
  }
}

/// With its time; where it is refused, with a reason.
bool Desk::enter_late(const Flaw& flaw, const Entry& entry, Moment now) {
  std::vector<Entry> one{entry};
  const Answer refusal = enter(one, now);
  if (refusal.well()) return true;
  const std::set<std::string> own = names_of(entry);
  const bool something_else = std::ranges::any_of(flaws_, [&](const Flaw& other) {
    return &other != &flaw && other.open &&
           (own.contains(other.subject) || refusal.text.find(other.subject + " ") != std::string::npos);
  });
  if (!something_else) {
    refused_.push_back(entry);
    refusals_.push_back(refusal.text);
  }
  one = {entry};
  one.front().override_why = "entered late";
  return enter(one, now).well();
}

/// What was put off about these subjects comes into the same table, with its time.
void Desk::add_pending(std::vector<Entry>& entries, const std::string& refusal) {
  std::set<std::string> subjects;
  for (const Entry& entry : entries) subjects.merge(names_of(entry));
  for (Flaw& flaw : flaws_) {
    if (!flaw.open || flaw.wrong || std::ranges::none_of(names_of(flaw.right), [&](const std::string& name) {
          return subjects.contains(name) || refusal.find(name + " ") != std::string::npos;
        }))
      continue;
    entries.push_back(flaw.right);
    flaw.open = false;
    flaw.late = true;
  }
  std::ranges::stable_sort(entries, {}, &Entry::at);
}

void Desk::hand_in(Moment now) {
  std::vector<Entry> entries;
  entries.swap(noted_);
  if (entries.empty()) return;
  std::ranges::stable_sort(entries, {}, &Entry::at);
  if (chance_.yes(0.25) && can_be_scanned(entries)) scan(entries);
  if (entries.empty()) return;
  const Answer refusal = enter(entries, now);
  if (refusal.well()) return;
  restore(entries);
  add_pending(entries, refusal.text);
  if (enter(entries, now).well()) return;
  enter_row_by_row(entries, now);
}

void Desk::enter_row_by_row(std::vector<Entry>& entries, Moment now) {
  for (const Entry& entry : entries) {
    std::vector<Entry> one{entry};
    const Answer answer = enter(one, now);
    if (answer.well()) continue;
    if (evidence({entry.subject(), "bath " + entry.value("bath"), "load " + entry.value("load")}, {}) !=
            Evidence::wrong &&
        !missing_for_good(entry.subject())) {
      refused_.push_back(entry);
      refusals_.push_back(answer.text);
    }
    one.front().override_why = "so it was";
    enter(one, now);
  }
}

void Desk::put_right(Moment now) {
  hand_in(now);
  for (Flaw& flaw : flaws_)
    if (flaw.open && flaw.will_be_mended) mend(flaw, now);
}

void Desk::look_again(Moment now, const std::vector<std::string>& subjects) {
  hand_in(now);
  for (Flaw& flaw : flaws_)
    if (flaw.open && std::ranges::find(subjects, flaw.subject) != subjects.end()) mend(flaw, now);
}

void Desk::mend(Flaw& flaw, Moment now) {
  Entry right = flaw.right;
  if (flaw.wrong) {
    if (flaw.number == 0) return;
    right.replaces = flaw.number;
  }
  flaw.open = !enter_late(flaw, right, now);
  flaw.late = !flaw.wrong;
  flaw.will_be_mended = false;
}

const Entry* Desk::last(const std::string& blank, const std::string& kind) const {
  const Entry* out = nullptr;
  for (const Entry& entry : taken_)
    if (entry.blank == blank && entry.kind == kind && !replaced_.contains(entry.number) &&
        (out == nullptr || out->at <= entry.at))
      out = &entry;
  return out;
}

const std::vector<std::string>& Desk::ask(Moment now, const std::string& blank) {
  const Answer answer = program_.run(now, {"ask", "blank", blank});
  std::vector<std::string>& into = heard_[blank];
  into.clear();
  for (const std::string& line : lines_of(answer.text))
    if (line.starts_with("check: ") || line.starts_with("last step "))
      if (const std::size_t words = line.find_first_not_of(' ', line.find(' ', 6)); words != std::string::npos)
        into.push_back(line.substr(words));
  return into;
}

Evidence Desk::evidence(const std::vector<std::string>& subjects, const std::vector<std::string>& kinds) const {
  Evidence out = Evidence::right;
  for (const Flaw& flaw : flaws_) {
    if ((!flaw.open && !flaw.late) || std::ranges::find(subjects, flaw.subject) == subjects.end()) continue;
    if (!kinds.empty() && std::ranges::find(kinds, flaw.kind) == kinds.end()) continue;
    if (flaw.wrong) return Evidence::wrong;
    out = Evidence::missing;
  }
  return out;
}

bool Desk::missing_for_good(const std::string& subject) const {
  return std::ranges::any_of(flaws_,
                             [&](const Flaw& flaw) { return flaw.subject == subject && flaw.open && !flaw.wrong; });
}

}  // namespace simulated
