#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "write/register_page.h"

namespace blankwright {

/// A part of the register's page, as it stands in the sources: "page.css".
std::string page_part(const std::string& name);

/// Two orders with a blank each: one that goes on, and one on HOLD whose order is late; in a client's name, an item
/// and a remark what would be markup.
RegisterPage register_of_two();

std::string page_text(const RegisterPage& page);

/// What a page is looked at on.
struct Screen {
  int width = 1280;
  bool dark = false;
};

/// What a browser that is on the page says to `script`, the body of an async function in which
/// `at` finds an element by its id and `later` waits for what an event brings. The page lies in a frame, which may be
/// narrower than any window of the browser.
nlohmann::json in_browser(std::string html, const std::string& hash, const std::string& script, Screen screen = {});

/// What stands on paper when a browser prints the page.
std::string printed_text(const std::string& html);

}  // namespace blankwright
