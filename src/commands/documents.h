#pragma once

#include <string>
#include <utility>
#include <vector>

#include "commands/commands.h"
#include "write/pages_file.h"

namespace blankwright {

/// Files by their names in a folder.
using NamedFiles = std::vector<std::pair<std::string, std::string>>;

/// A document as it is printed: "traveller.pdf", and where they are asked for a picture of each page,
/// "traveller-03.png". What comes out follows from the document and the program, its fonts among it, alone.
NamedFiles printed_files(const std::string& name, const LaidOut& document);

/// The files of an output folder.
class OutputFolder {
 public:
  /// Both outlive this.
  OutputFolder(const CompileFlags& flags, Files& disk) : flags_{flags}, disk_{disk} {}

  /// A document's files in a folder there, empty for itself: as printed, or with --print-later its pages with what
  /// Ninja is to do with them. No pages are no document.
  NamedFiles of_document(const std::string& folder, const std::string& name, std::vector<Page> pages,
                         DocumentInfo info) const;
  /// Puts them there, and makes the folder. Pages that are there as they are stay untouched, so that they are not
  /// printed again; what was printed at once is not overwritten by pages of before. Throws WorldError. Returns the
  /// documents' and other files' names, in a row.
  std::string write(const std::string& folder, const NamedFiles& files);
  /// Writes print.ninja, by which all documents there are printed that were laid out with --print-later, of this run
  /// or one before. `program` is the program's own file. Throws WorldError. Returns the line that tells how.
  std::string write_print_file(const std::string& program);

 private:
  std::string path(const std::string& folder) const;
  std::vector<std::string> parts_in(const std::string& folder) const;
  const CompileFlags& flags_;
  Files& disk_;
};

}  // namespace blankwright
