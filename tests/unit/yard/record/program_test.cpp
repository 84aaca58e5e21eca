#include <gtest/gtest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "yard.hpp"
#include "yard/record/ident.hpp"

namespace stillheap::record {
namespace {

using nlohmann::json;

struct Outcome {
  int code = -1;
  std::string text;  ///< standard output and error
};

/// A yard on disk and the built program to run on it.
class Program {
 public:
  Program() { (void)run("init '" + yard() + "'"); }
  [[nodiscard]] std::string yard() const { return (folder_.path() / "yard").string(); }
  [[nodiscard]] const test::Folder& folder() const { return folder_; }

  [[nodiscard]] Outcome run(const std::string& arguments) const {
    const std::filesystem::path app = std::filesystem::canonical("/proc/self/exe").parent_path() / "stillheap";
    const std::string command = "STILLHEAP_BY= '" + app.string() + "' " + arguments + " 2>&1";
    std::FILE* pipe = popen(command.c_str(), "r");
    Outcome outcome;
    if (pipe == nullptr) return outcome;
    std::array<char, 4096> buffer{};
    for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
      outcome.text.append(buffer.data(), n);
    }
    const int status = pclose(pipe);
    outcome.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return outcome;
  }
  /// record KIND on the yard.
  [[nodiscard]] Outcome note(const std::string& kind, const std::string& rest) const {
    return run("record " + kind + " '" + yard() + "' --by ab --zone Europe/Paris " + rest);
  }
  void fill() const {
    ASSERT_EQ(note("vessel", "--name 'North 1'").code, 0);
    const Outcome filled = note("fill", "--vessel 'North 1' --batch 2026-1 --at 2025-03-02T09:00 --volume '1.1 m3'");
    ASSERT_EQ(filled.code, 0) << filled.text;
  }

