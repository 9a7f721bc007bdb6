#include "commands/inputs.h"

#include <fmt/format.h>

#include <filesystem>

#include "commands/shipped.h"
#include "diagnose/failure.h"
#include "plan/process.h"
#include "read/document.h"

namespace blankwright {
namespace {

Source shipped_source(std::string_view name) {
  return std::make_shared<const SourceText>(SourceText{std::string{name}, std::string{shipped(name)}});
}

/// A template by the shop's word for it: one that comes with the program, or a file beside the shop's.
Source template_source(const Files& disk, const Given<std::string>& named, const std::string& shop_file,
                       Diagnostics& out) {
  if (named.value == "letter") return shipped_source("letter.toml");
  const std::filesystem::path path{named.value};
  const std::string found = path.is_absolute()
                                ? named.value
                                : (std::filesystem::path{folder_of(shop_file)} / path).lexically_normal().string();
  if (!disk.exists(found)) {
    out.error(Problem::template_missing, named.at, fmt::format("there is no template file {}", found))
        .hint("template = \"a4\" or template = \"letter\", or a path from the shop file's folder");
    return nullptr;
  }
  return read_source(disk, found, out);
}

}  // namespace

Source read_source(const Files& disk, const std::string& path, Diagnostics& out) {
  auto text = disk.read(path, largest_file);
  if (text) return std::make_shared<const SourceText>(SourceText{path, std::move(*text)});
  const Source nameless = std::make_shared<const SourceText>(SourceText{path, {}});
  if (text.error().kind == ReadFault::Kind::failed) throw WorldError{path, text.error().words};
  const Problem problem =
      text.error().kind == ReadFault::Kind::too_large ? Problem::file_too_large : Problem::file_unreadable;
  out.error(problem, {nameless}, text.error().words);
  return nullptr;
}

const Template& standard_template() {
  static const Template standard = [] {
    Diagnostics said;
    auto t = read_template(shipped_source("standard.toml"), Template{}, said);
    BW_EXPECT(t.has_value());
    return std::move(*t);
  }();
  return standard;
}

std::optional<ShopInputs> read_shop_inputs(const Files& disk, const std::string& path, Diagnostics& out) {
  const Source source = read_source(disk, path, out);
  if (source == nullptr) {
    out.hint_last(
        "the shop file is shop.toml beside the first job, or in the present folder where no job is named; --shop "
        "names another one");
    return std::nullopt;
  }
  auto shop = read_shop(source, out);
  if (!shop || !judge_shop(*shop, out)) return std::nullopt;
  if (!shop->sheet_template || shop->sheet_template->value == "a4")
    return ShopInputs{std::move(*shop), standard_template(), {}};
  const Source named = template_source(disk, *shop->sheet_template, path, out);
  if (named == nullptr) return std::nullopt;
  auto sheets = read_template(named, standard_template(), out);
  if (!sheets) return std::nullopt;
  return ShopInputs{std::move(*shop), std::move(*sheets), named->text};
}

std::string shop_path(const std::string& given, const std::string& first_job) {
  return given.empty() ? (std::filesystem::path{folder_of(first_job)} / "shop.toml").lexically_normal().string()
                       : given;
}

std::string register_path(const std::string& shop_file) {
  return std::filesystem::path{shop_file}.replace_extension(".register").string();
}

std::string program_version() { return "Blankwright " BLANKWRIGHT_VERSION; }

}  // namespace blankwright
