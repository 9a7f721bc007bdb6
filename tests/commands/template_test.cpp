// Templates as a user changes them: the German sample, a template named in a job, used label sheets, pictures.

#include <doctest/doctest.h>
#include <fmt/format.h>
#include <fstream>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <span>

#include "diagnose/says_gate.h"
#include "plan/figure/figure.h"
#include "program.h"
#include "read/document.h"
#include "read/notes.h"
#include "read/terms.h"
#include "read/words.h"

using namespace blankwright;

namespace {

/// The German sample, compiled once.
struct German {
  SampleJobs jobs;
  German() {
    const auto run = run_program({"compile", "--out", jobs.out(), jobs / "german/awl.toml"});
    if (run.exit != Exit::done) throw std::runtime_error{run.errors};
  }
  std::string file(const std::string& name) const { return jobs.out() + "/HG-58/" + name; }
};

const German& german() {
  static const German once;
  return once;
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  const auto at = text.find(what);
  if (at == std::string::npos) throw std::runtime_error{"no " + what};
  return text.replace(at, what.size(), by);
}

std::vector<std::string> ids_of(const std::string& plan_file) {
  std::vector<std::string> ids;
  const auto plan = nlohmann::json::parse(bytes_of(plan_file));
  for (const auto& blank : plan["blanks"]) ids.push_back(blank["id"]);
  REQUIRE_FALSE(ids.empty());
  return ids;
}

std::size_t pages_of(const std::string& pdf_file) {
  std::smatch count;
  const std::string info = run_tool("pdfinfo " + shell_quoted(pdf_file)).out;
  REQUIRE(std::regex_search(info, count, std::regex{"Pages: +([0-9]+)"}));
  return std::stoul(count[1]);
}

}  // namespace

TEST_CASE("the sample in a second language says every word in it") {
  const auto words_of = [](const std::string& path) {
    std::ifstream in{std::string{BLANKWRIGHT_SOURCE_DIR} + "/" + path};
    std::map<std::string, std::string> out;
    const std::regex line{R"re(^([a-z_0-9]+) = "(.*)"$)re"};
    std::string text, section;
    while (std::getline(in, text)) {
      std::smatch match;
      if (text.starts_with("[")) section = text;
      const bool of_words = section == "[words]" || section == "[cautions]" || section == "[gates]";
      if (of_words && std::regex_match(text, match, line)) out[section + match[1].str()] = match[2];
    }
    return out;
  };
  const auto english = words_of("templates/standard.toml"), own = words_of("sample-jobs/german/sheets.toml");
  REQUIRE(english.size() > word_keys.size());
  // Words that are the same in both languages.
  const std::set<std::string> same{"[words]bath_ballast", "[words]september", "[words]august"};
  for (const auto& [key, words] : english) {
    CAPTURE(key);
    REQUIRE(own.contains(key));
    if (!same.contains(key)) CHECK(own.at(key) != words);
  }
  for (const SentenceRow& row : gate_sentences) {
    CAPTURE(row.name);
    const std::string key = "[gates]" + std::string{row.name};
    REQUIRE(own.contains(key));
    CHECK(own.at(key) != row.words);
  }
}

TEST_CASE("the sample's sheets stand in its order, under its own head, in its own language") {
  const std::string traveller = bytes_of(german().file("traveller.pdf"));
  const std::string text = copied_text(traveller);
  std::vector<std::size_t> places;
  for (const char* title :
       {"Drechslerblatt", "Prüfung", "Liste der Kanteln", "Badkarte", "Ofenkarte", "Arbeitsplan", "Rechenblatt"}) {
    CAPTURE(title);
    places.push_back(text.find(title));
    CHECK(places.back() != std::string::npos);
  }
  CHECK(std::is_sorted(places.begin(), places.end()));
  const std::string info = run_tool("pdfinfo " + shell_quoted(german().file("traveller.pdf"))).out;
  CHECK(info.find("Auftrag HG-58: Drechslerblatt") != std::string::npos);
  for (const char* english : {"Turner's sheet", "Before turning", "Caliper settings", "HOLD", "Routing"}) {
    CAPTURE(english);
    CHECK(text.find(english) == std::string::npos);
  }
  // Its mark is on every page with a head: a picture of 240 by 230 dots, in grey. Cards have none, and empty sides.
  const auto images = run_tool("pdfimages -list " + shell_quoted(german().file("traveller.pdf")));
  const std::regex row{R"( 240 +230 +gray)"};
  const auto shown = std::distance(std::sregex_iterator{images.out.begin(), images.out.end(), row}, {});
  std::ptrdiff_t with_head = 0;
  for (std::size_t from = 0, end = 0; (end = text.find('\f', from)) != std::string::npos; from = end + 1) {
    const std::string page = text.substr(from, end - from);
    with_head += page.find("Kunde") != std::string::npos || page.find("Auftraggeber") != std::string::npos ? 1 : 0;
  }
  CHECK(shown == with_head);
}

