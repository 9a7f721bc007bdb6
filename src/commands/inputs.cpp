#include "commands/inputs.h"

#include <fmt/format.h>

#include <filesystem>

#include "commands/shipped.h"
#include "diagnose/failure.h"
#include "diagnose/problem.h"
#include "diagnose/says_run.h"
#include "entries/entry_kind.h"
#include "plan/figure/check_labels.h"
#include "plan/process/judge_shop.h"
#include "plan/tables/grades.h"
#include "plan/tables/species.h"
#include "read/document.h"
#include "register/connection.h"
#include "write/png_reader.h"

namespace blankwright {
namespace {

Source shipped_source(std::string_view name) {
  return std::make_shared<const SourceText>(SourceText{std::string{name}, std::string{shipped(name)}});
}

std::string beside(const std::string& file, const std::string& named) {
  const std::filesystem::path path{named};
  return path.is_absolute() ? named : (std::filesystem::path{folder_of(file)} / path).lexically_normal().string();
}

/// A template that comes with the program, or a file beside the one that names it.
Source template_source(const Files& disk, const Given<std::string>& named, const std::string& named_in,
                       Diagnostics& out) {
  if (named.value == "letter") return shipped_source("letter.toml");
  const std::string found = beside(named_in, named.value);
  if (!disk.exists(found)) {
    out.error(Problem::template_missing, named.at, says::no_template_file, found).hint(says::such_as_template);
    return nullptr;
  }
  return read_source(disk, found, out);
}

constexpr std::size_t largest_picture = 2'000'000;

/// Reads the pictures that a template's blocks name. Returns a line for each that tells it from another one.
std::optional<std::string> read_pictures(const Files& disk, Template& t, Diagnostics& out) {
  std::string told;
  for (const BlockFacts* block : picture_blocks(t)) {
    const Given<std::string>& file = *block->file;
    if (t.pictures.contains(file.value)) continue;
    const auto bytes = disk.read(beside(t.source->name, file.value), largest_picture);
    auto pixels = bytes ? pixels_of_png(*bytes) : tl::unexpected{bytes.error().words};
    if (!pixels) {
      out.error(Problem::picture_unreadable, file.at, says::picture_because, file.value, pixels.error())
          .hint(says::what_a_picture_is);
      return std::nullopt;
    }
    told += fmt::format("\n# {} {} {:08x}", file.value, bytes->size(), fingerprint(*bytes));
    t.pictures.emplace(file.value, std::make_shared<const GreyPixels>(std::move(*pixels)));
  }
  return told;
}

std::vector<std::string> species_names() {
  std::vector<std::string> names;
  for (const Species& species : species_table()) names.emplace_back(species.name);
  return names;
}

std::vector<std::string> action_names() {
  std::vector<std::string> names;
  for (const KindFacts& kind : kind_list()) {
    if (!kind.code.empty()) names.emplace_back(kind.name);
  }
  return names;
}

std::optional<NamedTemplate> template_of(const Files& disk, const Source& source, Diagnostics& out) {
  auto sheets = read_template(source, standard_template(), out);
  if (!sheets) return std::nullopt;
  const int before = out.errors();
  check_labels(sheets->labels, out);
  check_sources(sheets->sources, grade_sources(), out);
  check_names(sheets->species, species_names(), out);
  check_names(sheets->actions, action_names(), out);
  if (out.errors() > before) return std::nullopt;
  const auto pictures = read_pictures(disk, *sheets, out);
  if (!pictures) return std::nullopt;
  return NamedTemplate{std::move(*sheets), source->text + *pictures};
}

/// Is it clear where the register stands, and can this program go there? It connects to nothing.
bool can_be_reached(const RegisterFacts& facts, Diagnostics& out) {
  if (!facts.database) return true;
  const Given<std::string>& database = *facts.database;
  if (facts.file) {
    out.error(Problem::register_place, database.at, says::file_and_database)
        .label(facts.file->at, says::register_file_too)
        .hint(says::name_one_place);
    return false;
  }
  const auto fault = connection_fault(database.value);
  if (!fault) return true;
  switch (fault->kind) {
    case ConnectionFault::Kind::unreadable:
      out.error(Problem::register_place, database.at, says::parameters_because, fault->words)
          .hint(says::such_as_database);
      break;
    case ConnectionFault::Kind::password:
      out.error(Problem::register_place, database.at, says::password_in_shop_file).hint(says::password_elsewhere);
      break;
    case ConnectionFault::Kind::not_built:
      out.error(Problem::register_place, database.at, says::built_without_postgresql);
  }
  return false;
}

}  // namespace

Source read_source(const Files& disk, const std::string& path, Diagnostics& out) {
  auto text = disk.read(path, largest_file);
  if (text) return std::make_shared<const SourceText>(SourceText{path, std::move(*text)});
  const Source nameless = std::make_shared<const SourceText>(SourceText{path, {}});
  if (text.error().kind == ReadFault::Kind::failed) throw WorldError{path, text.error().words};
  const Problem problem =
      text.error().kind == ReadFault::Kind::too_large ? Problem::file_too_large : Problem::file_unreadable;
  auto& said = out.error(problem, {nameless}, says::as_it_is, text.error().words);
  if (text.error().kind == ReadFault::Kind::absent) {
    const bool lacks_ending = disk.exists(path + ".toml");
    said.hint(lacks_ending ? say(says::did_you_mean_path, path + ".toml") : say(says::name_it_with_its_folder));
  }
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
    out.hint_last(says::where_the_shop_file_is);
    return std::nullopt;
  }
  auto inputs = read_kept_shop(disk, source, std::nullopt, out);
  return inputs && can_be_reached(inputs->shop.register_facts, out) ? std::move(inputs) : std::nullopt;
}

