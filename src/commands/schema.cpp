#include <ostream>

#include "commands/commands.h"
#include "read/entry_csv.h"
#include "write/schema_json.h"

namespace blankwright {

Exit schema(const SchemaFlags& flags, Surroundings& around) {
  const auto keys = flags.file == "job"     ? job_key_infos()
                    : flags.file == "shop"  ? shop_key_infos()
                    : flags.file == "entry" ? entry_key_infos()
                                            : template_key_infos();
  around.out << (flags.table
                     ? key_table(keys)
                     : schema_json("Blankwright " + flags.file + (flags.file == "entry" ? "" : " file"), keys));
  return Exit::done;
}

}  // namespace blankwright
