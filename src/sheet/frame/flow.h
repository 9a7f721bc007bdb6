#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "sheet/frame/frame.h"

namespace blankwright {

/// Pages that fill from top to bottom; each further one goes on from the one before.
struct Flow {
  const Template& sheet_template;
  const FontMetrics& fonts;
  std::function<Sheet(PageOfKind)> begin;
  std::vector<Sheet> sheets;  ///< of a flow that has begun at least one
  Length top;                 ///< of what is still free on the last of them
};

/// Template and fonts have to outlive the flow, and what `begin` refers to.
Flow flow_of(const Template& sheet_template, const FontMetrics& fonts, std::function<Sheet(PageOfKind)> begin);

/// Pages of an order's traveller for one person: parts one after the other, each under its title.
struct OrderFlow : Flow {
  const Dossier& dossier;
};

/// None yet. Dossier and fonts have to outlive the flow.
OrderFlow flow_for(const Dossier& dossier, const FontMetrics& fonts);
OrderFlow flow_for(const Dossier&& dossier, const FontMetrics& fonts) = delete;

/// Begins a part below the one before, where `least` is free there for it, title and all; else on a page of its own,
/// which is what it has without `least`.
void begin_part(OrderFlow& flow, Word title, std::optional<Length> least = {});

/// Adds pages that nothing else is to stand on.
void add_pages(OrderFlow& flow, std::vector<Page> pages);

/// Begins a further page.
void next_sheet(Flow& flow);

/// What is still free on the last page.
Box free_room(const Flow& flow);
/// What is free on a page that has just been begun.
Box whole_room(const Flow& flow);

/// A strip over the whole width, from what is free. It must fit: see free_room().
Box take_strip(Flow& flow, Length height);

/// The same, on a further page where this one has no room for it.
Box next_strip(Flow& flow, Length height);

/// To write on the last page in the template's lettering, until the next one is begun.
Canvas canvas_of(Flow& flow);

std::vector<Page> pages_of(Flow&& flow);

}  // namespace blankwright