namespace {

/// A text whose words stand a space apart, as they would on one line.
std::string on_one_line(const std::string& text) { return std::regex_replace(text, std::regex{R"(\s+)"}, " "); }

/// Signs, and words that German writes so too.
bool is_same_in_german(std::string_view english) {
  static const std::set<std::string_view> same{"Siau", "max", "min", "tan", "2 cos 30°"};
  const auto is_letter = [](char c) { return c >= 'a' && c <= 'z'; };
  std::size_t run = 0, longest = 0;
  for (const char c : english) longest = std::max(longest, run = is_letter(c) ? run + 1 : 0);
  return longest < 3 || same.contains(english);
}

std::ptrdiff_t words_in(std::string_view text) { return 1 + std::ranges::count(text, ' '); }

/// The sample with its shop's own words, or with the English ones of the standard template.
std::string plan_of_sample(bool own_words) {
  SampleJobs jobs;
  if (!own_words) {
    put_bytes(jobs / "german/shop.toml",
              replaced(bytes_of(jobs / "german/shop.toml"), "template = \"sheets.toml\"\n", ""));
  }
  const auto run = run_program({"compile", "--out", jobs.out(), jobs / "german/awl.toml"});
  REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  return bytes_of(jobs.out() + "/HG-58/plan.json");
}

}  // namespace

TEST_CASE("no label, note, unit or decimal point of another language stands on the sample's sheets") {
  std::string text = on_one_line(copied_text(bytes_of(german().file("traveller.pdf"))));
  for (const FigureInfo& figure : figure_infos()) {
    if (words_in(figure.label) < 3) continue;
    CAPTURE(figure.label);
    CHECK(text.find(figure.label) == std::string::npos);
  }
  for (const std::span<const KeyedText> list : {std::span<const KeyedText>{term_list}, {origin_list}}) {
    for (const KeyedText& of_working : list) {
      if (words_in(of_working.english) < 3 || is_same_in_german(of_working.english)) continue;
      CAPTURE(of_working.english);
      CHECK(text.find(of_working.english) == std::string::npos);
    }
  }
  for (const char* english :
       {" shop)", " register)", "standard value", "common practice", "from memory", "(above)"}) {
    CAPTURE(english);
    CHECK(text.find(english) == std::string::npos);
  }
  for (const NoteFacts& note : note_list) {
    if (words_in(note.before) < 3) continue;
    CAPTURE(note.before);
    CHECK(text.find(note.before) == std::string::npos);
  }
  for (const char* shown : {"Länge des Griffs", "wahre Temperatur der Luft", "dann entscheiden zwei Wägungen",
                            "2500 U/min", " mm auf 100 mm"}) {
    CAPTURE(shown);
    CHECK(text.find(shown) != std::string::npos);
  }
  for (const char* english : {"2500 rpm", " mm per 100 mm", "not known"}) {
    CAPTURE(english);
    CHECK(text.find(english) == std::string::npos);
  }
  // A letter before it makes it a name: ASME B1.1.
  const std::regex point{R"re((^|[^A-Za-z0-9.])[0-9]+\.[0-9]+[^.0-9])re"};
  for (auto found = std::sregex_iterator{text.begin(), text.end(), point}; found != std::sregex_iterator{}; ++found) {
    FAIL_CHECK(text.substr(static_cast<std::size_t>(std::max<std::ptrdiff_t>(found->position() - 60, 0)), 130));
  }
}

TEST_CASE("the second language has every term of the working and where it comes from") {
  const std::string own = bytes_of(BLANKWRIGHT_SOURCE_DIR "/sample-jobs/german/sheets.toml");
  for (const std::span<const KeyedText> list : {std::span<const KeyedText>{term_list}, {origin_list}}) {
    for (const KeyedText& of_working : list) {
      CAPTURE(of_working.key);
      if (is_same_in_german(of_working.english)) continue;
      CHECK(own.find("\n" + std::string{of_working.key} + " = \"") != std::string::npos);
    }
  }
}