 private:
  test::Folder folder_;
};

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(RecordProgram, KeepsACopyOfTheDayThatCanBePutBack) {
  const Program program;
  program.fill();  // the vessel makes the store, the fill is the first entry into one that is there
  const std::filesystem::path copies = program.yard() + "/site.backups";
  const auto count = [](const std::filesystem::path& folder) {
    std::size_t found = 0;
    for (const auto& one : std::filesystem::directory_iterator(folder)) found += one.path().extension() == ".sqlite";
    return found;
  };
  ASSERT_EQ(count(copies), 1U);
  ASSERT_EQ(program.note("reading", "--fill 2026-1 --at 2025-03-05T09:00 --place core --temperature '60 degC'").code,
            0);
  EXPECT_EQ(count(copies), 1U) << "one a day";
  const Outcome back = program.run("restore '" + program.yard() + "' --sure");
  EXPECT_EQ(back.code, 0) << back.text;
  EXPECT_TRUE(contains(program.run("status '" + program.yard() + "'").text, "North 1"));
}

TEST(RecordProgram, LosesNothingByRestoringTwiceAtOnceAndAsksBeforeACopyWithLess) {
  const Program program;
  ASSERT_EQ(program.note("vessel", "--name A --no-backup").code, 0);
  const std::string copy = program.yard() + "/a.sqlite";
  ASSERT_EQ(program.run("export '" + program.yard() + "' --backup '" + copy + "'").code, 0);
  ASSERT_EQ(program.note("vessel", "--name B --no-backup").code, 0);
  const Outcome asked = program.run("restore '" + program.yard() + "' --from '" + copy + "'");
  EXPECT_EQ(asked.code, 2);
  EXPECT_TRUE(contains(asked.text, "holds less")) << asked.text;
  EXPECT_TRUE(contains(program.run("status '" + program.yard() + "'").text, "B")) << "nothing was touched";
  const std::string go = "restore '" + program.yard() + "' --sure --from '" + copy + "'";
  ASSERT_EQ(program.run(go).code, 0);
  ASSERT_EQ(program.run(go).code, 0);
  std::size_t aside = 0;
  for (const auto& one : std::filesystem::directory_iterator(program.yard()))
    aside += contains(one.path().filename().string(), ".before-");
  EXPECT_EQ(aside, 2U);
}

TEST(RecordProgram, TakesNoPlanOfAnotherYard) {
  const Program program;
  ASSERT_EQ(program.note("vessel", "--name 'North 1' --no-backup").code, 0);
  const auto plan = program.folder().write(
      "plan.json", R"({"calendar":[{"vessel":"crib","date":"2026-05-01","latest_date":"","what":"Fill 9 pails"}]})");
  const std::string take = "import '" + program.yard() + "' '" + plan.string() + "' --plan --by ab";
  const Outcome asked = program.run(take);
  EXPECT_EQ(asked.code, 2) << asked.text;
  EXPECT_TRUE(contains(asked.text, "\"crib\", which is not in this yard")) << asked.text;
  EXPECT_EQ(program.run(take + " --sure").code, 0);
}

TEST(RecordProgram, KeepsNoCopyWhenToldAndStoresWhenItCannot) {
  const Program program;
  ASSERT_EQ(program.note("vessel", "--name 'North 1'").code, 0);
  ASSERT_EQ(program.note("vessel", "--name 'North 2' --no-backup").code, 0);
  EXPECT_FALSE(std::filesystem::exists(program.yard() + "/site.backups"));
  const Outcome stored = program.note("vessel", "--name 'North 3' --backup-folder /dev/null/none");
  EXPECT_EQ(stored.code, 0) << stored.text;
  EXPECT_TRUE(contains(stored.text, "no copy of today was made: ")) << stored.text;
  EXPECT_TRUE(contains(stored.text, "stored vessel")) << stored.text;
}

TEST(RecordProgram, NotesAReadingInAnyUnitAndShowsIt) {
  const Program program;
  program.fill();
  const Outcome noted = program.note(
      "reading", "--vessel 'North 1' --temperature '131 degF' --place core --depth '18 in' --at 2025-03-05T08:00");
  EXPECT_EQ(noted.code, 0) << noted.text;
  EXPECT_TRUE(contains(noted.text, "55 degC, core, 457 mm deep")) << noted.text;
  const Outcome status = program.run("status '" + program.yard() + "' --json");
  const json seen = json::parse(status.text);
  const json& reading = seen.at("vessels").at(0).at("fill").at("last_readings").at(0);
  EXPECT_EQ(reading.at("value"), 55.0) << "without the noise of the conversion";
  EXPECT_EQ(reading.at("at"), "2025-03-05T07:00:00Z");
}

TEST(RecordProgram, StoresAnIdOnce) {
  const Program program;
  program.fill();
  const std::string same = "--fill 2026-1 --temperature '50 degC' --at 2025-03-05T08:00 --id " + new_id() + " --json";
  EXPECT_EQ(json::parse(program.note("reading", same).text).at("outcome"), "stored");
  EXPECT_EQ(json::parse(program.note("reading", same).text).at("outcome"), "known");
}

TEST(RecordProgram, CorrectsWithdrawsAndTellsTheHistory) {
  const Program program;
  program.fill();
  const std::string rest = "--fill 2026-1 --place core --at 2025-03-05T08:00 --json --temperature ";
  const std::string id = json::parse(program.note("reading", rest + "'77 degC'").text).at("id");
  EXPECT_EQ(program.note("reading", rest + "'55 degC' --corrects " + id).code, 2) << "needs a reason";
  EXPECT_EQ(program.note("reading", rest + "'55 degC' --corrects " + id + " --why misread").code, 0);
  EXPECT_EQ(program.note("withdraw", id + " --why 'wrong heap'").code, 0);
  const json told = json::parse(program.run("record history '" + program.yard() + "' " + id + " --json").text);
  ASSERT_EQ(told.size(), 3U);
  EXPECT_EQ(told[0].at("content").at("value"), "77");
  EXPECT_EQ(told[1].at("reason"), "misread");
  EXPECT_EQ(told[2].at("withdrawn"), true);
}

TEST(RecordProgram, AsksBackBeforeAFillIsTakenBackWithItsReadings) {
  const Program program;
  program.fill();
  EXPECT_EQ(program.note("reading", "--fill 2026-1 --temperature '55 degC' --at 2026-03-05T09:00").code, 0);
  const auto fills = [&] { return Store::open(store_path(program.yard() + "/site.toml"), false); };
  const std::string id = all<Fill>(fills()).front().mark.id;
  const Outcome asked = program.note("withdraw", id + " --why double");
  EXPECT_EQ(asked.code, 2);
  EXPECT_TRUE(contains(asked.text, "1 reading")) << asked.text;
  EXPECT_EQ(all<Fill>(fills()).size(), 1U) << "nothing was stored";
  EXPECT_EQ(program.note("withdraw", id + " --why double --sure").code, 0);
  EXPECT_TRUE(all<Fill>(fills()).empty());
}

TEST(RecordProgram, EndsWithTwoAndSaysWhatIsWrong) {
  const Program program;
  EXPECT_EQ(program.run("status '" + program.yard() + "'").code, 2) << "no records yet";
  program.fill();
  const auto wrong = [&](const std::string& kind, const std::string& rest, const std::string& words) {
    const Outcome outcome = program.note(kind, rest);
    EXPECT_EQ(outcome.code, 2) << outcome.text;
    EXPECT_TRUE(contains(outcome.text, words)) << outcome.text;
  };
  wrong("reading", "--vessel 'North 1'", "names no value");
  wrong("reading", "--vessel 'South' --temperature '55 degC'", "there are: North 1");
  wrong("reading", "--fill 2026-9 --temperature '55 degC'", "there are: 2026-1");
  wrong("reading", "--fill 2026-1 --temperature '55'", "--temperature");
  wrong("reading", "--fill 2026-1 --temperature '550 degC'", "-45 degC to 110 degC (-49 degF to 230 degF)");
  wrong("event", "--fill 2026-1 --kind danced", "use one of forms_out");
  wrong("event", "--fill 2026-1 --kind covered --at yesterday", "is no time");
  wrong("withdraw", new_id() + " --why x", "is not in the records");
  wrong("photo", "--fill 2026-1 '" + program.yard() + "/site.toml'", "is no picture");
  EXPECT_EQ(program.run("record vessel '" + program.yard() + "' --name x").code, 2) << "nobody notes it";
  EXPECT_EQ(program.run("record vessel nowhere --name x --by ab").code, 2);
}

TEST(RecordProgram, NamesTheOptionOfATimeAndNotTheStoresField) {
  const Program program;
  program.fill();
  const Outcome early = program.note("reading", "--fill 2026-1 --temperature '54 C' --at 2001-01-01T09:00");
  EXPECT_EQ(early.code, 2);
  EXPECT_TRUE(contains(early.text, "--at")) << early.text;
  EXPECT_FALSE(contains(early.text, "at_s")) << early.text;
  EXPECT_FALSE(contains(early.text, "unit")) << "54 C is a temperature: " << early.text;
}

TEST(RecordProgram, EndsWithTwoWhenAnImportHoldsNothingGood) {
  const Program program;
  program.fill();
  const std::string file = program.folder().write("bad.csv", "time,t\n2001-01-01T09:00,55\n,\n2001-01-01T10:00,\n");
  const std::string rest = "import '" + program.yard() + "' '" + file +
                           "' --source x --fill 2026-1 --by ab --time time " + "--probe t=temperature,degC,place:core";
  for (const char* const how : {" --preview", " --take-good", ""}) {
    const Outcome outcome = program.run(rest + how);
    EXPECT_EQ(outcome.code, 2) << how << outcome.text;
    EXPECT_FALSE(contains(outcome.text, " 1 rows")) << outcome.text;
  }
}

TEST(RecordProgram, TakesEveryKind) {
  const Program program;
  program.fill();
  const auto png = program.folder().write("a.png", std::string("\x89PNG\r\n\x1A\n", 8) + "pixels");
  for (const auto& [kind, rest] : std::vector<std::pair<std::string, std::string>>{
           {"person", "--initials ab --name 'Ada Brook'"},
           {"lot", "--name m12 --mass '800 kg' --at 2025-02-20"},
           {"use", "--fill 2026-1 --lot m12 --mass '300 kg'"},
           {"event", "--fill 2026-1 --kind sprinkled --volume '40 L' --duration '3 min' --at 2025-03-03T08:00"},
           {"lab", "--fill 2026-1 --key arsenic --value 3.2 --unit 'mg/kg dry' --at 2025-03-20"},
           {"lab", "--lot m12 --key nitrogen --value 21 --unit 'g/kg dry' --at 2025-02-21 --sure"},
           {"spreading", "--fill 2026-1 --where orchard --area '80 m2' --sure"},
           {"photo", "--fill 2026-1 '" + png.string() + "' --note top"}}) {
    const Outcome outcome = program.note(kind, rest);
    EXPECT_EQ(outcome.code, 0) << kind << outcome.text;
    EXPECT_TRUE(contains(outcome.text, "stored ")) << outcome.text;
  }
  EXPECT_EQ(program.run("status '" + program.yard() + "' --check").code, 0);
}

TEST(ImportProgram, ShowsAPreviewAndTakesAllOrNothing) {
  const Program program;
  program.fill();
  const auto csv = program.folder().write("log.csv", "Time,T1\n2025-03-05 08:00,55\n2025-03-05 09:00,oops\n");
  const std::string import =
      "import '" + program.yard() + "' '" + csv.string() + "' --by ab --source p7 --vessel 'North 1' --json";
  const std::string mapping = " --time Time --logger-zone +01:00 --probe 'T1=temperature,degC,place:core'";
  EXPECT_EQ(program.run(import).code, 2) << "no mapping known yet";
  const Outcome preview = program.run(import + mapping + " --preview");
  EXPECT_EQ(preview.code, 0) << preview.text;
  const json seen = json::parse(preview.text);
  EXPECT_EQ(seen.at("good"), 1);
  EXPECT_EQ(seen.at("refused").at(0).at("line"), 3);
  EXPECT_EQ(seen.at("done"), false);
  EXPECT_EQ(program.run(import + mapping).code, 2) << "a refused cell stops all";
  EXPECT_EQ(json::parse(program.run(import + mapping + " --take-good").text).at("stored"), 1);
  EXPECT_EQ(json::parse(program.run(import + " --take-good").text).at("known"), 1) << "the mapping is kept";
}

TEST(ImportProgram, TakesInAPlansDaysOnce) {
  const Program program;
  const auto plan = program.folder().write(
      "plan.json", R"({"calendar": [{"date": "2025-07-01", "latest_date": "2025-07-09", "vessel": "ring",
      "what": "put the worms in"}]})");
  const std::string import = "import '" + program.yard() + "' '" + plan.string() + "' --plan --json --by ";
  EXPECT_EQ(json::parse(program.run(import + "ab").text).at("stored"), 1);
  EXPECT_EQ(json::parse(program.run(import + "cd").text).at("stored"), 0);
  const Outcome due = program.run("today '" + program.yard() + "' --at 2025-07-02T08:00");
  EXPECT_TRUE(contains(due.text, "ring: put the worms in (planned for 2025-07-01 to 2025-07-09)")) << due.text;
}

