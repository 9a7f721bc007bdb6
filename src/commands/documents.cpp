#include "commands/documents.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "commands/output.h"
#include "diagnose/failure.h"
#include "entries/order_id.h"
#include "write/ninja_file.h"
#include "write/picture.h"

namespace blankwright {
namespace {

constexpr std::string_view of_pages = ".pages", of_ninja = ".ninja";
constexpr std::size_t largest_pages_file = 500'000'000;

/// A file by its path from the output folder, from where Ninja sees it.
std::string below(const std::string& folder, const std::string& name) {
  return folder.empty() ? name : folder + "/" + name;
}

std::string picture_name(const std::string& document, std::size_t page) {
  return fmt::format("{}-{:02}.png", document, page + 1);
}

/// What printed_files() makes of it.
std::vector<std::string> printed_names(const std::string& name, const LaidOut& document) {
  std::vector<std::string> names{name + ".pdf"};
  for (std::size_t n = 0; document.pictures > 0 && n < document.pages.size(); ++n) {
    names.push_back(picture_name(name, n));
  }
  return names;
}

}  // namespace

NamedFiles printed_files(const std::string& name, const LaidOut& document) {
  const PdfFonts& fonts = sheet_fonts().files;
  NamedFiles files{{name + ".pdf", pdf_of(document.pages, document.info, fonts)}};
  for (std::size_t n = 0; document.pictures > 0 && n < document.pages.size(); ++n) {
    files.emplace_back(picture_name(name, n), png_of(document.pages.at(n), document.pictures, fonts));
  }
  return files;
}

std::string OutputFolder::path(const std::string& folder) const {
  return folder.empty() ? flags_.out : flags_.out + "/" + folder;
}

NamedFiles OutputFolder::of_document(const std::string& folder, const std::string& name, std::vector<Page> pages,
                                     DocumentInfo info) const {
  if (pages.empty()) return {};
  const LaidOut document{std::move(info), flags_.pictures, std::move(pages)};
  if (!flags_.print_later) return printed_files(name, document);
  std::vector<std::string> makes;
  for (const std::string& one : printed_names(name, document)) makes.push_back(below(folder, one));
  const std::string pages_name = name + std::string{of_pages};
  return {{pages_name, pages_file(document)},
          {name + std::string{of_ninja}, ninja_edge(makes, below(folder, pages_name))}};
}

std::string OutputFolder::write(const std::string& folder, const NamedFiles& files) {
  const std::string into = path(folder);
  disk_.make_folders(into);
  std::string names;
  for (const auto& [name, bytes] : files) {
    const std::string file = into + "/" + name;
    const bool is_of_pages = name.ends_with(of_pages) || name.ends_with(of_ninja);
    if (!is_of_pages || disk_.read(file, largest_pages_file) != bytes) disk_.write_whole(file, bytes);
    if (!name.ends_with(".png") && !name.ends_with(of_ninja)) names += (names.empty() ? "" : ", ") + name;
    if (!name.ends_with(".pdf")) continue;
    const std::string edge = into + "/" + name.substr(0, name.size() - 4) + std::string{of_ninja};
    if (disk_.exists(edge)) disk_.write_whole(edge, no_ninja_edge());
  }
  if (flags_.pictures > 0 && !flags_.print_later) names += ", pictures of the pages";
  return names;
}

std::vector<std::string> OutputFolder::parts_in(const std::string& folder) const {
  const std::vector<std::string> names = disk_.files_in(path(folder));
  std::vector<std::string> parts;
  for (const std::string& name : names) {
    if (!name.ends_with(of_pages)) continue;
    const std::string part = name.substr(0, name.size() - of_pages.size()) + std::string{of_ninja};
    if (std::ranges::binary_search(names, part)) parts.push_back(below(folder, part));
  }
  return parts;
}

std::string OutputFolder::write_print_file(const std::string& program) {
  if (program.empty()) throw WorldError{"blankwright", "where its own file lies cannot be seen"};
  std::vector<std::string> parts = parts_in({});
  for (const std::string& folder : disk_.folders_in(flags_.out)) {
    if (order_id_problem(folder)) continue;  // no order's
    std::ranges::move(parts_in(folder), std::back_inserter(parts));
  }
  disk_.make_folders(flags_.out);
  disk_.write_whole(flags_.out + "/print.ninja", ninja_file(program, parts));
  return fmt::format("{0}: to print, run `ninja -C {0} -f print.ninja`\n", flags_.out);
}

Exit print_pages(const PrintFlags& flags, Surroundings& around) {
  for (const std::string& file : flags.files) {
    const auto bytes = around.disk.read(file, largest_pages_file);
    if (!bytes) throw WorldError{file, bytes.error().words};
    const auto document = read_pages_file(*bytes);
    if (!document) throw WorldError{file, document.error()};
    const std::string name = file.ends_with(of_pages) ? file.substr(0, file.size() - of_pages.size()) : file;
    for (const auto& [path, printed_bytes] : printed_files(name, *document))
      around.disk.write_whole(path, printed_bytes);
    if (flags.quiet) continue;
    around.out << fmt::format("{}.pdf: {}\n", name, counted(std::ssize(document->pages), "page"));
  }
  return Exit::done;
}

}  // namespace blankwright
