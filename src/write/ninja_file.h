#pragma once

#include <span>
#include <string>
#include <string_view>

namespace blankwright {

// What Ninja runs to print documents (The Ninja build system, manual, "Ninja file reference", version 1.11). A file
// for each document is taken in by one for all of a folder, which names the program.

/// A path as it stands in such a file. Throws WorldError of one with a line break, for which there is no way.
std::string ninja_path(std::string_view path);

/// How one document is made: `makes` from `pages` by the program, whenever one of these is newer.
std::string ninja_edge(std::span<const std::string> makes, const std::string& pages);

/// The file for all; `program` is the program's file and `parts` those of the documents.
std::string ninja_file(const std::string& program, std::span<const std::string> parts);

/// Stands in the place of an edge once its document is printed in another way.
std::string no_ninja_edge();

}  // namespace blankwright
