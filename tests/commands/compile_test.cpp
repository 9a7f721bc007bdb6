#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "child_process.h"
#include "program.h"
#include "register/register.h"

using namespace blankwright;

TEST_CASE("compiling a sample gives all its files, and says where") {
  for (const Sample& sample : samples()) {
    CAPTURE(sample.job);
    const SampleJobs jobs;
    const auto run = run_program({"compile", "--out", jobs.out(), jobs / sample.job});
    CHECK(run.exit == Exit::done);
    CHECK(run.out.find(jobs.out() + "/" + sample.id) != std::string::npos);
    for (const char* file : {"traveller.pdf", "tags.pdf", "plan.json", "schedule.ics", "blanks.csv"}) {
      CAPTURE(file);
      CHECK(std::filesystem::file_size(jobs.out() + "/" + sample.id + "/" + file) > 500);
    }
  }
}

TEST_CASE("a later compile keeps the IDs, and from the same moment the same inputs give the same bytes") {
  const SampleJobs jobs;
  const auto compiled = [&](std::int64_t now) {
    REQUIRE(run_program({"compile", "--at", "2027-05-03 8:00", "--out", jobs.out(), jobs / "metric/burnisher.toml"},
                        now)
                .exit == Exit::done);
    return bytes_of(jobs.out() + "/TA-0147/tags.pdf") + bytes_of(jobs.out() + "/TA-0147/traveller.pdf") +
           bytes_of(jobs.out() + "/TA-0147/plan.json");
  };
  const std::string first = compiled(1809345600);
  CHECK(compiled(1809345600 + 5 * 24 * 3600) == first);
}

TEST_CASE("when more pieces are ordered the blanks keep their IDs and some are added") {
  const SampleJobs jobs;
  const std::string job = jobs / "metric/burnisher.toml";
  const std::string file = jobs / "metric/shop.register";
  REQUIRE(run_program({"compile", "--out", jobs.out(), job}).exit == Exit::done);
  const auto before = Register::open_to_read(file)->issued_to("TA-0147");
  std::string text = bytes_of(job);
  text.replace(text.find("quantity = 6"), 12, "quantity = 9");
  put_bytes(job, text);
  REQUIRE(run_program({"compile", "--out", jobs.out(), job}).exit == Exit::done);
  const auto after = Register::open_to_read(file)->issued_to("TA-0147");
  REQUIRE(after.size() > before.size());
  // The last one is the witness, and stays one: further pieces come before it.
  CHECK(std::equal(before.begin(), before.end() - 1, after.begin()));
  CHECK(std::ranges::find(after, before.back()) >=
        after.end() - Register::open_to_read(file)->witnesses_of("TA-0147"));
  const auto plan = nlohmann::json::parse(bytes_of(jobs.out() + "/TA-0147/plan.json"));
  CHECK(plan["blanks"].size() == after.size());
  CHECK(plan["blanks"][0]["id"] == before.front().shown());
}

TEST_CASE("a draft issues nothing, touches no register and prints DRAFT on every sheet") {
  const SampleJobs jobs;
  REQUIRE(run_program({"compile", "--draft", "--out", jobs.out(), jobs / "metric/burnisher.toml"}).exit ==
          Exit::done);
  CHECK_FALSE(std::filesystem::exists(jobs / "metric/shop.register"));
  for (const char* file : {"traveller.pdf", "tags.pdf"}) {
    const std::string text = copied_text(bytes_of(jobs.out() + "/TA-0147/" + file));
    std::size_t pages = 0;
    std::size_t from = 0;
    for (std::size_t end = text.find('\f'); end != std::string::npos; end = text.find('\f', from)) {
      CAPTURE(file);
      CAPTURE(pages);
      const std::string page = text.substr(from, end - from);
      const bool empty = page.find_first_not_of(" \n\r\t") == std::string::npos;  // what is behind a card
      CHECK((empty || page.find("DRAFT") != std::string::npos));
      from = end + 1;
      ++pages;
    }
    CHECK(pages >= 1);
  }
}

TEST_CASE("after a mistake in one job the others are still compiled") {
  const SampleJobs jobs;
  put_bytes(jobs / "inch/wrong.toml", "format = 1\nid = \"W-1\"\nquantity = \"many\"\n");
  const auto run = run_program({"compile", "--out", jobs.out(), jobs / "inch/wrong.toml", jobs / "inch/knob.toml"});
  CHECK(run.exit == Exit::mistakes);
  CHECK(run.errors.find("[wrong-type]") != std::string::npos);
  CHECK(std::filesystem::exists(jobs.out() + "/CC-2026.2/tags.pdf"));
  CHECK_FALSE(std::filesystem::exists(jobs.out() + "/W-1"));
}

TEST_CASE("the same bytes come out in another folder, zone and locale, on one thread and on two") {
  const auto compiled = [](const std::string& environment, const char* threads) {
    const SampleJobs jobs;
    const auto run =
        run_tool("cd " + shell_quoted(jobs / "..") + " && env " + environment + " " +
                 shell_quoted(BLANKWRIGHT_PROGRAM) + " compile --week --at 2027-05-03T08:00:00-05:00 --threads " +
                 threads + " --out o jobs/inch/file-handle.toml jobs/inch/knob.toml");
    REQUIRE(run.status == 0);
    std::string all;
    for (const char* id : {"CC-2026.1", "CC-2026.2"}) {
      for (const char* file : {"traveller.pdf", "tags.pdf", "plan.json", "schedule.ics", "blanks.csv"}) {
        all += bytes_of(jobs / ("../o/" + std::string{id} + "/" + file));
      }
    }
    all += bytes_of(jobs / "../o/week.pdf") + bytes_of(jobs / "../o/shop.ics");
    return all;
  };
  const std::string first = compiled("TZ=UTC LC_ALL=C", "1");
  REQUIRE(first.size() > 20000);
  CHECK(compiled("TZ=Asia/Tokyo LC_ALL=de_DE.UTF-8", "2") == first);
}

