#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "commands/at_register.h"
#include "commands/commands.h"
#include "commands/harmless_stream.h"
#include "commands/output.h"
#include "commands/past.h"
#include "measure/elapsed.h"
#include "plan/order/plan_order.h"
#include "plan/wood/judge_wood.h"
#include "sheet/paper/on_paper.h"
#include "sheet/paper/said_times.h"
#include "sheet/paper/wood_text.h"
#include "sheet/sheet/caution_sheet.h"
#include "sheet/sheet/client_card.h"
#include "sheet/sheet/code_sheet.h"
#include "sheet/sheet/parcel_label.h"
#include "sheet/tag/label.h"
#include "write/pdf.h"

namespace blankwright {
namespace {

/// Of a document that is made from the shop's file alone, at no moment.
DocumentInfo shop_info(const ShopInputs& inputs, Word title) {
  return shop_document(inputs.shop, inputs.sheet_template, inputs.sheet_template.words[title]);
}

std::optional<Duration> between_known(const std::optional<Instant>& from, const std::optional<Instant>& to) {
  if (!from || !to || *to <= *from) return std::nullopt;
  return between(*from, *to);
}

std::string joined(const std::string& a, const std::string& b) {
  return a.empty() || b.empty() ? a + b : a + "; " + b;
}

/// What the blank's own entries say that its state does not keep.
void add_entries(const std::vector<Entry>& entries, const Template& t, const Zone& zone, PieceRecorded& piece) {
  for (const Entry* entry : holding(entries)) {
    piece.remarks = joined(piece.remarks, entry->text(Field::remark));
    if (!entry->overridden.empty()) piece.remarks = joined(piece.remarks, entry->overridden);
    if (entry->kind == EntryKind::inspected) {
      piece.inspected = day_text(t, date_of(zone, entry->at));
      piece.by = entry->person;
      piece.remarks = joined(piece.remarks, entry->text(Field::reason));
    }
  }
}

void add_process(Register& known, const BlankState& state, PieceRecorded& piece) {
  const BathState bath = known.bath(state.bath);
  for (const auto& [lot, volume] : bath.poured) piece.lots = joined(piece.lots, lot);
  piece.gauge = bath.gauge;
  piece.vacuum = between_known(bath.target_reached ? bath.target_reached : bath.vacuum_on, bath.released);
  piece.soak = between_known(bath.released, state.out_of_bath);
  piece.cure = between_known(state.into_oven, state.out_of_oven);
  for (const CoreReading& core : known.load(state.load).core) {
    if (!piece.core || core.read > *piece.core) piece.core = core.read;
  }
}

/// As the species table has it; as the order has it where that knows it no more.
std::string species_of(const Order& order) {
  Diagnostics ignored;
  const auto figures = judge_species(order.wood, ignored);
  return figures ? figures->name : order.wood.species.value;
}

PieceRecorded recorded(AtRegister& at, const BlankState& state, const Order& order) {
  PieceRecorded piece;
  piece.blank = state.id;
  piece.maker = at.inputs.shop.name.value;
  piece.order = state.promised;
  piece.client = order.client.value;
  piece.item = order.item.value;
  if (order.drawing) piece.drawing = order.drawing->value + (order.revision ? " " + order.revision->value : "");
  piece.wood = wood_text(at.inputs.sheet_template, species_of(order), order.wood.condition.value);
  piece.board = state.board;
  if (order.finish) piece.finish = order.finish->value;
  piece.thread = state.thread;
  piece.squareness = state.squareness;
  piece.projection = state.projection;
  if (state.bore) piece.bore = state.bore->diameter;
  if (const auto& seen = state.stud ? state.stud : state.bore) {
    const AxisOffset off = axis_offset(*seen);
    piece.offset = std::hypot(off.offset_1 / metre, off.offset_2 / metre) * metre;
  }
  if (!state.dry.empty()) piece.dry = state.dry.back().net;
  if (!state.cured.empty()) piece.cured = state.cured.back().net;
  if (state.sent) piece.sent = day_text(at.inputs.sheet_template, date_of(at.zone(), *state.sent));
  if (!state.bath.empty()) add_process(at.known, state, piece);
  add_entries(at.known.entries_of(*state.id), at.inputs.sheet_template, at.zone(), piece);
  return piece;
}

/// How hard the order's pieces may be tightened, by what is known now of shop and bond. The order was planned before,
/// and its owner was told then what speaks against it.
std::optional<Torque> largest_tightening(AtRegister& at, const std::string& order_id, const Order& order) {
  const Shop& shop = at.inputs.shop;
  Diagnostics ignored;
  const auto plan = plan_order(order, shop, record_of(at.known, past_of(at.known, shop), order_id), ignored);
  return plan ? plan->tightened.largest : std::nullopt;
}

/// The pieces of an order that were sent.
std::vector<PieceRecorded> pieces_sent(AtRegister& at, const std::string& order_id, const Order& order) {
  std::vector<PieceRecorded> pieces;
  for (const KnownBlank& known : at.known.blanks_of_order(order_id)) {
    if (known.blank.promised != order_id || known.blank.stage != Stage::sent) continue;
    pieces.push_back(recorded(at, *at.known.blank(*known.blank.id), order));
  }
  if (pieces.empty()) return pieces;
  const auto tightening = largest_tightening(at, order_id, order);
  for (PieceRecorded& piece : pieces) piece.tightening = tightening;
  return pieces;
}

Exit cards_of(const std::string& id, const CardsFlags& flags, AtRegister& at, Surroundings& around) {
  const auto job = at.known.stored_job(id);
  if (!job) {
    around.errors << fmt::format("blankwright: the register has no order {}\n", id);
    return Exit::mistakes;
  }
  Diagnostics out;
  const auto order = read_order(std::make_shared<const SourceText>(SourceText{id, *job}), out);
  if (!order) {
    around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
    return Exit::mistakes;
  }
  const auto pieces = pieces_sent(at, id, *order);
  if (pieces.empty()) {
    around.errors << fmt::format("blankwright: no piece of order {} was sent yet; enter sent, then print its card\n",
                                 id);
    return Exit::mistakes;
  }
  const Instant now{std::chrono::seconds{around.clock.now_unix()}};
  const auto pages = client_cards(pieces, at.inputs.sheet_template, at.units(), sheet_fonts().metrics);
  const std::string folder = flags.out + "/" + id;
  around.disk.make_folders(folder);
  const Template& sheets = at.inputs.sheet_template;
  const std::string title = fmt::format("{} {}", sheets.words[Word::client_card], id);
  around.disk.write_whole(folder + "/cards.pdf",
                          pdf_of(pages, shop_document(at.inputs.shop, sheets, title, now), sheet_fonts().files));
  const auto labels = parcel_labels(pieces, *order, at.inputs.shop, sheets, sheet_fonts().metrics, out);
  if (out.has_errors()) {
    around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
    return Exit::mistakes;
  }
  const std::string of_labels = fmt::format("{} {}", sheets.words[Word::parcel_label], id);
  around.disk.write_whole(folder + "/parcel-labels.pdf",
                          pdf_of(labels, shop_document(at.inputs.shop, sheets, of_labels, now), sheet_fonts().files));
  around.out << fmt::format("{0}/cards.pdf: {1}\n{0}/parcel-labels.pdf: {2}\n", folder,
                            counted(std::ssize(pieces), "card"), counted(std::ssize(pieces), "label"));
  return Exit::done;
}

}  // namespace

Exit codes(const CodesFlags& flags, Surroundings& around) {
  Diagnostics out;
  const auto inputs = read_shop_inputs(around.disk, shop_path(flags.shop, ""), out);
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (!inputs) return Exit::mistakes;
  const auto pages = code_sheets(inputs->sheet_template, sheet_fonts().metrics);
  around.disk.write_whole(flags.out, pdf_of(pages, shop_info(*inputs, Word::codes_sheet), sheet_fonts().files));
  around.out << fmt::format("{}: {}\n", flags.out, counted(std::ssize(pages), "page"));
  return Exit::done;
}

Exit cautions(const CautionsFlags& flags, Surroundings& around) {
  Diagnostics out;
  const auto inputs = read_shop_inputs(around.disk, shop_path(flags.shop, ""), out);
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (!inputs) return Exit::mistakes;
  const auto pages = shop_cautions(inputs->shop, inputs->sheet_template, sheet_fonts().metrics);
  around.disk.write_whole(flags.out, pdf_of(pages, shop_info(*inputs, Word::cautions_title), sheet_fonts().files));
  around.out << fmt::format("{}: {}\n", flags.out, counted(std::ssize(pages), "page"));
  return Exit::done;
}

Exit proof(const ProofFlags& flags, Surroundings& around) {
  Diagnostics out;
  const auto inputs = read_shop_inputs(around.disk, shop_path(flags.shop, ""), out);
  if (inputs) say_near_edge(inputs->sheet_template, inputs->shop.printer, out);
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (!inputs) return Exit::mistakes;
  const LabelSheet& sheet = tag_sheet(inputs->sheet_template);
  const std::vector<Page> pages{
      label_outlines(sheet, inputs->shop.printer, inputs->sheet_template, sheet_fonts().metrics)};
  around.disk.write_whole(flags.out, pdf_of(pages, shop_info(*inputs, Word::proof_sheet), sheet_fonts().files));
  around.out << fmt::format("{}: {} of \"{}\"\n", flags.out, counted(places_of(sheet), "label"), sheet.name.value);
  return Exit::done;
}

Exit cards(const CardsFlags& flags, Surroundings& around) {
  auto at = at_register(flags.shop, around, OpenTo::read);
  if (!at) return Exit::mistakes;
  Exit exit = Exit::done;
  for (const std::string& id : flags.orders) exit = worse(exit, cards_of(id, flags, *at, around));
  return exit;
}

}  // namespace blankwright
