#include "yard/record/csv_import.hpp"

#include <gtest/gtest.h>

#include "core/base/error.hpp"
#include "yard.hpp"

namespace stillheap::record {
namespace {

using test::contains;
using test::refusals;
using test::Yard;

CsvMapping one_probe(const std::string& spec = "T1=temperature,degC,place:core,depth:18 in") {
  CsvMapping mapping;
  mapping.time = "time";
  mapping.zone = "Europe/Paris";
  mapping.probes.push_back(parse_probe(spec, "probe"));
  return mapping;
}

CsvPreview preview(const Yard& yard, const std::string& text, const std::optional<CsvMapping>& mapping,
                   const std::string& source = "logger") {
  return preview_csv(yard.store,
                     {yard.folder.write("logger.csv", text), source, mapping, yard.fill_id, test::by("ab")});
}

TEST(Import, PutsInWhatThePreviewShowed) {
  Yard yard;
  const CsvPreview seen = preview(yard, "time,T1\n2025-03-05 08:00,54.5\n2025-03-05 09:00,55.25\n", one_probe());
  EXPECT_TRUE(all<Reading>(yard.store).empty()) << "a preview stores nothing";
  EXPECT_EQ(seen.rows, 2U);
  EXPECT_EQ(refusals(seen), "");
  EXPECT_EQ(import_csv(yard.store, seen), 2U);
  const auto stored = all<Reading>(yard.store);
  ASSERT_EQ(stored.size(), 2U);
  EXPECT_EQ(stored[0].value, 54.5);
  EXPECT_EQ(to_utc_text(stored[0].at), "2025-03-05T07:00:00Z");
  EXPECT_EQ(stored[0].place.name, "core");
  EXPECT_NEAR(stored[0].place.depth_m.value(), 0.4572, 1e-12);
  EXPECT_EQ(stored[0].source, "logger");
}

TEST(Import, ShowsRefusedCellsAsATerminalMay) {
  Yard yard;
  const std::string text = "time,T1\n2025-03-05 08:00,\x1b[2J\xff\n2025-03-05 09:00," + std::string(5000, '4') + "\n";
  const CsvPreview seen = preview(yard, text, one_probe());
  ASSERT_EQ(seen.refused.size(), 2U);
  EXPECT_EQ(seen.refused[0].value, "\\x1b[2J\\xff");
  EXPECT_LT(seen.refused[1].value.size(), 250U);
}

TEST(Import, RefusesAColumnThatStandsTwice) {
  Yard yard;
  EXPECT_THROW((void)preview(yard, "time,T1,T1\n2025-03-05 08:00,54.5,20\n", one_probe()), InputError);
  EXPECT_EQ(preview(yard, "time,T1,x,x\n2025-03-05 08:00,54.5,1,2\n", one_probe()).readings.size(), 1U);
}

TEST(Import, KeepsTheMappingUnderTheLoggersName) {
  Yard yard;
  (void)import_csv(yard.store, preview(yard, "time,T1\n2025-03-05 08:00,54.5\n", one_probe()));
  const CsvPreview again = preview(yard, "time,T1\n2025-03-06 08:00,50\n", std::nullopt);
  EXPECT_EQ(again.mapping, one_probe());
  EXPECT_EQ(again.readings.size(), 1U);
  EXPECT_THROW((void)preview(yard, "time,T1\n", std::nullopt, "another"), InputError);
  CsvMapping changed = one_probe();
  changed.decimal_comma = true;
  (void)import_csv(yard.store, preview(yard, "time,T1\n2025-03-06 08:00,50\n", changed));
  EXPECT_TRUE(kept_mapping(yard.store, "logger")->decimal_comma);
  EXPECT_EQ(history<CsvSource>(yard.store, all<CsvSource>(yard.store).front().mark.id).size(), 2U);
}

TEST(Import, ReadsFahrenheitPatternsDecimalCommasAndNotesAbove) {
  Yard yard;
  CsvMapping mapping = one_probe("Probe 1 (°F)=temperature,degF,place:core");
  mapping.probes.push_back(parse_probe("Wet=moisture,%,place:core", "probe"));
  mapping.date = "Datum";
  mapping.time = "Zeit";
  mapping.pattern = "%d.%m.%Y %H:%M";
  mapping.decimal_comma = true;
  mapping.header_line = 3;
  const CsvPreview seen = preview(yard,
                                  "Serial;77\n\nDatum;Zeit;Probe 1 (°F);Wet\n"
                                  "05.03.2025;08:00;131,0;61,5\n05.03.2025;09:00;---;\n",
                                  mapping);
  EXPECT_EQ(refusals(seen), "");
  EXPECT_EQ(seen.nothing, 2U);
  ASSERT_EQ(seen.readings.size(), 2U);
  EXPECT_NEAR(seen.readings[0].value, 55.0, 1e-12);
  EXPECT_NEAR(seen.readings[1].value, 0.615, 1e-12);
}

TEST(Import, ReadsOneReadingARow) {
  Yard yard;
  CsvMapping mapping = one_probe("value=temperature,degC,place:core,probe:A");
  mapping.probes.push_back(parse_probe("value=temperature,degC,place:wall,probe:B", "probe"));
  mapping.probe_column = "who";
  const CsvPreview seen =
      preview(yard, "time,who,value\n2025-03-05 08:00,A,54\n2025-03-05 08:00,B,44\n2025-03-05 08:00,C,4\n", mapping);
  ASSERT_EQ(seen.readings.size(), 2U);
  EXPECT_EQ(seen.readings[1].place.name, "wall");
}

TEST(Import, NamesLineColumnAndValueOfWhatItRefuses) {
  Yard yard;
  const CsvPreview seen = preview(yard,
                                  "time,T1\n"
                                  "2025-03-05 08:00,54.5\n"
                                  "31/03/2026,54.5\n"
                                  "2025-03-05 09:00,hot\n"
                                  "2025-03-05 10:00,850\n"
                                  "2025-03-05 11:00,\"55\n"
                                  "2025-03-05 12:00,\"54,5\"\n"
                                  "2025-03-30 02:30,50\n"
                                  "2025-01-01 08:00,50\n"
                                  "2126-01-01 08:00,50\n",
                                  one_probe());
  const std::string why = refusals(seen);
  EXPECT_EQ(seen.readings.size(), 1U);
  EXPECT_EQ(seen.refused.size(), 8U) << why;
  EXPECT_TRUE(contains(why, "3|time|31/03/2026|is no time as 2026-05-03 14:05\n")) << why;
  EXPECT_TRUE(contains(why, "4|T1|hot|is no number\n")) << why;
  EXPECT_TRUE(contains(why, "5|T1|850|cannot be: -45 degC to 110 degC (-49 degF to 230 degF) can\n")) << why;
  EXPECT_TRUE(contains(why, "6||2025-03-05 11:00,\"55|has quotes that do not close\n")) << why;
  EXPECT_TRUE(contains(why, "7|T1|54,5|is no number; are its decimals set off by a comma?\n")) << why;
  EXPECT_TRUE(contains(why, "8|time|2025-03-30 02:30|does not exist in Europe/Paris")) << why;
  EXPECT_TRUE(contains(why, "9|time|2025-01-01 08:00|is before batch 2026-1 was filled")) << why;
  EXPECT_TRUE(contains(why, "10|time|2126-01-01 08:00|is still to come")) << why;
}

TEST(Import, RefusesTimesAfterTheHarvest) {
  Yard yard;
  (void)add(yard.store, test::event(yard.fill_id, EventKind::harvested, "2025-03-20T08:00Z"));
  const CsvPreview seen = preview(yard, "time,T1\n2025-03-19 08:00,30\n2025-03-21 08:00,20\n", one_probe());
  EXPECT_EQ(seen.readings.size(), 1U);
  EXPECT_TRUE(contains(refusals(seen), "3|time|2025-03-21 08:00|is after batch 2026-1 was taken out"));
}

TEST(Import, PassesOverWhatIsKnownAndRefusesSecondValues) {
  Yard yard;
  const std::string text = "time,T1\n2025-03-05 08:00,54.5\n2025-03-05 09:00,55\n";
  (void)import_csv(yard.store, preview(yard, text, one_probe()));
  const CsvPreview again = preview(yard, text + "2025-03-05 10:00,56\n", std::nullopt);
  EXPECT_EQ(again.known, 2U);
  EXPECT_EQ(again.readings.size(), 1U);
  EXPECT_EQ(refusals(again), "");
  EXPECT_EQ(import_csv(yard.store, again), 1U);
  const CsvPreview other = preview(yard,
                                   "time,T1\n2025-03-05 08:00,60\n2025-03-07 08:00,1\n2025-03-07 08:00,2\n"
                                   "2025-03-07 08:00,1\n",
                                   std::nullopt);
  EXPECT_EQ(refusals(other),
            "2|T1|60|the records hold 54.5 degC for this place and time; correct that reading if it is wrong\n"
            "4|T1|2|line 3 gives 1 degC for this place and time\n"
            "5|T1|1|line 3 gives the same for this place and time\n");
}

TEST(Import, FollowsTheHourThatComesTwice) {
  Yard yard;
  Fill old = test::fill(add(yard.store, test::vessel("old")).id, "2024-9", "2024-10-01T08:00Z");
  const std::string old_fill = add(yard.store, old).id;
  const std::string up =
      "time,T1\n2024-10-27 01:30,1\n2024-10-27 02:00,2\n2024-10-27 02:30,3\n2024-10-27 02:00,4\n"
      "2024-10-27 02:30,5\n2024-10-27 03:00,6\n";
  const std::string down =
      "time,T1\n2024-10-27 03:00,6\n2024-10-27 02:30,5\n2024-10-27 02:00,4\n2024-10-27 02:30,3\n"
      "2024-10-27 02:00,2\n2024-10-27 01:30,1\n";
  const std::string hourly =
      "time,T1\n2024-10-27 01:00,1\n2024-10-27 02:00,2\n2024-10-27 02:00,3\n2024-10-27 03:00,4\n";
  for (const auto& [text, step_min] : {std::pair{up, 30}, {down, 30}, {hourly, 60}}) {
    const CsvPreview seen = preview_csv(
        yard.store, {yard.folder.write("logger.csv", text), "logger", one_probe(), old_fill, test::by("ab")});
    EXPECT_EQ(refusals(seen), "");
    EXPECT_EQ(seen.notes.size(), 1U);
    for (std::size_t i = 1; i < seen.readings.size(); ++i) {
      EXPECT_EQ(seen.readings[i].at - seen.readings[i - 1].at, std::chrono::minutes{step_min}) << text << i;
      EXPECT_GT(seen.readings[i].value, seen.readings[i - 1].value);
    }
  }
}

TEST(Import, SaysWhatIsWrongWithTheFileAsAWhole) {
  Yard yard;
  const auto complaint = [&](const std::string& text, const CsvMapping& mapping) {
    try {
      (void)preview(yard, text, mapping);
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string("nothing");
  };
  EXPECT_TRUE(contains(complaint("when,T1\n", one_probe()), "has no column \"time\"; it has \"when\", \"T1\""));
  EXPECT_TRUE(contains(complaint("", one_probe()), "ends before its header line"));
  EXPECT_TRUE(contains(complaint("time,T1\n", CsvMapping{}), "name the column that holds the time"));
  CsvMapping odd = one_probe();
  odd.zone = "Nowhere";
  odd.probes[0].unit = "dS/m";
  const std::string both = complaint("time,T1\n", odd);
  EXPECT_TRUE(contains(both, "Nowhere") && contains(both, "dS/m")) << both;
}

TEST(Import, StoresAllOrNothing) {
  Yard yard;
  CsvPreview seen = preview(yard, "time,T1\n2025-03-05 08:00,54.5\n2025-03-05 09:00,55\n", one_probe());
  seen.readings[1].value = 999.0;  // cannot be
  EXPECT_THROW((void)import_csv(yard.store, seen), InputError);
  EXPECT_TRUE(all<Reading>(yard.store).empty());
  EXPECT_TRUE(all<CsvSource>(yard.store).empty());
}

TEST(Mapping, GoesThroughJsonUnchanged) {
  CsvMapping mapping = one_probe("T=1=temperature,degF,place:north wall,height:2 ft,radius:0.3 m,angle:90 deg,probe:A");
  mapping.probe_column = "who";
  mapping.delimiter = ";";
  mapping.header_line = 4;
  EXPECT_EQ(mapping.probes[0].column, "T=1");
  EXPECT_EQ(mapping_from_json(to_json(mapping), "test"), mapping);
}

TEST(Mapping, RefusesWhatItDoesNotKnow) {
  for (const char* text :
       {"", "[]", "{}", R"({"time":"t","probes":[],"color":1})", R"({"time":"t","probes":[]})",
        R"({"time":"t","probes":[{"column":"a","measure":"heat","unit":"degC"}]})", R"({"time":1,"probes":[]})"}) {
    EXPECT_THROW((void)mapping_from_json(text, "test"), InputError) << text;
  }
  for (const char* text : {"T1", "T1=heat,degC", "T1=temperature", "T1=temperature,degC,core",
                           "T1=temperature,degC,deep:1 m", "T1=temperature,degC,depth:deep"}) {
    EXPECT_THROW((void)parse_probe(text, "test"), InputError) << text;
  }
}

TEST(CsvImport, TellsASecondValueInTheUnitsOfTheYard) {
  Yard yard;
  const auto file = yard.folder.write("log.csv", "time,t\n2025-03-05T09:00,55\n2025-03-05T09:00,60\n");
  CsvMapping mapping;
  mapping.time = "time";
  mapping.zone = "UTC";
  mapping.probes = {parse_probe("t=temperature,degC,place:core", "test")};
  YardFacts us;
  us.units = UnitSystem::us;
  const CsvPreview preview = preview_csv(yard.store, {file, "probe", mapping, yard.fill_id, test::by("ab"), us, false});
  ASSERT_EQ(preview.refused.size(), 1U);
  EXPECT_NE(preview.refused.front().why.find("131 degF"), std::string::npos) << preview.refused.front().why;
}

}  // namespace
}  // namespace stillheap::record