std::optional<ShopInputs> read_kept_shop(const Files& disk, const Source& source,
                                         const std::optional<std::string>& template_text, Diagnostics& out) {
  auto shop = read_shop(source, out);
  if (!shop || !judge_shop(*shop, out)) return std::nullopt;
  if (!shop->sheet_template) return ShopInputs{std::move(*shop), standard_template(), {}};
  auto named = template_text ? read_kept_template(disk, *shop->sheet_template, source->name, *template_text, out)
                             : read_named_template(disk, *shop->sheet_template, source->name, out);
  if (!named) return std::nullopt;
  return ShopInputs{std::move(*shop), std::move(named->sheets), std::move(named->text)};
}

std::optional<NamedTemplate> read_named_template(const Files& disk, const Given<std::string>& named,
                                                 const std::string& named_in, Diagnostics& out) {
  if (named.value == "a4") return NamedTemplate{standard_template(), {}};
  const Source source = template_source(disk, named, named_in, out);
  return source == nullptr ? std::nullopt : template_of(disk, source, out);
}

std::optional<NamedTemplate> read_kept_template(const Files& disk, const Given<std::string>& named,
                                                const std::string& named_in, const std::string& kept,
                                                Diagnostics& out) {
  if (named.value == "a4") return NamedTemplate{standard_template(), {}};
  const std::string name = named.value == "letter" ? "letter.toml" : beside(named_in, named.value);
  auto read = template_of(disk, std::make_shared<const SourceText>(SourceText{name, kept}), out);
  if (!read) return std::nullopt;
  // Behind a kept text stand the lines that tell its pictures from others; they are comments in it.
  const std::string pictures = read->text.substr(kept.size());
  if (!kept.ends_with(pictures)) {
    out.error(Problem::picture_unreadable, named.at, says::other_pictures, name);
    return std::nullopt;
  }
  read->text = kept;
  return read;
}

std::string shop_path(const std::string& given, const std::string& first_job) {
  return given.empty() ? (std::filesystem::path{folder_of(first_job)} / "shop.toml").lexically_normal().string()
                       : given;
}

RegisterPlace place_of_register(const Shop& shop, const std::string& shop_file) {
  const RegisterFacts& named = shop.register_facts;
  if (named.database) return RegisterPlace::on_server(named.database->value);
  if (named.file) return beside(shop_file, named.file->value);
  return std::filesystem::path{shop_file}.replace_extension(".register").string();
}

std::string program_version() { return "Blankwright " BLANKWRIGHT_VERSION; }

}  // namespace blankwright
