#include "sheet/mark/moved.h"

#include <utility>

namespace blankwright {
namespace {

void move_paths(std::vector<Path>& paths, Length down) {
  for (Path& path : paths) {
    for (Spot& spot : path) spot.y += down;
  }
}

struct Mover {
  Length down;
  void operator()(Text& text) const { text.at.y += down; }
  void operator()(Stroke& stroke) const { move_paths(stroke.paths, down); }
  void operator()(Fill& fill) const { move_paths(fill.paths, down); }
  void operator()(Ellipse& ellipse) const { ellipse.box.y += down; }
  void operator()(Matrix& matrix) const { matrix.at.y += down; }
  void operator()(Image& image) const { image.box.y += down; }
};

}  // namespace

Mark moved(Mark mark, Length down) {
  std::visit(Mover{down}, mark);
  return mark;
}

}  // namespace blankwright
