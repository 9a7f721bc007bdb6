#include "commands/compile_steps.h"
#include "commands/workers.h"
#include "diagnose/says_run.h"
#include "sheet/tag/label.h"

namespace blankwright {

ReadJob read_job(const Files& disk, const std::string& file) {
  ReadJob job{file, {}, {}, {}, {}, {}};
  job.source = read_source(disk, file, job.said);
  if (job.source != nullptr) job.order = read_order(job.source, job.said);
  return job;
}

std::vector<ReadJob> read_jobs(const Files& disk, const std::vector<std::string>& files, const ShopInputs* inputs,
                               ReadFor outputs, int threads) {
  std::vector<ReadJob> jobs(files.size());
  run_on_threads(threads, files.size(), [&](std::size_t i) {
    ReadJob job = read_job(disk, files.at(i));
    if (job.source == nullptr && i + 1 < files.size() && disk.exists(files.at(i) + " " + files.at(i + 1)))
      job.said.hint_last(says::one_name_in_quotes, files.at(i) + " " + files.at(i + 1));
    if (inputs != nullptr && job.order && job.order->sheet_template) {
      auto own = read_named_template(disk, *job.order->sheet_template, job.source->name, job.said_of_sheets);
      if (own && outputs == ReadFor::tags) say_near_edge(own->sheets, inputs->shop.printer, job.said_of_sheets);
      if (own) job.own_sheets = std::make_unique<const NamedTemplate>(std::move(*own));
    }
    jobs.at(i) = std::move(job);
  });
  return jobs;
}

std::vector<std::string> ids_of(const std::vector<ReadJob>& jobs) {
  std::vector<std::string> ids;
  for (const ReadJob& job : jobs) {
    if (job.order) ids.push_back(job.order->id.value);
  }
  return ids;
}

const Template& sheets_of(const ReadJob& job, const ShopInputs& inputs) {
  return job.own_sheets ? job.own_sheets->sheets : inputs.sheet_template;
}

CompileInputs inputs_of(const ReadRun& read, std::size_t job) {
  const ReadJob& from = read.jobs.at(job);
  return {from.source->text, read.inputs.shop.source->text,
          from.own_sheets ? from.own_sheets->text : read.inputs.template_text, read.program};
}

}  // namespace blankwright
