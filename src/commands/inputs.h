#pragma once

#include <optional>
#include <string>

#include "commands/surroundings.h"
#include "read/order.h"
#include "read/shop.h"
#include "read/template.h"
#include "register/register_place.h"

namespace blankwright {

/// Reads a file that the user named; one that cannot be read is a diagnostic.
Source read_source(const Files& disk, const std::string& path, Diagnostics& out);

/// The template that comes with the program: every word, every label sheet.
const Template& standard_template();

/// A template as a shop or a job names it.
struct NamedTemplate {
  Template sheets;
  std::string text;  ///< for the register: of the file and what it names; empty for the standard one
};
/// "a4", "letter", or a file from the folder of the file that names it, with its pictures.
std::optional<NamedTemplate> read_named_template(const Files& disk, const Given<std::string>& named,
                                                 const std::string& named_in, Diagnostics& out);
/// The same from a text that was kept; its pictures are read anew, and have to be those of then.
std::optional<NamedTemplate> read_kept_template(const Files& disk, const Given<std::string>& named,
                                                const std::string& named_in, const std::string& kept,
                                                Diagnostics& out);

/// The shop and the template that it names.
struct ShopInputs {
  Shop shop;
  Template sheet_template;
  std::string template_text;  ///< as NamedTemplate's
};
std::optional<ShopInputs> read_shop_inputs(const Files& disk, const std::string& path, Diagnostics& out);
/// A shop file's text that was kept, with a template's that was kept beside it; none where the template was another
/// one.
std::optional<ShopInputs> read_kept_shop(const Files& disk, const Source& source,
                                         const std::optional<std::string>& template_text, Diagnostics& out);

/// `--shop` as given, or shop.toml beside the job.
std::string shop_path(const std::string& given, const std::string& first_job);

/// Where the shop's register stands: as its file names it, or beside that: "shop.toml" has "shop.register".
RegisterPlace place_of_register(const Shop& shop, const std::string& shop_file);

/// "Blankwright 0.1.0".
std::string program_version();

}  // namespace blankwright