TEST(ExportProgram, WritesFilesBatchRecordAndBackup) {
  const Program program;
  program.fill();
  ASSERT_EQ(program.note("reading", "--fill 2026-1 --temperature '55 degC' --at 2025-03-05T08:00").code, 0);
  const std::filesystem::path out = program.folder().path() / "out";
  const std::filesystem::path copy = program.folder().path() / "copy.sqlite";
  const std::string export_command = "export '" + program.yard() + "' ";
  EXPECT_EQ(program.run(export_command).code, 2);
  EXPECT_EQ(program.run(export_command + "-o '" + out.string() + "' --backup '" + copy.string() + "'").code, 0);
  for (const char* name : {"readings.csv", "fills.csv", "records.json", "due.ics"}) {
    EXPECT_TRUE(std::filesystem::exists(out / name)) << name;
  }
  EXPECT_TRUE(find_damage(Store::open(copy, false)).empty());
  EXPECT_EQ(program.run(export_command + "--backup '" + copy.string() + "'").code, 2) << "never overwritten";
  for (const char* name : {"one", "two"}) {
    const Outcome outcome =
        program.run(export_command + "--batch 2026-1 -o '" + (program.folder().path() / name).string() + "'");
    EXPECT_EQ(outcome.code, 0) << outcome.text;
  }
  const std::string pdf = test::read_text(program.folder().path() / "one" / "batch.pdf");
  EXPECT_TRUE(pdf.starts_with("%PDF"));
  EXPECT_EQ(pdf, test::read_text(program.folder().path() / "two" / "batch.pdf")) << "same records, same bytes";
  const std::string hash = sha256_hex(test::read_text(program.folder().path() / "one" / "batch.json"));
  const std::string text_of =
      "pdftotext '" + (program.folder().path() / "one" / "batch.pdf").string() + "' - | grep -q " + hash;
  EXPECT_EQ(std::system(text_of.c_str()), 0) << "the hash of the data stands on the sheet";
}

