#include "write/register_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "entries/readings.h"
#include "read/entry_text.h"

namespace blankwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view format = "blankwright-register/1";

/// "2027-01-29T08:30:00+01:00" of a moment and an offset, without a zone's name.
std::string moment_text(Instant at, std::chrono::minutes offset) {
  const auto shown = at + offset;
  const auto day = std::chrono::floor<std::chrono::days>(shown);
  const std::chrono::year_month_day date{day};
  const std::chrono::hh_mm_ss time{shown - day};
  return fmt::format("{}T{:02}:{:02}:{:02}{}{:02}:{:02}", text(date), time.hours().count(), time.minutes().count(),
                     time.seconds().count(), offset.count() < 0 ? '-' : '+', std::abs(offset.count()) / 60,
                     std::abs(offset.count()) % 60);
}

/// Of a moment that parse_instant() has taken: it ends in "Z" or in an offset.
std::chrono::minutes offset_of(std::string_view moment) {
  if (moment.ends_with('Z') || moment.ends_with('z')) return {};
  const std::string_view tail = moment.substr(moment.size() - 6);
  const auto digits = [&](std::size_t at) { return 10 * (tail.at(at) - '0') + (tail.at(at + 1) - '0'); };
  const int minutes = 60 * digits(1) + digits(4);
  return std::chrono::minutes{tail.front() == '-' ? -minutes : minutes};
}

Json order_line(const StoredOrder& order) {
  return {{"order", order.id},
          {"at", moment_text(order.at, {})},
          {"species", order.gist.species},
          {"condition", order.gist.condition},
          {"dye", order.gist.dye},
          {"quantity", order.gist.quantity},
          {"program", order.program_version},
          {"job", order.job_text},
          {"shop", order.shop_text},
          {"template", order.template_text}};
}

Json entry_line(const Entry& entry) {
  Json line{{"entry", entry.number}, {"kind", name_of(entry.kind)}, {"at", moment_text(entry.at, entry.offset)}};
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

/// What is wrong with a line, in words.
struct BadLine {
  std::string what;
};

Instant moment(const Json& line) {
  const auto at = parse_instant(line.at("at").get<std::string>(), Zone{});
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
  const auto text = [&](const char* key) { return line.at(key).get<std::string>(); };
  return {text("order"),
          text("job"),
          text("shop"),
          text("template"),
          text("program"),
          moment(line),
          {text_beside(line, "species"), text_beside(line, "condition"), text_beside(line, "dye"),
           static_cast<int>(whole_number(line, "quantity", 0))}};
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

void take_head(const Json& line, RegisterContents& contents) {
  if (line.value("format", "") != format)
    throw BadLine{fmt::format("the first line has to be {{\"format\": \"{}\"}}", format)};
  if (!line.contains("series")) return;
  const auto series = BlankId::read(line.at("series").get<std::string>());
  if (!series) throw BadLine{"its series is no blank's ID"};
  contents.series = *series;
}

void take(const Json& line, bool first, RegisterContents& contents) {
  if (first) {
    take_head(line, contents);
  } else if (line.contains("order")) {
    contents.orders.push_back(order_of(line));
  } else {
    contents.entries.push_back(entry_of(line));
  }
}

}  // namespace

std::string register_as_lines(const RegisterContents& contents) {
  std::string out = Json{{"format", format}, {"series", contents.series.encoded()}}.dump() + "\n";
  for (const StoredOrder& order : contents.orders) out += order_line(order).dump() + "\n";
  for (const Entry& entry : contents.entries) out += entry_line(entry).dump() + "\n";
  return out;
}

tl::expected<RegisterContents, std::string> register_from_lines(std::string_view text) {
  RegisterContents contents;
  int number = 0;
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(text.size(), line.size() + 1));
    ++number;
    try {
      take(Json::parse(line), number == 1, contents);
    } catch (const BadLine& bad) {
      return tl::make_unexpected(fmt::format("line {}: {}", number, bad.what));
    } catch (const nlohmann::json::exception&) {  // no JSON, or a key that is missing or of another type
      return tl::make_unexpected(fmt::format("line {} is no line of a register's export", number));
    }
  }
  if (number == 0) return tl::make_unexpected(std::string{"it is empty"});
  return contents;
}

}  // namespace blankwright
