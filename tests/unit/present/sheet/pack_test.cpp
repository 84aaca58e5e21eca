#include "present/sheet/pack.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <limits>
#include <regex>

#include "core/base/error.hpp"
#include "sample_plan.hpp"

namespace stillheap::sheet {
namespace {

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::filesystem::path fresh_folder(const std::string& name) {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("stillheap-sheet-" + name + "-" + std::to_string(::getpid()));
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  return folder;
}

bool mentions(const PackLayout& layout, const std::string& words) {
  return std::any_of(layout.texts.begin(), layout.texts.end(),
                     [&](const PlacedText& text) { return text.text.find(words) != std::string::npos; });
}

class Pack : public testing::TestWithParam<UnitSystem> {
 protected:
  const plan::Plan plan_ = sample::plan_for(GetParam());
};

INSTANTIATE_TEST_SUITE_P(BothUnits, Pack, testing::Values(UnitSystem::metric, UnitSystem::us),
                         [](const auto& one) { return one.param == UnitSystem::us ? "us" : "metric"; });

TEST_P(Pack, NoTwoTextsOverlap) {
  const PackLayout layout = lay_out_pack(plan_);
  for (std::size_t i = 0; i < layout.texts.size(); ++i) {
    for (std::size_t j = i + 1; j < layout.texts.size() && layout.texts[j].page == layout.texts[i].page; ++j) {
      EXPECT_FALSE(overlap(layout.texts[i].ink, layout.texts[j].ink, 0.2))
          << "page " << layout.texts[i].page << ": \"" << layout.texts[i].text << "\" and \"" << layout.texts[j].text
          << "\"";
    }
  }
}

TEST_P(Pack, NoTextLeavesThePrintablePage) {
  const PackLayout layout = lay_out_pack(plan_);
  const Box printable = shrink({0.0, 0.0, layout.paper.width_pt, layout.paper.height_pt}, 24.0);
  for (const PlacedText& text : layout.texts) {
    EXPECT_TRUE(within(text.ink, printable)) << "page " << text.page << ": \"" << text.text << "\"";
  }
}

/// The titles of the sheets on a page.
std::string heads_on(const PackLayout& layout, int page) {
  std::string heads, last;
  for (const SheetStart& sheet : layout.sheets) {
    if (sheet.page < page) last = sheet.head;  // it may go on here
    if (sheet.page == page) heads += sheet.head + "; ";
  }
  return heads.empty() ? last : heads;
}

bool is_drawing_sheet(const std::string& heads) {
  for (const char* head : {"Vessel drawing", "Base and levelling", "laid flat", "Water line", "Forms and what"}) {
    if (heads.find(head) != std::string::npos) return true;
  }
  return false;
}

constexpr double arms_length_pt = 12.0;  // asked for by whoever builds from it

TEST_P(Pack, LabelsItsDrawingsToBeReadAtArmsLength) {
  const PackLayout layout = lay_out_pack(plan_);
  int seen = 0;
  for (const PlacedText& text : layout.texts) {
    if (!text.figure || !is_drawing_sheet(heads_on(layout, text.page))) continue;
    ++seen;
    EXPECT_GE(text.size_pt, arms_length_pt) << "page " << text.page << ": \"" << text.text << "\"";
  }
  EXPECT_GT(seen, 40) << "the test sees what it looks for";
}

TEST_P(Pack, SetsItsWallCardsToBeReadAtArmsLength) {
  const PackLayout layout = lay_out_pack(plan_);
  const double foot_pt = layout.paper.height_pt - 44.0, head_pt = 66.0;
  int seen = 0;
  for (const PlacedText& text : layout.texts) {
    const std::string heads = heads_on(layout, text.page);
    const bool card = heads == "Batch card; " || heads == "Fill card; " || heads == "Water card; " ||
                      heads.find("Log sheet") != std::string::npos;
    constexpr std::size_t longest_label = 60;  // signs; longer ones are read, not looked at
    if (!card || text.ink.y > foot_pt || text.ink.y < head_pt || text.text.size() > longest_label) continue;
    ++seen;
    EXPECT_GE(text.size_pt, arms_length_pt) << "page " << text.page << ": \"" << text.text << "\"";
  }
  EXPECT_GT(seen, 100) << "the test sees what it looks for";
}

/// Whether a straight line runs through a box: clipped to it by its ends' parameters (Liang and Barsky 1984).
bool runs_through(const PlacedLine& line, const Box& box) {
  double from = 0.0, to = 1.0;
  const double dx = line.to.x - line.from.x, dy = line.to.y - line.from.y;
  const double p[] = {-dx, dx, -dy, dy};
  const double q[] = {line.from.x - box.x, box.right() - line.from.x, line.from.y - box.y, box.bottom() - line.from.y};
  for (int i = 0; i < 4; ++i) {
    if (std::abs(p[i]) < 1e-12) {
      if (q[i] < 0.0) return false;
      continue;
    }
    const double t = q[i] / p[i];
    (p[i] < 0.0 ? from : to) = p[i] < 0.0 ? std::max(from, t) : std::min(to, t);
  }
  return from < to;
}

TEST_P(Pack, DrawsNoLineThroughAText) {
  const PackLayout layout = lay_out_pack(plan_);
  EXPECT_GT(layout.lines.size(), 100U) << "the test sees what it looks for";
  for (std::size_t i = 0; i < layout.texts.size(); ++i) {
    const PlacedText& text = layout.texts[i];
    const std::string heads = heads_on(layout, text.page);
    if (!text.figure || (!is_drawing_sheet(heads) && heads.find("Cut list") == std::string::npos)) continue;
    const Box ink = shrink(text.ink, 0.3);
    for (const PlacedLine& line : layout.lines) {
      const bool hidden = text.backed && line.texts_before <= i;
      EXPECT_FALSE(line.page == text.page && !hidden && runs_through(line, ink))
          << "page " << text.page << " (" << heads_on(layout, text.page) << "): \"" << text.text << "\" by "
          << line.from.x << ", " << line.from.y << " to " << line.to.x << ", " << line.to.y;
    }
  }
}

TEST_P(Pack, HasEverySheetInOrder) {
  const PackLayout layout = lay_out_pack(plan_);
  std::vector<std::string> wanted{"What will come out", "Contents"};
  for (std::size_t i = 0; i < plan_.vessels.size(); ++i) wanted.emplace_back("The first six weeks");
  for (const char* sheet : {"Calendar", "Shopping list", "Cut list"}) wanted.emplace_back(sheet);
  for (const plan::VesselPlan& vessel : plan_.vessels) {
    const bool open = vessel.design.wall == vessel::Wall::open;
    for (const char* sheet :
         {"Vessel drawing", "Base and levelling",
          open ? "Wall, lining and cover, laid flat" : "Wall and cover, laid flat", "Water line",
          "Forms and what holds them", "Loads", "Work order 1: build", "Batch card", "Work order 2: fill", "Fill card",
          "Work order 3: forms out", "Work order 4: cover and water", "Water card", "Log sheet, six weeks",
          "Work order 5: worms", "Work order 6: harvest"}) {
      wanted.emplace_back(sheet);
    }
  }
  ASSERT_EQ(layout.sheets.size(), wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) EXPECT_EQ(layout.sheets[i].head, wanted[i]) << i;
  EXPECT_TRUE(mentions(layout, "page " + std::to_string(layout.pages) + " of " + std::to_string(layout.pages)));
  EXPECT_FALSE(mentions(layout, "of ?"));
}

TEST_P(Pack, LeavesWhatIsLookedUpIndoorsToTheAppendix) {
  const PackLayout layout = lay_out_appendix(plan_);
  std::vector<std::string> wanted{"Cost and sourcing"};
  for (std::size_t i = 0; i < plan_.vessels.size(); ++i) {
    for (const char* sheet : {"How the parts stack", "Loads in full", "Blend card", "Flow and pressure", "Forecast"})
      wanted.emplace_back(sheet);
  }
  for (const char* sheet : {"Cautions", "Assumptions and defaults"}) wanted.emplace_back(sheet);
  ASSERT_EQ(layout.sheets.size(), wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) EXPECT_EQ(layout.sheets[i].head, wanted[i]) << i;
  const auto folder = fresh_folder(GetParam() == UnitSystem::us ? "appendix-us" : "appendix");
  EXPECT_EQ(write_appendix(plan_, folder / "appendix.pdf"), layout.pages);
}

/// The plan of one kind of vessel alone.
plan::Plan one_kind(const plan::Plan& all, std::size_t kind) {
  plan::Plan one = all;
  one.vessels = {all.vessels[kind]};
  return one;
}

TEST_P(Pack, OfOneKindOfVesselHasAtMostTwentyTwoPages) {
  for (std::size_t kind = 0; kind < plan_.vessels.size(); ++kind)
    EXPECT_LE(lay_out_pack(one_kind(plan_, kind)).pages, 22) << plan_.vessels[kind].design.name;
}

TEST_P(Pack, HasNoPageUnderHalfFullButDrawings) {
  for (std::size_t kind = 0; kind < plan_.vessels.size(); ++kind) {
    const PackLayout layout = lay_out_pack(one_kind(plan_, kind));
    ASSERT_EQ(layout.uses.size(), static_cast<std::size_t>(layout.pages));
    for (std::size_t i = 0; i < layout.uses.size(); ++i) {
      if (layout.uses[i].drawing) continue;
      std::string on_page;
      for (const SheetStart& sheet : layout.sheets) {
        if (sheet.page <= static_cast<int>(i) + 1) on_page = sheet.title;
      }
      EXPECT_GE(layout.uses[i].share, 0.5) << "page " << i + 1 << ", " << on_page;
    }
  }
}

TEST_P(Pack, ListsEverySheetWithItsPageAndNamesItInTheFoot) {
  const PackLayout layout = lay_out_pack(plan_);
  const auto contents = std::find_if(layout.sheets.begin(), layout.sheets.end(),
                                     [](const SheetStart& sheet) { return sheet.head == "Contents"; });
  ASSERT_NE(contents, layout.sheets.end());
  EXPECT_LE(contents->page, 2);
  const double foot_pt = layout.paper.height_pt - 44.0;
  for (const SheetStart& sheet : layout.sheets) {
    const auto listed = [&](const PlacedText& entry) {
      if (entry.page != contents->page || entry.text != sheet.head) return false;
      return std::any_of(layout.texts.begin(), layout.texts.end(), [&](const PlacedText& text) {
        const bool beside = text.page == contents->page && std::abs(text.ink.middle_y() - entry.ink.middle_y()) < 8.0;
        return beside && (", " + text.text + ",").find(", " + std::to_string(sheet.page) + ",") != std::string::npos;
      });
    };
    EXPECT_TRUE(std::any_of(layout.texts.begin(), layout.texts.end(), listed))
        << sheet.head << " on page " << sheet.page;
    EXPECT_TRUE(std::any_of(layout.texts.begin(), layout.texts.end(), [&](const PlacedText& text) {
      return text.page == sheet.page && text.ink.y > foot_pt && text.text.find(sheet.head) != std::string::npos;
    })) << sheet.head;
  }
}

/// A number such as "2.6e+02" or "1E-3".
bool has_exponent(const std::string& text) {
  static const std::regex exponent("[0-9][eE][+-]?[0-9]");
  return std::regex_search(text, exponent);
}

TEST_P(Pack, PrintsNoNumberWithAnExponent) {
  plan::Plan odd = plan_;
  odd.vessels.front().forecast.summary.cool_day = 263.7;
  odd.site.soil_bearing_pa = 123456789.0;
  for (const PlacedText& text : lay_out_pack(odd).texts) EXPECT_FALSE(has_exponent(text.text)) << text.text;
  EXPECT_TRUE(has_exponent("it warms again from day 2.6e+02 on")) << "the test sees what it looks for";
}

TEST_P(Pack, WaterCardOfAYearFillsOnePageAndTellsRestOnce) {
  const PackLayout layout = lay_out_pack(plan_);
  for (std::size_t i = 0; i + 1 < layout.sheets.size(); ++i) {
    if (layout.sheets[i].title.rfind("Water card", 0) != 0) continue;
    EXPECT_EQ(layout.sheets[i + 1].page, layout.sheets[i].page + 1);
  }
}

TEST_P(Pack, UsesThePaperOfTheUnitSystem) {
  const Paper paper = lay_out_pack(plan_).paper;
  EXPECT_EQ(paper.name, GetParam() == UnitSystem::us ? "Letter" : "A4");
  EXPECT_NEAR(paper.height_pt, GetParam() == UnitSystem::us ? 792.0 : 841.89, 0.01);
}

TEST_P(Pack, GivesTheSameBytesTwice) {
  const auto folder = fresh_folder(GetParam() == UnitSystem::us ? "us" : "metric");
  const int pages = write_pack(plan_, folder / "a.pdf");
  EXPECT_EQ(write_pack(plan_, folder / "b.pdf"), pages);
  EXPECT_EQ(pages, lay_out_pack(plan_).pages);
  const std::string first = bytes_of(folder / "a.pdf");
  EXPECT_GT(first.size(), 20000U);
  EXPECT_EQ(first.substr(0, 5), "%PDF-");
  EXPECT_TRUE(first == bytes_of(folder / "b.pdf"));
}

/// What a program prints.
std::string output_of(const std::string& command) {
  std::string text;
  FILE* const pipe = ::popen(command.c_str(), "r");
  if (pipe == nullptr) return text;
  char part[4096];
  while (const std::size_t read = std::fread(part, 1, sizeof part, pipe)) text.append(part, read);
  ::pclose(pipe);
  return text;
}

/// Reread by poppler, another library: headings, paragraphs, lists, tables and figures for readers that read aloud.
TEST_P(Pack, IsTaggedAndTellsItsLanguageAndTitle) {
  const auto folder = fresh_folder(GetParam() == UnitSystem::us ? "tagged-us" : "tagged");
  write_pack(plan_, folder / "pack.pdf");
  const std::string file = "'" + (folder / "pack.pdf").string() + "'";
  const std::string about = output_of("pdfinfo " + file + " 2>&1");
  EXPECT_NE(about.find("Tagged:          yes"), std::string::npos) << about;
  EXPECT_EQ(about.find("Error"), std::string::npos) << about;
  const std::string bytes = bytes_of(folder / "pack.pdf");
  EXPECT_NE(bytes.find("/Lang (en)"), std::string::npos);
  EXPECT_NE(bytes.find("/DisplayDocTitle true"), std::string::npos);
  const std::string tree = output_of("pdfinfo -struct-text " + file + " 2>&1");
  for (const char* const wanted : {"H1", "H2", "\n", "Table", "TR", "TH", "TD", "Figure", "LI", "TOCI"}) {
    EXPECT_NE(tree.find(wanted), std::string::npos) << wanted;
  }
  for (const SheetStart& sheet : lay_out_pack(plan_).sheets) {
    EXPECT_NE(tree.find('"' + sheet.head + '"'), std::string::npos) << sheet.head;
  }
  EXPECT_EQ(tree.find("page 1 of"), std::string::npos) << "the foot is left out of what is read";
}

TEST_P(Pack, ShowsLengthsInTheReadersUnits) {
  const PackLayout layout = lay_out_pack(plan_);
  const bool us = GetParam() == UnitSystem::us;
  EXPECT_EQ(mentions(layout, "ring radius 420 mm"), !us);
  EXPECT_EQ(mentions(layout, "ring radius 16 9/16 in"), us);
}

TEST_P(Pack, TellsManyLikeFindingsOnceFirstAndAllOfThemWithTheirSources) {
  plan::Plan many = plan_;
  for (int i = 1; i <= 6; ++i)
    many.warnings.push_back({"slats", "slat " + std::to_string(i) + " is in the way", "rule"});
  many.warnings.push_back({"slats", "slats are thin", "rule"});
  const PackLayout layout = lay_out_pack(many);
  EXPECT_TRUE(mentions(layout, "slats: slat 1 is in the way; and 5 more like it"));
  EXPECT_TRUE(mentions(layout, "slats: slats are thin"));
  EXPECT_FALSE(mentions(layout, "slats: slat 2"));
  EXPECT_TRUE(mentions(lay_out_appendix(many), "slat 6 is in the way"));
}

TEST_P(Pack, PutsEveryUnpricedLineInWords) { EXPECT_TRUE(mentions(lay_out_pack(plan_), "no price given")); }

TEST_P(Pack, PrintsEveryAssumptionOnce) {
  const PackLayout layout = lay_out_appendix(plan_);
  const auto count = [&](const std::string& words) {
    return std::count_if(layout.texts.begin(), layout.texts.end(),
                         [&](const PlacedText& text) { return text.text == words; });
  };
  for (const Assumption& one : plan_.assumptions) EXPECT_EQ(count(one.topic), 1) << one.topic;
  EXPECT_EQ(count("model: air outside"), 1) << "the forecast lists it too; the plan's list is the one printed";
}

TEST_P(Pack, WarnsOfBackFlowOnDrinkingWaterEvenWithoutACautionInThePlan) {
  plan::Plan bare = plan_;
  bare.cautions.clear();
  EXPECT_TRUE(mentions(lay_out_pack(bare), "back-flow preventer"));
  bare.site.water.drinking_water = false;
  EXPECT_FALSE(mentions(lay_out_pack(bare), "back-flow preventer"));
}

TEST_P(Pack, StatesTheRoundingOnEveryDrawing) {
  const PackLayout layout = lay_out_pack(plan_);
  const auto stated = std::count_if(layout.texts.begin(), layout.texts.end(), [](const PlacedText& text) {
    return text.text.find("Drawings are to scale when printed") != std::string::npos;
  });
  EXPECT_EQ(stated, 4 * static_cast<long>(plan_.vessels.size()));
  EXPECT_FALSE(mentions(layout, "rounding on this sheet is 0.0 mm"));
  EXPECT_TRUE(mentions(layout, GetParam() == UnitSystem::us ? "rounded to 1/16 in" : "rounded to 1 mm"));
}

TEST_P(Pack, DimensionsTheHoopThatHoldsTheForms) {
  // 2 x 420 mm + 110 mm, and what that is around.
  const PackLayout layout = lay_out_pack(plan_);
  EXPECT_TRUE(mentions(layout, GetParam() == UnitSystem::us ? "hoop, inside 37 3/8 in" : "hoop, inside 950 mm"));
  EXPECT_TRUE(
      mentions(layout, GetParam() == UnitSystem::us ? "from 9 ft 9 1/2 in of length" : "from 2985 mm of length"));
}

/// Asserts both layout rules at once.
void expect_whole(const PackLayout& layout) {
  const Box printable = shrink({0.0, 0.0, layout.paper.width_pt, layout.paper.height_pt}, 24.0);
  for (std::size_t i = 0; i < layout.texts.size(); ++i) {
    EXPECT_TRUE(within(layout.texts[i].ink, printable)) << layout.texts[i].text;
    for (std::size_t j = i + 1; j < layout.texts.size() && layout.texts[j].page == layout.texts[i].page; ++j) {
      EXPECT_FALSE(overlap(layout.texts[i].ink, layout.texts[j].ink, 0.2))
          << layout.texts[i].text << " | " << layout.texts[j].text;
    }
  }
}

void expect_whole(const plan::Plan& plan) {
  expect_whole(lay_out_pack(plan));
  expect_whole(lay_out_appendix(plan));
}

TEST_P(Pack, StaysWholeWithLongNamesAndManyChannels) {
  plan::Plan hard = plan_;
  hard.site.name =
      "The Long Name of an Invented Cooperative of Orchards and Gardens beyond the Seventh Hill, North Yard";
  hard.site.currency.clear();
  plan::VesselPlan& vessel = hard.vessels.front();
  vessel.design.name = "Cage behind the second barn on the way to the lower pond, where the wind is still";
  vessel.design.channels.clear();
  for (int ring = 1; ring <= 2; ++ring) {
    for (int i = 0; i < 10 * ring; ++i) {
      const double angle = 2.0 * constant::pi * i / (10.0 * ring);
      vessel.design.channels.push_back({{0.3 * ring * std::cos(angle), 0.3 * ring * std::sin(angle)}, 0.05});
    }
  }
  vessel.fill.lifts = 48;
  expect_whole(hard);
}

TEST_P(Pack, StaysWholeWhenLittleIsKnown) {
  plan::Plan bare = plan_;
  bare.calendar.clear();
  bare.warnings.clear();
  bare.shopping.clear();
  bare.labour.clear();
  plan::VesselPlan& vessel = bare.vessels.front();
  vessel.design.channels.clear();
  vessel.design.slats.clear();
  vessel.forecast.snapshots.clear();
  vessel.forecast.history.clear();
  vessel.forecast.history_low.clear();
  vessel.forecast.history_high.clear();
  vessel.forecast.sensitivity = {{}, {}, "too few runs"};
  vessel.forecast.summary.cool_day.reset();
  vessel.forecast.stopped = "the heap froze through on day 3";
  vessel.hygiene = {};
  vessel.programme = {};
  vessel.drained_kg_day.clear();
  vessel.fill.soak.too_wet_already = true;
  vessel.air_path.plan_length_m = std::numeric_limits<double>::infinity();
  expect_whole(bare);
}

TEST_P(Pack, BuildingSheetsNeedNoForecast) {
  plan::Plan bare;
  bare.site = plan_.site;
  for (const plan::VesselPlan& vessel : plan_.vessels) {
    bare.vessels.push_back({});
    bare.vessels.back().design = vessel.design;
    bare.vessels.back().pieces = vessel.pieces;
    bare.vessels.back().fill = vessel.fill;
    bare.vessels.back().line_flow = vessel.line_flow;
  }
  const auto folder = fresh_folder(GetParam() == UnitSystem::us ? "building-us" : "building");
  EXPECT_GE(write_building_sheets(bare, folder / "building.pdf"), 6 * static_cast<int>(bare.vessels.size()));
  EXPECT_EQ(bytes_of(folder / "building.pdf").substr(0, 5), "%PDF-");
}

TEST(PackErrors, NameTheFileThatCannotBeWritten) {
  const plan::Plan plan = sample::plan_for(UnitSystem::metric);
  EXPECT_THROW(write_pack(plan, fresh_folder("none") / "missing" / "pack.pdf"), RunError);
}

TEST(PackErrors, RefuseADayThatDoesNotExist) {
  plan::Plan plan = sample::plan_for(UnitSystem::metric);
  plan.site.start_date = "2026-02-30";
  EXPECT_THROW((void)lay_out_pack(plan), InputError);
}

TEST(Plots, AreWrittenAsSvgAndPngForEachVesselAndAlike) {
  const plan::Plan plan = sample::plan_for(UnitSystem::metric);
  const auto first = write_plots(plan, fresh_folder("plots-a"));
  const auto second = write_plots(plan, fresh_folder("plots-b"));
  ASSERT_EQ(first.size(), 2U * (6U * 2U + 1U)) << "six plots, and the year sheet as PDF too";
  for (std::size_t i = 0; i < first.size(); ++i) {
    EXPECT_EQ(first[i].filename(), second[i].filename());
    EXPECT_GT(bytes_of(first[i]).size(), 2000U) << first[i];
    EXPECT_TRUE(bytes_of(first[i]) == bytes_of(second[i])) << first[i];
  }
}

}  // namespace
}  // namespace stillheap::sheet
