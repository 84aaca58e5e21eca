#include <algorithm>
#include <map>
#include <string>

#include "yard/insight/maturity.hpp"
#include "yard/insight/readiness.hpp"

/// What laboratory values say.
namespace stillheap::insight {
namespace {

/// The last value of the heap for a key, whatever its unit.
const LabValue* last_of_heap(std::span<const LabValue> tests, std::string_view key) {
  const LabValue* last = nullptr;
  for (const LabValue& test : tests) {
    if (test.of_lot || test.key != key) continue;
    if (last == nullptr || test.time_s >= last->time_s) last = &test;
  }
  return last;
}

std::string name_of(Standard standard) {
  switch (standard) {
    case Standard::metals:
      return "metals";
    case Standard::pathogens:
      return "pathogens";
    case Standard::specification:
      return "specification";
    case Standard::european_germs:
      return "european-germs";
  }
  return "";
}

Phrase sampled(const LabValue& test, const std::string& words) { return {words, ", sampled ", moment(test.time_s)}; }

void judge_limits(std::span<const LabValue> tests, std::vector<Statement>& statements) {
  for (const QualityLimit& limit : quality_limits()) {
    const LabValue* test = last_of_heap(tests, limit.key);
    if (test == nullptr) continue;
    Statement statement;
    statement.id = "test-" + name_of(limit.standard);
    statement.source = std::string(limit.source);
    statement.time_s = test->time_s;
    const std::string key(limit.key);
    if (test->unit != limit.unit) {
      statement.weight = Severity::due;
      statement.text = {"The laboratory value of " + key + " is in another unit than the standard's: not judged."};
      statement.reading = {key + " ", number(test->value), " " + test->unit + ", sampled ", moment(test->time_s)};
      statement.rule = {"the standard counts in " + std::string(limit.unit.empty() ? "no unit" : limit.unit)};
      statement.next = "Ask the laboratory for the value in that unit and note it again.";
    } else {
      const Finding finding = check_quality(limit.standard, {{key, test->value}}).front();
      statement.weight = finding.pass ? Severity::note : Severity::warning;
      statement.text = {finding.pass ? "Passes: " + key + "." : "Does not pass: " + key + "."};
      statement.reading = sampled(*test, finding.words);
      Phrase rule;
      if (limit.low) append(rule, {"at least ", number(*limit.low)});
      if (limit.low && limit.high) rule.emplace_back(", ");
      if (limit.high) append(rule, {limit.high_allowed ? "at most " : "less than ", number(*limit.high)});
      rule.emplace_back(limit.unit.empty() ? "" : " " + std::string(limit.unit));
      statement.rule = std::move(rule);
      if (!finding.pass) statement.next = "Do not spread it before a second sample and a word with your adviser.";
    }
    statements.push_back(std::move(statement));
  }
}

/// The rule's own verdict beside ours, where both tests were made and they do not agree.
void judge_germs_together(std::span<const LabValue> tests, std::vector<Statement>& statements) {
  std::map<std::string, double> values;
  double time_s = 0.0;
  for (const QualityLimit& limit : quality_limits()) {
    const LabValue* test = limit.standard == Standard::pathogens ? last_of_heap(tests, limit.key) : nullptr;
    if (test == nullptr || test->unit != limit.unit) continue;
    values[test->key] = test->value;
    time_s = std::max(time_s, test->time_s);
  }
  const std::vector<Finding> findings = check_quality(Standard::pathogens, values);
  if (findings.size() < 2 || none_failed(findings) || !passes(Standard::pathogens, findings)) return;
  Statement statement;
  statement.id = "test-pathogens";
  statement.weight = Severity::warning;
  statement.text = {
      "Met by the rule's own words, since one passing test suffices there. By ours it is not ready: a test for germs "
      "failed."};
  for (const Finding& finding : findings) {
    append(statement.reading, {statement.reading.empty() ? "" : "; ", finding.words});
  }
  statement.rule = {"the rule: fecal coliform or salmonella below its limit; ours: no test above its limit"};
  statement.source = "40 CFR 503.32(a), written for sewage sludge: a yardstick here, no permit; ours: chosen";
  statement.next = "Count the compost as raw until a second sample passes both.";
  statement.caution =
      "Germs: gloves, washed hands, and the intervals before harvest for raw manure (7 CFR 205.203(c)(1)) or whatever "
      "the "
      "local rule asks.";
  statement.time_s = time_s;
  statements.push_back(std::move(statement));
}

std::vector<Statement> judge_tests_of_limits(std::span<const LabValue> tests) {
  std::vector<Statement> statements;
  judge_limits(tests, statements);
  judge_germs_together(tests, statements);
  return statements;
}

}  // namespace

std::vector<Statement> judge_tests(std::span<const LabValue> tests) {
  std::vector<Statement> statements = judge_tests_of_limits(tests);
  if (const LabValue* test = last_of_heap(tests, "self_heating_rise"); test != nullptr && test->unit == "K") {
    const SelfHeatingClass found = self_heating_class(test->value);
    statements.push_back(
        {"test-self-heating",
         Severity::note,
         {"Stability class " + std::string(found.numeral) + " by self-heating: " + std::string(found.words) + "."},
         {"self-heating ", kelvin(test->value), ", sampled ", moment(test->time_s)},
         {"classes I to V at ", kelvin(40.0), ", ", kelvin(30.0), ", ", kelvin(20.0), " and ", kelvin(10.0),
          " over the room"},
         "TMECC 05.08-D; Brinton et al. 1995 (not yet checked against the text)",
         "",
         "",
         test->time_s});
  }
  if (const LabValue* test = last_of_heap(tests, "germination_index"); test != nullptr && test->unit == "%") {
    statements.push_back(
        {"test-germination",
         test->value < 50.0 ? Severity::warning : Severity::note,
         {"Germination: " + std::string(germination_words(test->value)) + "."},
         {"germination index ", number(test->value), " %, sampled ", moment(test->time_s)},
         {"harm below 50 %; 70 % passes; 80 % is mature"},
         "NY/T 525-2021 (70 %); 50 and 80 %: common in the literature (not yet checked against a text)",
         "",
         "",
         test->time_s});
  }
  return statements;
}

std::optional<Statement> salt_change(std::span<const LabValue> tests) {
  const LabValue* before = nullptr;
  const LabValue* after = nullptr;
  for (const LabValue& test : tests) {
    if (test.key != "conductivity") continue;
    // The heap's own first test tells more of what went in than a lot's.
    const bool better = before == nullptr || (before->of_lot && !test.of_lot) ||
                        (before->of_lot == test.of_lot && test.time_s < before->time_s);
    if (better) before = &test;
    if (!test.of_lot && (after == nullptr || test.time_s > after->time_s)) after = &test;
  }
  // One test of the heap alone is the after; then a lot's is the before.
  if (before == after && after != nullptr) {
    before = nullptr;
    for (const LabValue& test : tests) {
      if (test.key == "conductivity" && test.of_lot && (before == nullptr || test.time_s < before->time_s)) {
        before = &test;
      }
    }
  }
  if (before == nullptr || after == nullptr) return std::nullopt;
  Statement statement;
  statement.id = "salt-change";
  statement.time_s = after->time_s;
  statement.rule = {
      "conductivity before against after, same unit and method; salt grows dense as solids are lost and "
      "thin as water drains"};
  statement.source = "a comparison, no limit; the limit of 10 dS/m is that of the specification (docs/rules.md)";
  statement.reading = {before->of_lot ? "feedstock " : "heap ",
                       number(before->value),
                       " " + before->unit + ", sampled ",
                       moment(before->time_s),
                       "; heap ",
                       number(after->value),
                       " " + after->unit + ", sampled ",
                       moment(after->time_s)};
  if (before->unit != after->unit || before->method != after->method || before->value <= 0.0) {
    statement.text = {"Salt before and after cannot be compared: unit or method differ."};
    statement.next = "Have both tested the same way (a 1:5 extract and a saturated paste differ several times over).";
    return statement;
  }
  const double ratio = after->value / before->value;
  statement.text = {ratio > 1.0 ? "The heap has become saltier: " : "The heap has become less salty: ", share(ratio),
                    " of the conductivity it began with."};
  if (ratio > 1.0) {
    statement.next =
        "Test before seedlings or pots; thin with soil, or leach with clean water where the ground allows.";
  }
  return statement;
}

}  // namespace stillheap::insight
