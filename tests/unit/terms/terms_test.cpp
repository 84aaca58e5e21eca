#include <gtest/gtest.h>

#include <filesystem>
#include <regex>
#include <set>
#include <sstream>

#include "../planning/site/support.hpp"
#include "domain/rules/cautions.hpp"
#include "domain/rules/hygiene.hpp"
#include "planning/site/key.hpp"
#include "yard/insight/alerts.hpp"
#include "yard/insight/phase.hpp"
#include "yard/insight/phrase.hpp"
#include "yard/insight/readiness.hpp"
#include "yard/record/export.hpp"
#include "yard/record/measure.hpp"

/// docs/terms.md lists every word that the program shows or takes.
namespace stillheap {
namespace {

namespace fs = std::filesystem;
using Terms = std::set<std::string>;

std::string text_of(const std::string& path) {
  const std::string text = site::test::read_text(fs::path(STILLHEAP_SOURCE_DIR) / path);
  EXPECT_FALSE(text.empty()) << path;
  return text;
}

/// All that stands in backticks in the first column of the tables.
Terms listed() {
  Terms terms;
  std::istringstream lines(text_of("docs/terms.md"));
  const std::regex term("`([^`]+)`");
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("| `")) continue;
    const std::string cell = line.substr(0, line.find(" |", 2));
    for (std::sregex_iterator at(cell.begin(), cell.end(), term), end; at != end; ++at) terms.insert((*at)[1]);
  }
  return terms;
}

/// Every first group of a pattern in the files of a folder.
Terms found_in(const std::string& folder, const std::string& ending, const std::string& pattern) {
  Terms found;
  const std::regex wanted(pattern);
  for (const auto& one : fs::recursive_directory_iterator(fs::path(STILLHEAP_SOURCE_DIR) / folder)) {
    if (!one.path().filename().string().ends_with(ending)) continue;
    const std::string text = site::test::read_text(one.path());
    for (std::sregex_iterator at(text.begin(), text.end(), wanted), end; at != end; ++at) found.insert((*at)[1]);
  }
  return found;
}

void expect_listed(const Terms& shown, const std::string& what) {
  static const Terms terms = listed();
  EXPECT_FALSE(shown.empty()) << "no " << what << " found: this test looks in the wrong place";
  for (const std::string& one : shown) {
    const std::string term = one.substr(0, one.find_last_not_of(' ') + 1);  // a number may follow in the program
    EXPECT_EQ(terms.count(term), 1U) << what << " \"" << term << "\" is not listed";
  }
}

template <class Enum>
Terms names(int count) {
  Terms all;
  for (int i = 0; i < count; ++i) all.emplace(name_of(static_cast<Enum>(i)));
  return all;
}

TEST(Terms, ListEveryCommand) {
  const std::string manual = site::test::run_app("reference --man").text;
  Terms commands;
  const std::regex head("\n\\.Ss ([a-z ]+)");
  for (std::sregex_iterator at(manual.begin(), manual.end(), head), end; at != end; ++at) commands.insert((*at)[1]);
  EXPECT_GE(commands.size(), 20U);
  expect_listed(commands, "command");
}

TEST(Terms, ListEveryTableOfTheSiteFile) {
  Terms sections;
  for (const site::SectionKey& one : site::sections()) sections.emplace(one.path);
  expect_listed(sections, "table");
}

TEST(Terms, ListPhasesWeightsAnswersAndPlacesOfCautions) {
  using namespace insight;
  expect_listed(names<Phase>(static_cast<int>(Phase::curing) + 1), "phase");
  expect_listed(names<Severity>(static_cast<int>(Severity::danger) + 1), "weight");
  expect_listed(names<Answer>(static_cast<int>(Answer::yes) + 1), "answer");
  expect_listed(names<rules::WorkPlace>(static_cast<int>(rules::WorkPlace::spreading) + 1), "place of a caution");
}

TEST(Terms, ListAlertsAndHygieneRules) {
  Terms ids;
  for (const insight::AlertRule& rule : insight::alert_rules()) ids.emplace(rule.id);
  for (const rules::Verdict& verdict : rules::judge_all({}, {})) ids.emplace(verdict.rule_id);
  for (const rules::HoldRule& rule : rules::hold_rules()) ids.emplace(rule.id);
  expect_listed(ids, "rule");
}

TEST(Terms, ListWhatIsNoted) {
  Terms words;
  for (const std::string& kind : record::exported_kinds()) words.insert(kind);
  for (const record::MeasureInfo& one : record::measures()) words.emplace(one.key);
  for (const record::EventInfo& one : record::event_kinds()) words.emplace(one.key);
  expect_listed(words, "kind of entry");
}

TEST(Terms, ListEveryRole) {
  // Roles are words of an enumeration where there are any.
  const Terms bodies = found_in("src", ".hpp", "enum class Role \\{([^}]*)\\}");
  const std::regex word("\\b([a-z_]+)\\b(?=[^/\n]*(,|$))");
  for (const std::string& body : bodies) {
    Terms roles;
    for (std::sregex_iterator at(body.begin(), body.end(), word), end; at != end; ++at) roles.insert((*at)[1]);
    expect_listed(roles, "role");
  }
}

TEST(Terms, ListSheets) { expect_listed(found_in("src/present/sheet", ".cpp", "start_sheet\\(\"([^\"]+)\""), "sheet"); }

TEST(Terms, ListSectionsLinksAndHeadingsOfThePage) {
  Terms sections;
  for (const auto& one : fs::directory_iterator(fs::path(STILLHEAP_SOURCE_DIR) / "web/src")) {
    if (one.is_directory()) sections.insert(one.path().filename().string());
  }
  expect_listed(sections, "section of the page");
  // Words of the page stand in one file a language (a test of the page sees to it); members that begin with "link" and
  // "head" are these.
  expect_listed(found_in("web/src/words", "en.ts", "\\blink[A-Z]\\w*: \"([^\"]+)\""), "link of the page");
  expect_listed(found_in("web/src/words", "en.ts", "\\bhead[A-Z]\\w*:\\s+\"([^\"]+)\""), "heading of the page");
}

}  // namespace
}  // namespace stillheap