TEST_CASE("a source that nothing has is refused with the nearest one") {
  SampleJobs jobs;
  put_bytes(jobs / "german/sheets.toml",
            replaced(bytes_of(jobs / "german/sheets.toml"), "\"geometry\" =", "\"geometri\" ="));
  const auto run = run_program({"compile", "--out", jobs.out(), jobs / "german/awl.toml"});
  CHECK(run.exit == Exit::mistakes);
  CHECK(run.errors.find("error: unknown key `geometri` [unknown-key]") != std::string::npos);
  CHECK(run.errors.find("hint: did you mean `\"geometry\"`?") != std::string::npos);
}

TEST_CASE("the words of a template change nothing in the plan") {
  CHECK(plan_of_sample(true) == plan_of_sample(false));
}

TEST_CASE("a label under the path of no figure is refused with the nearest path") {
  SampleJobs jobs;
  put_bytes(jobs / "german/sheets.toml",
            replaced(bytes_of(jobs / "german/sheets.toml"), "\"bore.depth_mm\" =", "\"bore.dept_mm\" ="));
  const auto run = run_program({"compile", "--out", jobs.out(), jobs / "german/awl.toml"});
  CHECK(run.exit == Exit::mistakes);
  CHECK(run.errors.find("error: unknown key `bore.dept_mm` [unknown-key]") != std::string::npos);
  CHECK(run.errors.find("hint: did you mean `\"bore.depth_mm\"`?") != std::string::npos);
}

TEST_CASE("codes of the sample lead to the address of its register, on labels of its own size") {
  const std::string tags = bytes_of(german().file("tags.pdf"));
  const auto ids = ids_of(german().file("plan.json"));
  const Picture picture = printed(tags, 1, 300);
  std::vector<std::string> expected;
  for (std::size_t n = 0; n < std::min<std::size_t>(ids.size(), 12); ++n) {  // two by six labels a sheet
    expected.push_back("https://werkstatt.example/r#" + ids.at(n));
    const double column = static_cast<double>(n % 2), row = static_cast<double>(n / 2);
    const Picture label =
        picture.part({(9 + 97 * column) * mm, (11.5 + 46 * row) * mm, 95 * mm, 44 * mm});  // its own figures
    CHECK(read_by_zxing(label) == std::vector{expected.back()});
    CHECK(read_by_zbar(label) == std::vector{expected.back()});
  }
  const auto links =
      run_tool("qpdf --qdf --object-streams=disable " + shell_quoted(german().file("tags.pdf")) + " -");
  for (const std::string& address : expected) {
    CAPTURE(address);
    CHECK(links.out.find("/URI (" + address + ")") != std::string::npos);
  }
}

