#include "write/plan_json.h"

#include <nlohmann/json.hpp>

namespace blankwright {
namespace {

using Json = nlohmann::ordered_json;

/// Puts a value at "bore.depth_mm".
void put(Json& root, std::string_view path, Json value) {
  Json* at = &root;
  for (auto dot = path.find('.'); dot != std::string_view::npos; dot = path.find('.')) {
    at = &(*at)[std::string{path.substr(0, dot)}];
    path.remove_prefix(dot + 1);
  }
  (*at)[std::string{path}] = std::move(value);
}

Json figure_value(Figure figure, const FigureValue& value) {
  if (const auto* number = std::get_if<double>(&value)) {
    const FigureUnit unit = info(figure).unit;
    if (unit == FigureUnit::whole_number) return static_cast<long>(*number);
    return contract_number(figure, *number);
  }
  if (const auto* words = std::get_if<std::string>(&value)) return *words;
  return nullptr;
}

Json order_part(const Order& order) {
  return {{"id", order.id.value},
          {"client", order.client.value},
          {"item", order.item.value},
          {"quantity", order.quantity.value},
          {"due", order.due ? Json(text(order.due->value)) : Json()},
          {"drawing", order.drawing ? Json(order.drawing->value) : Json()},
          {"revision", order.revision ? Json(order.revision->value) : Json()}};
}

Json schedule_part(const Dossier& d) {
  Json rows = Json::array();
  const Zone& zone = d.shop.zone.value;
  for (std::size_t i = 0; i < d.times.operations.size(); ++i) {
    const PlannedOperation& planned = d.times.planned.operations.at(i);
    Json hands_on = Json::array();
    for (const Interval& at : planned.hands_on) {
      hands_on.push_back({{"start", local_text(zone, at.from)}, {"end", local_text(zone, at.to)}});
    }
    rows.push_back({{"op", d.times.operations.at(i).name},
                    {"start", local_text(zone, planned.start)},
                    {"end", local_text(zone, planned.end)},
                    {"hands_on", std::move(hands_on)},
                    {"resource", d.times.operations.at(i).who}});
  }
  return rows;
}

Json delivery_part(const Dossier& d) {
  const Zone& zone = d.shop.zone.value;
  Json out{{"earliest_finish", local_text(zone, d.times.planned.finish)},
           {"latest_start", nullptr},
           {"late_by_h", nullptr}};
  if (!d.times.delivery) return out;
  if (d.times.delivery->latest_start) out["latest_start"] = local_text(zone, *d.times.delivery->latest_start);
  out["late_by_h"] = static_cast<double>(d.times.delivery->late_by.count()) / 60;
  return out;
}

Json blanks_part(const Dossier& d) {
  Json rows = Json::array();
  for (const BlankId& id : d.blanks) {
    rows.push_back({{"id", id.shown()}, {"board", nullptr}, {"position", nullptr}});
  }
  return rows;
}

Json warnings_part(const Diagnostics& said) {
  Json rows = Json::array();
  for (const Diagnostic& one : said.all()) {
    rows.push_back({{"problem", problem_name(one.problem)}, {"text", one.message}});
  }
  return rows;
}

}  // namespace

std::string plan_json(const Dossier& d, const Diagnostics& said) {
  Json root;
  root["format"] = "blankwright-plan/1";
  root["program"] = d.program;
  root["at"] = local_text(d.shop.zone.value, d.at);
  root["draft"] = d.draft;
  root["order"] = order_part(d.order);
  root["species"] = d.plan.species;
  for (const FigureInfo& figure : figure_infos()) {
    put(root, figure.path, figure_value(figure.figure, d.plan.figures.get(figure.figure)));
  }
  root["delivery"] = delivery_part(d);
  root["schedule"] = schedule_part(d);
  root["blanks"] = blanks_part(d);
  root["warnings"] = warnings_part(said);
  return root.dump(2) + "\n";
}

}  // namespace blankwright