TEST(RecordDocs, RunAsTheyStand) {
  const std::string text = test::read_text(std::string(STILLHEAP_SOURCE_DIR) + "/docs/records.md");
  std::string script = "set -e\n";
  for (std::size_t at = text.find("```sh\n"); at != std::string::npos; at = text.find("```sh\n", at)) {
    at += 6;
    script += text.substr(at, text.find("```", at) - at);
  }
  const test::Folder folder;
  const std::string bin = std::filesystem::canonical("/proc/self/exe").parent_path().string();
  const std::string command = "cd '" + folder.path().string() + "' && PATH='" + bin + "':$PATH sh '" +
                              folder.write("docs.sh", script).string() + "' > log.txt 2>&1";
  EXPECT_EQ(std::system(command.c_str()), 0) << test::read_text(folder.path() / "log.txt");
  EXPECT_TRUE(std::filesystem::exists(folder.path() / "yard-copy.sqlite"));
  EXPECT_TRUE(std::filesystem::exists(folder.path() / "batch" / "batch.pdf"));
  const Store store = Store::open(folder.path() / "yard" / "site.records.sqlite", false);
  EXPECT_EQ(all<Reading>(store).size(), 3U) << "one by hand, two of the logger, one withdrawn";
}

TEST(RecordProgram, ACorrectionKeepsTheTimeAndPlaceAndAmountsThatItDoesNotName) {
  const Program program;
  program.fill();
  const std::string fill = "--fill 2026-1 ";
  const Outcome noted = program.note(
      "reading", fill + "--at 2025-03-05T09:00 --place core --depth '0.5 m' --temperature '67 degF' --json");
  ASSERT_EQ(noted.code, 0) << noted.text;
  const std::string id = json::parse(noted.text).at("id");
  const Outcome mended =
      program.note("reading", fill + "--temperature '67 degC' --corrects " + id + " --why 'other unit'");
  ASSERT_EQ(mended.code, 0) << mended.text;
  EXPECT_TRUE(contains(mended.text, "core, 500 mm deep")) << mended.text;
  EXPECT_TRUE(contains(mended.text, "2025-03-05T09:00")) << mended.text;
  const json status = json::parse(program.run("status '" + program.yard() + "' --json").text);
  const std::string fill_id = status.at("vessels").at(0).at("fill").at("id");
  const Outcome wetter = program.note(
      "fill", "--vessel 'North 1' --batch 2026-1 --moisture '66 %' --corrects " + fill_id + " --why squeezed");
  ASSERT_EQ(wetter.code, 0) << wetter.text;
  EXPECT_TRUE(contains(wetter.text, "2025-03-02T09:00")) << wetter.text;
  const std::string out = (program.folder().path() / "out").string();
  ASSERT_EQ(program.run("export '" + program.yard() + "' -o '" + out + "'").code, 0);
  const std::string fills = test::read_text(out + "/fill.csv") + test::read_text(out + "/fills.csv");
  EXPECT_TRUE(contains(fills, "1.1")) << "the volume is still there\n" << fills;
}

}  // namespace
}  // namespace stillheap::record
