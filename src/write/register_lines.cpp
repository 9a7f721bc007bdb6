#include "write/register_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "entries/checksum.h"
#include "entries/readings.h"
#include "read/entry_text.h"

namespace blankwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view format = "blankwright-register/2";
/// Without texts, prints and an end line; what an order was compiled from stood with it.
constexpr std::string_view first_format = "blankwright-register/1";

/// A line of ours has no more objects in each other than this.
constexpr int deepest = 2;

/// Of a moment that parse_kept_instant() has taken: it ends in "Z" or in an offset.
std::chrono::minutes offset_of(std::string_view moment) {
  if (moment.ends_with('Z') || moment.ends_with('z')) return {};
  const std::string_view tail = moment.substr(moment.size() - 6);
  const auto digits = [&](std::size_t at) { return 10 * (tail.at(at) - '0') + (tail.at(at + 1) - '0'); };
  const int minutes = 60 * digits(1) + digits(4);
  return std::chrono::minutes{tail.front() == '-' ? -minutes : minutes};
}

Json order_line(const StoredOrder& order) {
  return {{"order", order.id},
          {"at", local_text(order.at)},
          {"species", order.gist.species},
          {"condition", order.gist.condition},
          {"dye", order.gist.dye},
          {"quantity", order.gist.quantity}};
}

Json print_line(const Print& print) {
  return {{"print", print.number},          {"order", print.order_id},        {"at", local_text(print.at)},
          {"made", local_text(print.made)}, {"last_entry", print.last_entry}, {"program", print.program_version},
          {"job", print.job + 1},           {"shop", print.shop + 1},         {"template", print.template_ + 1}};
}

Json entry_line(const Entry& entry, const std::map<EntryNumber, Instant>& written) {
  Json line{{"entry", entry.number}, {"kind", name_of(entry.kind)}, {"at", local_text(entry.at, entry.offset)}};
  if (const auto at = written.find(entry.number); at != written.end()) line["written"] = local_text(at->second);
  if (entry.blank) line["blank"] = entry.blank->encoded();
  if (!entry.person.empty()) line["person"] = entry.person;
  if (entry.replaces) line["replaces"] = *entry.replaces;
  if (!entry.overridden.empty()) line["overridden"] = entry.overridden;
  Json says = Json::object();
  for (const auto& [field, value] : entry.values) {
    std::visit([&, name = std::string{facts_of(field).name}](const auto& plain) { says[name] = plain; }, value);
  }
  line["says"] = std::move(says);
  return line;
}

Json plan_line(const PlanOfPrint& plan) {
  return {{"plan", plan.number}, {"order", plan.order_id}, {"says", plan.text}};
}

/// What the end line says of all that stands before it.
Json end_of(const RegisterContents& contents, std::string_view before) {
  Checksum sum;
  sum.add_bytes(before);
  Json end{{"texts", contents.texts.size()}, {"orders", contents.orders.size()}, {"prints", contents.prints.size()}};
  if (!contents.plans.empty()) end["plans"] = contents.plans.size();  // exports of before have none
  end["entries"] = contents.entries.size();
  end["checksum"] = sum.value();
  return end;
}

/// What is wrong with a line, in words.
struct BadLine {
  std::string what;
};

Instant moment(const Json& line, const char* key = "at") {
  const auto at = parse_kept_instant(line.at(key).get<std::string>());
  if (!at) throw BadLine{at.error().message};
  return *at;
}

/// A whole number from `least` to a billion.
std::int64_t whole_number(const Json& line, const char* key, std::int64_t least) {
  constexpr std::int64_t most = 1'000'000'000;
  const Json& value = line.at(key);
  if (value.is_number_integer()) {
    const auto number = value.is_number_unsigned()
                            ? static_cast<std::int64_t>(std::min<std::uint64_t>(value.get<std::uint64_t>(), most + 1))
                            : value.get<std::int64_t>();
    if (number >= least && number <= most) return number;
  }
  throw BadLine{fmt::format("{} is a whole number from {} to {}, not {}", key, least, most, value.dump())};
}

/// A text as an entry may hold it: what reading it gives.
std::string text_of(const FieldFacts& field, const std::string& text) {
  const auto read = read_kept_text(field, text);
  if (!read) throw BadLine{read.error()};
  if (*read != text) throw BadLine{fmt::format("{} is not written as it is kept", field.name)};
  return text;
}