TEST_CASE("a job may name a template of its own, from its own folder") {
  SampleJobs jobs;
  std::filesystem::copy(jobs / "german/sheets.toml", jobs / "metric/other.toml");
  std::filesystem::copy(jobs / "german/logo.png", jobs / "metric/logo.png");
  put_bytes(jobs / "metric/burnisher.toml",
            replaced(bytes_of(jobs / "metric/burnisher.toml"), "client =", "template = \"other.toml\"\nclient ="));
  const auto run = run_program({"compile", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
  REQUIRE(run.exit == Exit::done);
  CHECK(copied_text(bytes_of(jobs.out() + "/TA-0147/traveller.pdf")).find("Drechslerblatt") != std::string::npos);

  put_bytes(jobs / "metric/burnisher.toml",
            replaced(bytes_of(jobs / "metric/burnisher.toml"), "other.toml", "nowhere.toml"));
  for (const char* command : {"check", "compile"}) {
    const auto missing = run_program({command, jobs / "metric/burnisher.toml"});
    CHECK(missing.exit == Exit::mistakes);
    CHECK(missing.errors.find("[template-missing]") != std::string::npos);
  }
}

TEST_CASE("a picture that changed makes the sheets anew, and one that is missing or none is told by its key") {
  SampleJobs jobs;
  const TemporaryFolder folder;
  const std::string other_picture = folder / "other.png";
  // As another program writes one.
  REQUIRE(run_tool("pdftoppm -png -r 20 -singlefile " + shell_quoted(german().file("tags.pdf")) + " " +
                   shell_quoted(folder / "other"))
              .status == 0);
  const std::vector<std::string> compile{"compile", "--at",     "2027-05-03 8:00",
                                         "--out",   jobs.out(), jobs / "german/awl.toml"};
  REQUIRE(run_program(compile, 1809345600).exit == Exit::done);
  const std::string first = bytes_of(jobs.out() + "/HG-58/traveller.pdf");
  REQUIRE(run_program(compile, 1809345600 + 3600).exit == Exit::done);
  CHECK((bytes_of(jobs.out() + "/HG-58/traveller.pdf") == first));  // nothing changed
  std::filesystem::copy_file(other_picture, jobs / "german/logo.png",
                             std::filesystem::copy_options::overwrite_existing);
  REQUIRE(run_program(compile, 1809345600 + 7200).exit == Exit::done);
  CHECK((bytes_of(jobs.out() + "/HG-58/traveller.pdf") != first));
  put_bytes(jobs / "german/logo.png", "no picture");
  const auto bad = run_program(compile);
  CHECK(bad.exit == Exit::mistakes);
  CHECK(bad.errors.find("[picture-unreadable]") != std::string::npos);
  CHECK(bad.errors.find("file = \"logo.png\"") != std::string::npos);
  std::filesystem::remove(jobs / "german/logo.png");
  CHECK(run_program(compile).errors.find("[picture-unreadable]") != std::string::npos);
}

TEST_CASE("tags go onto the free places of a used sheet") {
  SampleJobs jobs;
  const auto run = run_program(
      {"compile", "--used-places", "1-19", "--only", "tags", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
  REQUIRE(run.exit == Exit::done);
  const std::string file = jobs.out() + "/TA-0147/tags.pdf";
  CHECK(pages_of(file) == 2);  // 3 x 7 labels: two on the first sheet
  CHECK(read_by_zxing(printed(bytes_of(file), 1, 300)).size() == 2);

  const auto whole = run_program({"compile", "--used-places", "1-21", jobs / "metric/burnisher.toml"});
  CHECK(whole.exit == Exit::mistakes);
  CHECK(whole.errors.find("no place is left") != std::string::npos);
  const auto wrong = run_program({"compile", "--used-places", "first", jobs / "metric/burnisher.toml"});
  CHECK(wrong.exit == Exit::command_line);
  const auto two =
      run_program({"compile", "--used-places", "1", jobs / "inch/knob.toml", jobs / "inch/file-handle.toml"});
  CHECK(two.exit == Exit::command_line);
}

TEST_CASE("each page is a picture too where that is asked for") {
  SampleJobs jobs;
  const auto run = run_program({"compile", "--pictures", "60", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
  REQUIRE(run.exit == Exit::done);
  CHECK(run.out.find("pictures of the pages") != std::string::npos);
  const std::string folder = jobs.out() + "/TA-0147/";
  for (const std::string document : {"traveller", "tags"}) {
    const std::size_t pages = pages_of(folder + document + ".pdf");
    for (std::size_t n = 1; n <= pages; ++n) {
      CAPTURE(n);
      const std::string name = fmt::format("{}{}-{:02}.png", folder, document, n);
      REQUIRE(std::filesystem::exists(name));
      // 210 by 297 mm at 60 dots an inch.
      const std::string png = bytes_of(name);
      CHECK(png.substr(16, 8) == std::string{"\0\0\1\361\0\0\2\276", 8});  // 497 by 702: no dot of the paper is lost
    }
    CHECK_FALSE(std::filesystem::exists(fmt::format("{}{}-{:02}.png", folder, document, pages + 1)));
  }
}

TEST_CASE("the outlines of the shop's labels are printed to hold against a sheet of them") {
  SampleJobs jobs;
  const auto run = run_program({"proof", "--shop", jobs / "german/shop.toml", "--out", jobs / "proof.pdf"});
  REQUIRE(run.exit == Exit::done);
  CHECK(run.out.find("12 labels of \"eigene 2x6, 95x44\"") != std::string::npos);
  const std::string text = copied_text(bytes_of(jobs / "proof.pdf"));
  CHECK(text.find("Auf einfaches Papier") != std::string::npos);
  CHECK(text.find("12") != std::string::npos);
}
