#include "write/plan_json.h"

#include <nlohmann/json.hpp>

#include "diagnose/problem.h"
#include "measure/elapsed.h"
#include "plan/figure/figure.h"
#include "plan/wood/blank_place.h"

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

Json hands_on(const Zone& zone, std::span<const HandsOnTime> all) {
  Json rows = Json::array();
  for (const HandsOnTime& at : all) {
    rows.push_back({{"start", local_text(zone, at.from)}, {"end", local_text(zone, at.to)}, {"who", at.who}});
  }
  return rows;
}

/// From 1 on; null where there is none.
Json counted_from_1(const std::optional<std::size_t>& number) { return number ? Json(*number + 1) : Json(); }

/// A bath or load by its number among those of the run, or as entries name it.
Json run_part(const Zone& zone, const PlannedRun& run) {
  return {{"start", local_text(zone, run.at.from)},
          {"end", local_text(zone, run.at.to)},
          {"resource", run.resource.empty() ? Json() : Json(run.resource)},
          {"bath", counted_from_1(run.bath)},
          {"load", counted_from_1(run.load)},
          {"name", run.name.empty() ? Json() : Json(run.name)},
          {"blanks", run.blanks == 0 ? Json() : Json(run.blanks)},
          {"hands_on", hands_on(zone, run.hands_on)},
          {"begun", run.is != RunIs::planned},
          {"done", run.is == RunIs::past}};
}

Json schedule_part(const Dossier& d) {
  Json rows = Json::array();
  const Zone& zone = d.shop.zone.value;
  for (std::size_t i = 0; i < d.times.operations.size(); ++i) {
    const PlannedOperation& planned = d.times.planned.operations.at(i);
    Json runs = Json::array();
    for (const PlannedRun& run : planned.runs) {
      runs.push_back(run_part(zone, run));
    }
    const Operation& op = d.times.operations.at(i);
    const std::string& who = d.times.routing.at(i)->who.value;
    rows.push_back({{"op", op.name},
                    {"start", local_text(zone, planned.start)},
                    {"end", local_text(zone, planned.end)},
                    {"hands_on", hands_on(zone, planned.hands_on())},
                    {"runs", std::move(runs)},
                    {"who", who},
                    {"resource", op.resource.empty() ? who : op.resource}});
  }
  return rows;
}

/// What a late order waits for, and what has that before it.
Json queue_part(const Zone& zone, const Queue& queue) {
  Json out{{"resource", queue.resource},
           {"op", queue.operation},
           {"from", local_text(zone, queue.wait.from)},
           {"to", local_text(zone, queue.wait.to)},
           {"behind", nullptr}};
  if (!queue.behind) return out;
  const StandsBefore& before = *queue.behind;
  out["behind"] = {{"orders", before.orders},
                   {"op", before.operation},
                   {"bath", counted_from_1(before.bath)},
                   {"load", counted_from_1(before.load)},
                   {"name", before.name.empty() ? Json() : Json(before.name)},
                   {"start", local_text(zone, before.at.from)},
                   {"end", local_text(zone, before.at.to)}};
  return out;
}

Json delivery_part(const Dossier& d) {
  const Zone& zone = d.shop.zone.value;
  Json out{{"earliest_finish", local_text(zone, d.times.planned.finish)},
           {"latest_start", nullptr},
           {"late_by_h", nullptr},
           {"queues_for", nullptr}};
  if (!d.times.delivery) return out;
  if (d.times.delivery->latest_start) out["latest_start"] = local_text(zone, *d.times.delivery->latest_start);
  out["late_by_h"] = duration_of(d.times.delivery->late_by) / hour;
  if (d.times.queue) out["queues_for"] = queue_part(zone, *d.times.queue);
  return out;
}

Json ids(const std::vector<ShareOnPaper>& shares) {
  Json out = Json::array();
  for (const ShareOnPaper& share : shares) {
    for (const BlankId& id : share.blanks) out.push_back(id.shown());
    for (const BlankId& id : share.witnesses) out.push_back(id.shown());
  }
  return out;
}

int total(const std::vector<ShareOnPaper>& shares) {
  int sum = 0;
  for (const ShareOnPaper& share : shares) sum += share.count + share.witness_count;
  return sum;
}

Json interval(const Zone& zone, const std::optional<Interval>& at) {
  if (!at) return nullptr;
  return {{"start", local_text(zone, at->from)}, {"end", local_text(zone, at->to)}};
}

Json baths_part(const Dossier& d) {
  Json rows = Json::array();
  for (const BathOnPaper& bath : d.baths) {
    Json row{{"number", bath.number}, {"count", total(bath.shares)}, {"blanks", ids(bath.shares)}};
    for (const FigureInfo& figure : figure_infos()) {
      if (!is_of_a_bath(figure)) continue;
      row[std::string{figure.path.substr(figure.path.find('.') + 1)}] =
          figure_value(figure.figure, bath.planned->figures.get(figure.figure));
    }
    row["vacuum"] = interval(d.shop.zone.value, bath.planned->vacuum);
    row["soak"] = interval(d.shop.zone.value, bath.planned->soak);
    rows.push_back(std::move(row));
  }
  return rows;
}

Json loads_part(const Dossier& d) {
  Json rows = Json::array();
  for (const LoadOnPaper& load : d.loads) {
    rows.push_back({{"number", load.number},
                    {"bath", load.bath_number},
                    {"oven", load.planned->oven->name.value},
                    {"count", total(load.shares)},
                    {"room", load.planned->layout.capacity()},
                    {"blanks", ids(load.shares)}});
  }
  return rows;
}

/// Where the n-th blank is cut, if boards are on hand.
Json blank_place(const Dossier& d, std::size_t n) {
  Json place{{"board", nullptr}, {"position", nullptr}};
  if (!d.plan.cutting) return place;
  const CutBlank* cut = cut_of(*d.plan.cutting, n, static_cast<std::size_t>(piece_count(d)));
  if (cut == nullptr) return place;
  place["board"] = d.plan.cutting->boards.at(cut->board).name;
  place["position"] = position_text(*d.plan.cutting, *cut);
  return place;
}

Json blanks_part(const Dossier& d) {
  Json rows = Json::array();
  for (std::size_t n = 0; n < d.blanks.size(); ++n) {
    Json row = blank_place(d, n);
    row["id"] = d.blanks.at(n).shown();
    row["witness"] = n >= static_cast<std::size_t>(piece_count(d));
    rows.push_back(std::move(row));
  }
  return rows;
}

Json warnings_part(const Diagnostics& said) {
  Json rows = Json::array();
  for (const Diagnostic& one : said.all()) {
    rows.push_back({{"problem", problem_name(one.problem)}, {"text", one.message_text()}});
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
    if (is_of_a_bath(figure)) continue;
    put(root, figure.path, figure_value(figure.figure, d.plan.figures.get(figure.figure)));
  }
  root["cure"]["loads"] = loads_part(d);
  root["baths"] = baths_part(d);
  root["delivery"] = delivery_part(d);
  root["schedule"] = schedule_part(d);
  root["blanks"] = blanks_part(d);
  root["warnings"] = warnings_part(said);
  return root.dump(2) + "\n";
}

}  // namespace blankwright