/// A text beside the fields; empty where the line has none.
std::string text_beside(const Json& line, const char* key) {
  const auto text = line.value(key, std::string{});
  return text.empty() ? text : text_of(text_beside_fields(key), text);
}

StoredOrder order_of(const Json& line) {
  return {line.at("order").get<std::string>(),
          moment(line),
          {text_beside(line, "species"), text_beside(line, "condition"), text_beside(line, "dye"),
           static_cast<int>(whole_number(line, "quantity", 0))}};
}

Print print_of(const Json& line) {
  const auto place = [&](const char* key) { return static_cast<std::size_t>(whole_number(line, key, 1) - 1); };
  return {line.at("order").get<std::string>(),
          static_cast<int>(whole_number(line, "print", 1)),
          moment(line),
          moment(line, "made"),
          whole_number(line, "last_entry", 0),
          line.at("program").get<std::string>(),
          place("job"),
          place("shop"),
          place("template")};
}

PlanOfPrint plan_of(const Json& line) {
  return {line.at("order").get<std::string>(), static_cast<int>(whole_number(line, "plan", 1)),
          line.at("says").get<std::string>()};
}

FieldValue value_of(const FieldFacts& field, const Json& value) {
  if (field.kind && value.is_number()) {
    const double si = value.get<double>();
    const auto fault = number_problem(field, si);
    if (fault) throw BadLine{*fault};
    return si;
  }
  if (!field.kind && value.is_string()) return text_of(field, value.get<std::string>());
  throw BadLine{fmt::format("{} cannot be {}", field.name, value.dump())};
}

/// Has the entry what its kind asks for?
void check(const Entry& entry) {
  const KindFacts& kind = facts_of(entry.kind);
  const bool is_correction = entry.kind == EntryKind::corrected;
  if (kind.of_blank && !entry.blank) throw BadLine{fmt::format("{} needs a blank", kind.name)};
  if (!kind.of_blank && !is_correction && entry.blank) {
    throw BadLine{fmt::format("{} is not said of a blank", kind.name)};
  }
  if (is_correction && !entry.replaces) throw BadLine{"corrected needs the entry that it replaces"};
  if (answers_as_before(entry)) return;
  for (const FieldUse& use : kind.fields) {
    const auto said = std::ranges::find(entry.values, use.field, &std::pair<Field, FieldValue>::first);
    if (use.needed && said == entry.values.end()) {
      throw BadLine{fmt::format("{} needs {}", kind.name, facts_of(use.field).name)};
    }
  }
}

Entry entry_of(const Json& line) {
  Entry entry;
  entry.number = whole_number(line, "entry", 1);
  const std::string kind = line.at("kind").get<std::string>();
  const KindFacts* facts = find_kind(kind);
  if (facts == nullptr) throw BadLine{fmt::format("no entry is of the kind \"{}\"", kind)};
  entry.kind = facts->kind;
  entry.at = moment(line);
  entry.offset = offset_of(line.at("at").get<std::string>());
  if (line.contains("blank")) {
    const auto blank = BlankId::read(line.at("blank").get<std::string>());
    if (!blank) throw BadLine{"its blank is no blank's ID"};
    entry.blank = *blank;
  }
  entry.person = text_beside(line, "person");
  if (line.contains("replaces")) entry.replaces = whole_number(line, "replaces", 1);
  entry.overridden = text_beside(line, "overridden");
  for (const auto& [name, value] : line.at("says").items()) {
    const FieldFacts* field = find_field(name);
    if (field == nullptr) throw BadLine{fmt::format("an entry has no field \"{}\"", name)};
    const auto use = std::ranges::find(facts->fields, field->field, &FieldUse::field);
    if (use == facts->fields.end()) throw BadLine{fmt::format("{} has no {}", facts->name, name)};
    entry.set(field->field, value_of(facts_of(*use), value));
  }
  check(entry);
  return entry;
}

/// Reads an export line by line.
class Reader {
 public:
  /// `before`: the export up to this line.
  void take(const Json& line, std::string_view before) {
    if (ended_) throw BadLine{"nothing may follow the end line"};
    if (before.empty()) {
      take_head(line);
    } else if (line.contains("end")) {
      take_end(line.at("end"), before);
    } else if (line.contains("text")) {
      all_.texts.push_back(line.at("text").get<std::string>());
    } else if (line.contains("print")) {
      all_.prints.push_back(print_of(line));
    } else if (line.contains("plan")) {
      all_.plans.push_back(plan_of(line));
    } else if (line.contains("order")) {
      all_.orders.push_back(order_of(line));
      if (of_first_format_) add_first_print(line);
    } else {
      all_.entries.push_back(entry_of(line));
      if (line.contains("written")) all_.written[all_.entries.back().number] = moment(line, "written");
    }
  }