TEST_CASE("two compiles at once wait for each other, and no blank is issued twice") {
  const SampleJobs jobs;
  const auto child = [&](const char* job, const std::string& out) {
    return start_child([&, job, out] {
      const auto run = run_tool(shell_quoted(BLANKWRIGHT_PROGRAM) + " compile --quiet --out " + shell_quoted(out) +
                                " " + shell_quoted(jobs / job));
      return run.status;
    });
  };
  const auto a = child("inch/file-handle.toml", jobs.out() + "/a");
  const auto b = child("inch/knob.toml", jobs.out() + "/b");
  CHECK(end_of(a) == 0);
  CHECK(end_of(b) == 0);
  auto kept = Register::open_to_read(jobs / "inch/shop.register");
  std::vector<BlankId> all = kept->issued_to("CC-2026.1");
  for (const BlankId& id : kept->issued_to("CC-2026.2")) all.push_back(id);
  std::sort(all.begin(), all.end());
  CHECK(std::adjacent_find(all.begin(), all.end()) == all.end());
  CHECK(all.size() >= 32);
}

TEST_CASE("a full disk ends in status 3, one line and no half file") {
  // A draft fails at its traveller, which is the larger file; a compile already at the register.
  for (const bool draft : {true, false}) {
    CAPTURE(draft);
    const SampleJobs jobs;
    std::filesystem::create_directories(jobs.out());
    const int status = in_child([&] {
      limit_file_size(20000);
      std::vector<std::string> arguments{"compile", "--quiet", "--out", jobs.out(), jobs / "metric/burnisher.toml"};
      if (draft) arguments.push_back("--draft");
      const auto run = run_program(arguments);
      const auto line = run.errors.rfind('\n', run.errors.size() - 2) + 1;  // the last one
      return run.exit == Exit::world && run.errors.substr(line).starts_with("blankwright: ") ? 3 : 98;
    });
    CHECK(status == 3);
    for (const auto& entry : std::filesystem::recursive_directory_iterator{jobs.out()}) {
      CHECK_FALSE(entry.is_regular_file());
    }
  }
}

TEST_CASE("an id that the register has for another client's other item is refused and nothing is overwritten") {
  const SampleJobs jobs;
  REQUIRE(run_program({"compile", "--out", jobs.out(), jobs / "inch/knob.toml"}).exit == Exit::done);
  const std::string before = bytes_of(jobs.out() + "/CC-2026.2/plan.json");
  std::string text = bytes_of(jobs / "inch/file-handle.toml");
  text.replace(text.find("CC-2026.1"), 9, "CC-2026.2");
  put_bytes(jobs / "inch/other.toml", text);
  const auto run = run_program({"compile", "--out", jobs.out(), jobs / "inch/other.toml"});
  CHECK(run.exit == Exit::mistakes);
  CHECK(run.errors.find("[order-in-register-differs]") != std::string::npos);
  CHECK(bytes_of(jobs.out() + "/CC-2026.2/plan.json") == before);
}

TEST_CASE("a draft of an order that has blanks shows none of them") {
  const SampleJobs jobs;
  REQUIRE(run_program({"compile", "--out", jobs.out(), jobs / "inch/knob.toml"}).exit == Exit::done);
  REQUIRE(run_program({"compile", "--draft", "--out", jobs.out(), jobs / "inch/knob.toml"}).exit == Exit::done);
  const auto plan = nlohmann::json::parse(bytes_of(jobs.out() + "/CC-2026.2/plan.json"));
  CHECK(plan["draft"] == true);
  CHECK(plan["blanks"].empty());
}

TEST_CASE("two orders of one id in a run are both refused") {
  const SampleJobs jobs;
  const auto run = run_program({"compile", "--out", jobs.out(), jobs / "inch/knob.toml", jobs / "inch/knob.toml"});
  CHECK(run.exit == Exit::mistakes);
  CHECK(run.errors.find("[same-order-id]") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(jobs.out() + "/CC-2026.2"));
}

TEST_CASE("what cannot be written to is told, standard output too") {
  const SampleJobs jobs;
  const auto run = run_tool(shell_quoted(BLANKWRIGHT_PROGRAM) + " explain " + shell_quoted(jobs / "inch/knob.toml") +
                            " 2>&1 >/dev/full");
  CHECK(run.status == 3);
}

TEST_CASE("a job that this user may not read is a diagnostic, not a crash") {
  const SampleJobs jobs;
  const std::string job = jobs / "metric/burnisher.toml";
  std::filesystem::permissions(job, std::filesystem::perms::none);
  const int status = in_child([&] {
    become_ordinary_user();
    const auto run = run_program({"check", job});
    return run.exit == Exit::mistakes && run.errors.find("[file-unreadable]") != std::string::npos ? 0 : 98;
  });
  CHECK(status == 0);
}

TEST_CASE("a folder in place of a job, and a register that is none, are told plainly") {
  const SampleJobs jobs;
  const auto folder = run_program({"check", "--shop", jobs / "metric/shop.toml", jobs / "metric"});
  CHECK(folder.exit == Exit::mistakes);
  CHECK(folder.errors.find("is a folder") != std::string::npos);
  put_bytes(jobs / "metric/shop.register", "a list of groceries\n");
  const auto foreign = run_program({"compile", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
  CHECK(foreign.exit == Exit::world);
  CHECK(bytes_of(jobs / "metric/shop.register") == "a list of groceries\n");
}
