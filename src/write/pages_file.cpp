#include "write/pages_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <system_error>
#include <variant>

#include "entries/checksum.h"
#include "write/deflated.h"

namespace blankwright {
namespace {

using Json = nlohmann::json;
using Images = std::vector<std::shared_ptr<const GreyPixels>>;

constexpr std::string_view first_words = "Blankwright pages, format 1, ";
constexpr std::size_t largest = 1'000'000'000;

std::string first_line(std::string_view body) {
  return fmt::format("{}{} bytes, checksum {}\n", first_words, body.size(), Checksum::of(body).value());
}

/// The JSON behind the first line, where it is whole.
std::optional<std::string> body_of(std::string_view bytes) {
  const char* const digits = bytes.data() + first_words.size();
  std::size_t size = 0;
  const auto read = std::from_chars(digits, bytes.data() + bytes.size(), size);
  const auto end_of_line = bytes.find('\n');
  if (read.ec != std::errc{} || size > largest || end_of_line == std::string_view::npos) return std::nullopt;
  auto body = inflated(bytes.substr(end_of_line + 1), size);
  return body && bytes.starts_with(first_line(*body)) ? body : std::nullopt;
}

Json number(Length length) { return length / metre; }
Length length(const Json& number) { return number.get<double>() * metre; }

Json box_numbers(const Box& box) { return {number(box.x), number(box.y), number(box.width), number(box.height)}; }
Box box_of(const Json& numbers) {
  return {length(numbers.at(0)), length(numbers.at(1)), length(numbers.at(2)), length(numbers.at(3))};
}

Json path_numbers(const std::vector<Path>& paths) {
  Json all = Json::array();
  for (const Path& path : paths) {
    Json numbers = Json::array();
    for (const Spot& spot : path) {
      numbers.push_back(number(spot.x));
      numbers.push_back(number(spot.y));
    }
    all.push_back(std::move(numbers));
  }
  return all;
}
std::vector<Path> paths_of(const Json& all) {
  std::vector<Path> paths;
  for (const Json& numbers : all) {
    Path& path = paths.emplace_back();
    for (std::size_t n = 0; n < numbers.size(); n += 2) {
      path.push_back({length(numbers.at(n)), length(numbers.at(n + 1))});
    }
  }
  return paths;
}

template <class Enum>
Json place_of(Enum value) {
  return static_cast<int>(value);
}
template <class Enum>
Enum at_place(const Json& place) {
  return static_cast<Enum>(place.get<int>());
}

/// A mark as a list that begins with what it is. A picture goes among `images` and is named by its number there, so
/// that one which stands on each page is one here as well.
struct AsJson {
  Images& images;
  Json operator()(const Text& t) const {
    return {"text", number(t.at.x), number(t.at.y), t.words, place_of(t.face), number(t.size), t.turn / radian};
  }
  Json operator()(const Stroke& s) const {
    return {"stroke", path_numbers(s.paths), number(s.width), place_of(s.dash), s.closed};
  }
  Json operator()(const Fill& f) const { return {"fill", path_numbers(f.paths), place_of(f.ink)}; }
  Json operator()(const Ellipse& e) const {
    return {"ellipse", box_numbers(e.box), number(e.width), place_of(e.dash)};
  }
  Json operator()(const Matrix& m) const {
    std::string modules;
    for (const bool black : m.black) modules += black ? '1' : '0';
    return {"matrix", number(m.at.x), number(m.at.y), number(m.module), m.side, modules};
  }
  Json operator()(const Image& i) const {
    const auto found = std::ranges::find(images, i.pixels);
    const auto place = found - images.begin();
    if (found == images.end()) images.push_back(i.pixels);
    return {"image", box_numbers(i.box), place};
  }
};

Mark mark_of(const Json& m, const Images& images) {
  const auto what = m.at(0).get<std::string_view>();
  if (what == "text") {
    return Text{{length(m.at(1)), length(m.at(2))},
                m.at(3).get<std::string>(),
                at_place<Face>(m.at(4)),
                length(m.at(5)),
                m.at(6).get<double>() * radian};
  }
  if (what == "stroke")
    return Stroke{paths_of(m.at(1)), length(m.at(2)), at_place<Dash>(m.at(3)), m.at(4).get<bool>()};
  if (what == "fill") return Fill{paths_of(m.at(1)), at_place<Ink>(m.at(2))};
  if (what == "ellipse") return Ellipse{box_of(m.at(1)), length(m.at(2)), at_place<Dash>(m.at(3))};
  if (what == "image") return Image{box_of(m.at(1)), images.at(m.at(2).get<std::size_t>())};
  std::vector<bool> black;
  for (const char module : m.at(5).get<std::string_view>()) black.push_back(module == '1');
  return Matrix{{length(m.at(1)), length(m.at(2))}, length(m.at(3)), m.at(4).get<int>(), std::move(black)};
}

Json page_json(const Page& page, Images& images) {
  Json marks = Json::array(), links = Json::array();
  for (const Item& item : page.items) marks.push_back(std::visit(AsJson{images}, item.mark));
  for (const Link& link : page.links) links.push_back({box_numbers(link.box), link.to});
  return {{"paper", {page.paper.name, number(page.paper.width), number(page.paper.height)}},
          {"label", page.label},
          {"marks", std::move(marks)},
          {"links", std::move(links)}};
}

/// What a mark is for the layout alone is told of, and no printing.
Page page_of(const Json& json, const Images& images) {
  const Json& paper = json.at("paper");
  Page page{{paper.at(0).get<std::string>(), length(paper.at(1)), length(paper.at(2))},
            {},
            json.at("label").get<std::string>(),
            {}};
  for (const Json& mark : json.at("marks")) page.items.push_back({mark_of(mark, images)});
  for (const Json& link : json.at("links")) page.links.push_back({box_of(link.at(0)), link.at(1).get<std::string>()});
  return page;
}

Json image_json(const GreyPixels& pixels) { return {pixels.width, pixels.height, pixels.grey}; }
std::shared_ptr<const GreyPixels> image_of(const Json& json) {
  return std::make_shared<const GreyPixels>(
      GreyPixels{json.at(0).get<int>(), json.at(1).get<int>(), json.at(2).get<std::vector<std::uint8_t>>()});
}

LaidOut document_of(const Json& json) {
  Images images;
  for (const Json& image : json.at("images")) images.push_back(image_of(image));
  LaidOut out{{json.at("title").get<std::string>(), json.at("author").get<std::string>(),
               json.at("subject").get<std::string>(), json.at("language").get<std::string>(),
               json.at("made").get<std::int64_t>(), json.at("true_to_size").get<bool>()},
              json.at("pictures").get<int>(),
              {}};
  for (const Json& page : json.at("pages")) out.pages.push_back(page_of(page, images));
  return out;
}

}  // namespace

std::string pages_file(const LaidOut& document) {
  const DocumentInfo& info = document.info;
  Images images;
  Json pages = Json::array(), pictures = Json::array();
  for (const Page& page : document.pages) pages.push_back(page_json(page, images));
  for (const auto& image : images) pictures.push_back(image_json(*image));
  const Json json{{"title", info.title},       {"author", info.author},         {"subject", info.subject},
                  {"language", info.language}, {"made", info.made_at_unix},     {"true_to_size", info.true_to_size},
                  {"images", pictures},        {"pictures", document.pictures}, {"pages", std::move(pages)}};
  const std::string body = json.dump();
  return first_line(body) + deflated(body, Deflate::quick);
}

tl::expected<LaidOut, std::string> read_pages_file(std::string_view bytes) {
  if (!bytes.starts_with(first_words.substr(0, first_words.find(','))))
    return tl::make_unexpected("holds no pages that `compile --print-later` laid out");
  if (!bytes.starts_with(first_words))
    return tl::make_unexpected("was written by another version of Blankwright, which has to print it");
  const auto body = body_of(bytes);
  if (!body) return tl::make_unexpected("is damaged: compile its order again");
  return document_of(Json::parse(*body));
}

}  // namespace blankwright