  /// What was read, once no line is left.
  tl::expected<ReadRegister, std::string> result() {
    if (!of_first_format_ && !ended_) {
      return tl::make_unexpected(std::string{"it is not whole: its end line is missing; take another copy"});
    }
    if (of_first_format_) date_first_prints();
    return ReadRegister{std::move(all_), ended_};
  }

 private:
  void take_head(const Json& line) {
    const std::string given = line.value("format", "");
    of_first_format_ = given == first_format;
    if (!of_first_format_ && given != format) {
      throw BadLine{fmt::format("the first line has to be {{\"format\": \"{}\"}}", format)};
    }
    if (!line.contains("series")) return;
    const auto series = BlankId::read(line.at("series").get<std::string>());
    if (!series) throw BadLine{"its series is no blank's ID"};
    all_.series = *series;
  }

  void take_end(const Json& end, std::string_view before) {
    if (end != end_of(all_, before)) {
      throw BadLine{fmt::format("the export is not as it was written: its end line should be {}",
                                Json{{"end", end_of(all_, before)}}.dump())};
    }
    ended_ = true;
  }

  std::size_t place_of(const std::string& text) {
    const auto [place, is_new] = places_.try_emplace(text, all_.texts.size());
    if (is_new) all_.texts.push_back(text);
    return place->second;
  }

  /// What an order was compiled from, where it stands with the order.
  void add_first_print(const Json& line) {
    const auto place = [&](const char* key) { return place_of(line.at(key).get<std::string>()); };
    const StoredOrder& order = all_.orders.back();
    all_.prints.push_back({order.id, 1, order.at, order.at, 0, line.at("program").get<std::string>(), place("job"),
                           place("shop"), place("template")});
  }

  /// Such a print was made when the last blank of its order was issued, at the earliest.
  void date_first_prints() {
    std::map<std::string, const Entry*> issued;
    for (const Entry& entry : all_.entries) {
      if (entry.kind == EntryKind::issued) issued[entry.text(Field::order)] = &entry;
    }
    for (Print& print : all_.prints) {
      const auto last = issued.find(print.order_id);
      if (last == issued.end()) continue;
      print.made = last->second->at;
      print.last_entry = last->second->number;
    }
  }

  RegisterContents all_;
  std::map<std::string, std::size_t> places_;  // of texts
  bool of_first_format_ = false;
  bool ended_ = false;
};

/// A line as JSON. What is not ours may be nested so deep that whatever follows it down runs out of stack.
Json parsed(std::string_view line) {
  return Json::parse(line, [](int depth, Json::parse_event_t, Json&) {
    if (depth > deepest) throw BadLine{"nothing in an export is nested so deep"};
    return true;
  });
}

}  // namespace

std::string register_as_lines(const RegisterContents& contents) {
  std::string out = Json{{"format", format}, {"series", contents.series.encoded()}}.dump() + "\n";
  for (const std::string& text : contents.texts) out += Json{{"text", text}}.dump() + "\n";
  for (const StoredOrder& order : contents.orders) out += order_line(order).dump() + "\n";
  for (const Print& print : contents.prints) out += print_line(print).dump() + "\n";
  for (const PlanOfPrint& plan : contents.plans) out += plan_line(plan).dump() + "\n";
  for (const Entry& entry : contents.entries) out += entry_line(entry, contents.written).dump() + "\n";
  return out + Json{{"end", end_of(contents, out)}}.dump() + "\n";
}

tl::expected<ReadRegister, std::string> register_from_lines(std::string_view text) {
  if (text.empty()) return tl::make_unexpected(std::string{"it is empty"});
  Reader reader;
  std::size_t at = 0;
  for (int number = 1; at < text.size(); ++number) {
    const std::string_view line = text.substr(at, text.find('\n', at) - at);
    try {
      reader.take(parsed(line), text.substr(0, at));
    } catch (const BadLine& bad) {
      return tl::make_unexpected(fmt::format("line {}: {}", number, bad.what));
    } catch (const nlohmann::json::exception&) {  // no JSON, or a key that is missing or of another type
      return tl::make_unexpected(fmt::format("line {} is no line of a register's export", number));
    }
    at += line.size() + 1;
  }
  return reader.result();
}

}  // namespace blankwright
