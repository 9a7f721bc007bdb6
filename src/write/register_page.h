#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace blankwright {

/// What the page tells of one thing that happened to a blank.
struct PageEntry {
  std::string when, what, says, by;
  bool valid = true;
};

/// What a gate answers. The strongest comes first.
enum class PageAnswer {
  hold,  ///< something is wrong
  wait,  ///< something is missing
  pass,  ///< nothing stands against it
};

struct PageGate {
  std::string name;   ///< "resin"
  std::string words;  ///< without the gate's name
  PageAnswer answer = PageAnswer::pass;
};

struct PageBlank {
  std::string id;     ///< as shown: "K7T-4X54"
  std::string order;  ///< that it is meant for
  std::string stage;  ///< in the words of the shop, with "witness" where it is one
  std::string place;  ///< empty where it lies nowhere
  std::vector<std::pair<std::string, std::string>> facts;
  std::vector<PageGate> gates;
  std::vector<PageEntry> history;
};

struct PageOrder {
  std::string id, client, item, due;
  std::string late;  ///< "2 d 5 h" after its due date; empty where it is on time
  int quantity = 0;
};

/// The register to look at.
struct RegisterPage {
  std::string title;
  std::string made;                                      ///< when, for people
  std::string entry;                                     ///< number of the last one
  std::vector<std::pair<std::string_view, int>> stages;  ///< how many blanks are at which, in the order of the work
  std::vector<PageOrder> orders;                         ///< in the order in which they are to be listed
  std::vector<PageBlank> blanks;
};

/// The parts that the page is made of, with @name@ where something is put in.
struct PageParts {
  std::string_view html, css, js;
};

/// With more blanks than this the list is not in the HTML but made by the script, some hundred rows at a time:
/// a phone takes seconds to lay out ten thousand rows, and to look through them at each key.
inline constexpr std::size_t most_in_html = 2000;

/// One HTML file that holds all it needs: what is on HOLD and what is late, how many blanks are at which stage,
/// orders with their blanks, a search, and each blank's history with its gates. In each order what is on HOLD comes
/// first. Nothing is fetched, and its policy lets nothing be. `#K7T-4X54` opens that blank. Text from outside is
/// escaped, so that it is text and nothing else. Up to `most_in_html` blanks it works without a script but for search
/// and histories. A blank whose order is not among `orders` is listed last. Text is UTF-8.
std::string register_page(const RegisterPage& page, const PageParts& parts);

}  // namespace blankwright
