#include "page_in_browser.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "../temporary_folder.h"
#include "paper.h"

namespace blankwright {
namespace {

std::string output_of(const std::string& command) { return run_tool(command).out; }

std::string escaped_attribute(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '&' ? std::string{"&amp;"} : c == '"' ? "&quot;" : std::string{c};
  return out;
}

}  // namespace

std::string page_part(const std::string& name) {
  return bytes_of(std::string{BLANKWRIGHT_SOURCE_DIR} + "/templates/register-page/" + name);
}

RegisterPage register_of_two() {
  RegisterPage page{"Workshop & <Sons>", "2027-05-03 14:00", "17", {{"in the bath", 1}, {"wet", 1}}, {}, {}};
  page.orders = {
      {"A-1", "O'Brien & </script><script>document.title='taken'</script>", "awl \"handle\"", "2027-06-18", "", 6},
      {"B-2", "Łucja Ωmega", "knob", "2027-05-01", "2 d 5 h", 0}};
  PageBlank first{"K7T-4X54", "A-1", "in the bath", "bath B1", {{"Bath", "B1"}}, {}, {}};
  first.gates = {{"dry", "dry", PageAnswer::pass}, {"bath", "not released yet", PageAnswer::pass}};
  first.history = {{"2027-05-03 09:00", "weighed", "mass 131.0 g", "Ada", true},
                   {"2027-05-03 09:05", "weighed", "remark <img src=x onerror=document.title='taken'>", "", false}};
  PageBlank held{"NG7-32GX", "B-2", "wet", "shop", {}, {}, {}};
  held.gates = {{"resin", "HOLD: soak again", PageAnswer::hold}, {"witness", "not cut yet", PageAnswer::wait}};
  page.blanks = {first, held};
  return page;
}

std::string page_text(const RegisterPage& page) {
  const std::string html = page_part("page.html"), css = page_part("page.css"), js = page_part("page.js");
  return register_page(page, {html, css, js});
}

nlohmann::json in_browser(std::string html, const std::string& hash, const std::string& script, Screen screen) {
  const TemporaryFolder folder;
  html.insert(html.rfind("</body>"),
              "<script>addEventListener('load', async () => {\nconst at = (id) => document.getElementById(id);\n"
              "const later = () => new Promise((done) => setTimeout(done, 30));\n"
              "const answer = await (async () => {" +
                  script +
                  "})();\nparent.postMessage(encodeURIComponent(JSON.stringify(answer)), '*');\n});</script>\n");
  put_bytes(folder / "page.html", html);
  put_bytes(
      folder / "frame.html",
      fmt::format(
          "<!doctype html><meta charset=\"utf-8\"><pre id=\"answer\"></pre><script>"
          "addEventListener('message', (event) => {{ document.getElementById('answer').textContent = "
          "event.data; }});</script><iframe style=\"border: 0\" width=\"{}\" height=\"844\" src=\"page.html{}\">"
          "</iframe>",
          screen.width, escaped_attribute(hash)));
  const std::string shown = output_of(
      "timeout 120 chromium --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --user-data-dir='" +
      folder.path() + "/profile' --blink-settings=preferredColorScheme=" + (screen.dark ? "0" : "1") +
      " --virtual-time-budget=5000 --dump-dom 'file://" + (folder / "frame.html") + "' 2>/dev/null");
  const std::string mark = "<pre id=\"answer\">";
  const std::size_t from = shown.find(mark);
  REQUIRE_MESSAGE(from != std::string::npos, shown.substr(0, 500));
  const std::size_t begin = from + mark.size();
  REQUIRE_MESSAGE(shown.at(begin) != '<', "the page said nothing");
  std::string text;
  for (std::size_t k = begin; shown.at(k) != '<'; ++k) {
    if (shown.at(k) == '%') {
      text += static_cast<char>(std::stoi(shown.substr(k + 1, 2), nullptr, 16));
      k += 2;
    } else {
      text += shown.at(k);
    }
  }
  return nlohmann::json::parse(text);
}

std::string printed_text(const std::string& html) {
  const TemporaryFolder folder;
  put_bytes(folder / "page.html", html);
  const std::string pdf = folder / "page.pdf";
  output_of("timeout 120 chromium --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --user-data-dir='" +
            folder.path() + "/profile' --print-to-pdf='" + pdf + "' 'file://" + (folder / "page.html") +
            "' 2>/dev/null");
  return output_of("pdftotext -layout '" + pdf + "' -");
}

}  // namespace blankwright
