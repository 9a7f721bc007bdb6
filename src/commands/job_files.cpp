#include "commands/job_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <map>

#include "entries/open_orders.h"
#include "read/document.h"
#include "read/order.h"
#include "register/register.h"

namespace blankwright {
namespace {

/// What the TOML files of a folder are.
struct FilesOfFolder {
  std::multimap<std::string, std::string> jobs;  ///< by the ids of their orders
  std::vector<std::string> unread;               ///< what may be a job, and names no id that can be read
};

FilesOfFolder files_in(const Files& disk, const std::string& folder) {
  FilesOfFolder out;
  for (const std::string& name : disk.files_in(folder)) {
    if (!name.ends_with(".toml")) continue;
    const std::string path = (std::filesystem::path{folder} / name).lexically_normal().string();
    Diagnostics ignored;  // what is wrong with a job is told when it is compiled
    const Source source = read_source(disk, path, ignored);
    const auto document = source == nullptr ? std::nullopt : read_document(source, ignored);
    const auto id = document ? order_id_in(source) : std::nullopt;
    if (id) {
      out.jobs.emplace(*id, path);
    } else if (!document || std::ranges::find(document->members, "handle", &Member::key) != document->members.end()) {
      out.unread.push_back(path);
    }
  }
  return out;
}

std::string jobs_folder(const std::string& shop_file, const Shop& shop) {
  const std::string beside = folder_of(shop_file);
  return shop.jobs ? (std::filesystem::path{beside} / shop.jobs->value).lexically_normal().string() : beside;
}

}  // namespace

std::string job_file_of(const Files& disk, const std::string& shop_file, const Shop& shop, const std::string& order) {
  const std::string folder = jobs_folder(shop_file, shop);
  const auto jobs = files_in(disk, folder).jobs;
  const auto found = jobs.find(order);
  return found != jobs.end() ? found->second : fmt::format("{}/{}.toml", folder, order);
}

OpenJobs open_jobs(const Files& disk, const std::string& shop_file, const ShopInputs& inputs,
                   const RegisterPlace& register_place) {
  const std::string folder = jobs_folder(shop_file, inputs.shop);
  OpenJobs out;
  auto [jobs, unread] = files_in(disk, folder);
  auto known = Register::open_to_read(register_place);
  const auto open = known ? open_orders(known->known_blanks(), known->quantities()) : std::set<std::string>{};
  for (const std::string& id : open) {
    const auto [first, end] = jobs.equal_range(id);
    if (first == end)
      out.told.push_back(fmt::format("order {} is open, and no job file in {}{} has its id", id, folder,
                                     unread.empty() ? "" : " that can be read"));
    for (auto job = first; job != end; ++job) out.files.push_back(job->second);
  }
  std::ranges::move(unread, std::back_inserter(out.files));
  for (const auto& [id, file] : jobs) {
    if (known && known->has_order(id)) continue;
    out.told.push_back(fmt::format("{}: order {} was never compiled; name it to give its blanks IDs", file, id));
  }
  return out;
}

}  // namespace blankwright
