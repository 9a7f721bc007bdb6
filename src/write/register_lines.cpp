#include "write/register_lines.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

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

std::chrono::minutes offset_of(std::string_view moment) {
  if (moment.size() < 6) return {};
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

StoredOrder order_of(const Json& line) {
  const auto text = [&](const char* key) { return line.at(key).get<std::string>(); };
  return {text("order"),
          text("job"),
          text("shop"),
          text("template"),
          text("program"),
          moment(line),
          {text("species"), text("condition"), text("dye"), line.at("quantity").get<int>()}};
}

FieldValue value_of(const FieldFacts& field, const Json& value) {
  if (field.kind && value.is_number()) return value.get<double>();
  if (!field.kind && value.is_string() && !value.get<std::string>().empty()) return value.get<std::string>();
  throw BadLine{fmt::format("{} cannot be {}", field.name, value.dump())};
}

Entry entry_of(const Json& line) {
  Entry entry;
  entry.number = line.at("entry").get<EntryNumber>();
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
  entry.person = line.value("person", "");
  if (line.contains("replaces")) entry.replaces = line.at("replaces").get<EntryNumber>();
  entry.overridden = line.value("overridden", "");
  for (const auto& [name, value] : line.at("says").items()) {
    const FieldFacts* field = find_field(name);
    if (field == nullptr) throw BadLine{fmt::format("an entry has no field \"{}\"", name)};
    entry.set(field->field, value_of(*field, value));
  }
  return entry;
}

void take(const Json& line, bool first, RegisterContents& contents) {
  if (first) {
    if (line.value("format", "") != format)
      throw BadLine{fmt::format("the first line has to be {{\"format\": \"{}\"}}", format)};
  } else if (line.contains("order")) {
    contents.orders.push_back(order_of(line));
  } else {
    contents.entries.push_back(entry_of(line));
  }
}

}  // namespace

std::string register_as_lines(const RegisterContents& contents) {
  std::string out = Json{{"format", format}}.dump() + "\n";
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
