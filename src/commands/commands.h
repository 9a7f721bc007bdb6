#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "commands/surroundings.h"

namespace blankwright {

/// What a new shop says of itself; what is empty is asked for, or is as usual.
struct BeginFlags {
  std::string folder = ".";
  std::string name;       ///< of the shop
  std::string units;      ///< metric or inch
  std::string paper;      ///< A4 or Letter
  std::string zone;       ///< IANA name
  std::string treatment;  ///< yes or no: does it draw resin into wood
};

struct KnownFlags {
  std::string what;                ///< of known_things()
  std::vector<std::string> words;  ///< that what is listed has to have
  std::string as = "text";         ///< text, csv or json
};

struct CheckFlags {
  std::vector<std::string> jobs;
  std::string shop;
  bool quiet = false;
};

struct CompileFlags {
  std::vector<std::string> jobs;
  std::string shop;
  std::string out;                ///< folder; empty: "sheets", "drafts" or "again", by what is written
  std::string at;                 ///< as moment_asked() reads it, or empty for now
  std::vector<std::string> only;  ///< of compile_outputs(); empty for all
  std::string used_places;        ///< of the first sheet of labels, "1-4,9"
  int pictures = 0;               ///< dots an inch of each page as a picture; 0 for none
  int threads = 0;                ///< 0: as many as there are cores
  std::string again;              ///< a print to make again: its number, or "last"; empty for none
  std::string pages;              ///< of the traveller only these, as is_asked() reads it; empty for all
  bool changed = false;           ///< only paper that differs from what was printed last
  bool worksheet = false;         ///< how every figure came about, too
  bool week = false;              ///< the shop's days too, of all orders together
  bool print_later = false;       ///< documents are laid out for Ninja to print
  bool draft = false;
  bool replace = false;  ///< start others for begun blanks that do not fit their order any more
  bool quiet = false;
};

struct PrintFlags {
  std::vector<std::string> files;
  bool quiet = false;
};

struct ExplainFlags {
  std::string job;
  std::vector<std::string> figure;  ///< the parts of its name; empty for all
  std::string shop;
};

struct EnterFlags {
  std::string kind;                ///< name or action code
  std::vector<std::string> words;  ///< blanks, and FIELD=VALUE
  std::string csv;                 ///< a table instead
  std::string shop, at, person, overridden;
  std::int64_t replaces = 0;  ///< number of an entry; 0 for none
  bool quiet = false;
};

struct BenchFlags {
  std::string shop;
};

struct AskFlags {
  std::string what;  ///< of questions()
  std::string name;  ///< which one; empty where the question needs none
  std::string shop;
  std::string at;           ///< the day of which the daybook tells; empty for today
  std::string as = "text";  ///< text, csv or json
};

struct TodayFlags {
  std::string shop;
  std::string at;           ///< as moment_asked() reads it, or empty for now
  std::string as = "text";  ///< text or json
  std::string out;          ///< a sheet too, into this file; empty for none
};

struct PromiseFlags {
  std::string job;
  std::string shop;
  std::string at;           ///< as moment_asked() reads it, or empty for now
  std::string as = "text";  ///< text or json
};

struct PageFlags {
  std::string shop;
  std::string out = "register.html";
};

struct CodesFlags {
  std::string shop;
  std::string out = "codes.pdf";
};

struct CautionsFlags {
  std::string shop;
  std::string out = "cautions.pdf";
};

struct CardsFlags {
  std::vector<std::string> orders;
  std::string shop;
  std::string out = "sheets";
};

struct ProofFlags {
  std::string shop;
  std::string out = "label-outlines.pdf";
};

struct MoveFlags {
  std::string file;
  std::string shop;
};

struct ManualFlags {
  std::string page;  ///< empty: all of them are listed
  std::string out;   ///< folder for all pages, for `man` and as HTML; empty for none
};

struct CompletionsFlags {
  std::string shell;  ///< bash or zsh
};

struct SchemaFlags {
  std::string file;
  bool table = false;
};

/// What `ask` can be asked: "bath", what names one of them ("NAME"; empty for the whole shop), and what that tells.
struct Question {
  std::string_view what, name, tells;
};
std::vector<Question> questions();

/// What `known` can list, and what that is.
struct KnownThing {
  std::string_view name, says;
};
std::vector<KnownThing> known_things();

/// What compile can be told to write, for `--only`.
const std::vector<std::string>& compile_outputs();

Exit begin(const BeginFlags& flags, Surroundings& around);
Exit known(const KnownFlags& flags, Surroundings& around);
Exit check(const CheckFlags& flags, Surroundings& around);
Exit compile(const CompileFlags& flags, Surroundings& around);
/// Prints documents that --print-later laid out, each beside its file of pages.
Exit print_pages(const PrintFlags& flags, Surroundings& around);
Exit explain(const ExplainFlags& flags, Surroundings& around);
Exit schema(const SchemaFlags& flags, Surroundings& around);
Exit enter(const EnterFlags& flags, Surroundings& around);
Exit bench(const BenchFlags& flags, Surroundings& around);
Exit ask(const AskFlags& flags, Surroundings& around);
Exit today(const TodayFlags& flags, Surroundings& around);
Exit promise(const PromiseFlags& flags, Surroundings& around);
Exit codes(const CodesFlags& flags, Surroundings& around);
Exit cautions(const CautionsFlags& flags, Surroundings& around);
Exit cards(const CardsFlags& flags, Surroundings& around);
Exit proof(const ProofFlags& flags, Surroundings& around);
Exit page(const PageFlags& flags, Surroundings& around);
Exit manual(const ManualFlags& flags, Surroundings& around);
Exit completions(const CompletionsFlags& flags, Surroundings& around);
Exit export_register(const MoveFlags& flags, Surroundings& around);
Exit import_register(const MoveFlags& flags, Surroundings& around);

/// What the numbers mean with which the program ends (Exit), for people.
inline constexpr std::string_view exit_statuses =
    "Ends with 0 when all is done, 1 after mistakes in the input, 2 after mistakes on the command line,\n"
    "3 after trouble outside the program (disk, lock), 70 after a fault of the program.\n";

/// The worse of two ends.
inline Exit worse(Exit a, Exit b) { return static_cast<int>(a) > static_cast<int>(b) ? a : b; }

}  // namespace blankwright
