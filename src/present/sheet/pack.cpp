#include "present/sheet/pack.hpp"

#include <cairo-pdf.h>

#include <utility>

#include "present/draw/dates.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/work_order.hpp"

namespace stillheap::sheet {
namespace {

using VesselPage = void (*)(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel);

/// A sheet that a page shares with the one before when it fits there.
void shared(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel, VesselPage page) {
  flow.share_page([&](Flow& under) { page(under, plan, vessel); });
}

/// A sheet on pages of its own, with less white where that saves one.
void fitted(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel, VesselPage page) {
  flow.fit([&](Flow& own) { page(own, plan, vessel); });
}

/// The drawings, and the loads under the last of them.
void drawing_pages(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  for (const VesselPage page : {vessel_page, base_page, cage_page}) fitted(flow, plan, vessel, page);
  const double loads_pt = flow.height_of([&](Flow& page) { loads_page(page, plan, vessel); });
  if (!plan.site.water.by_hand) fitted(flow, plan, vessel, line_page);
  flow.fit([&](Flow& page) { forms_page(page, vessel, plan.site.units, loads_pt); });
  shared(flow, plan, vessel, loads_page);
}

/// What is printed together, and what its foot says.
struct Booklet {
  void (*draw)(Flow& flow, const plan::Plan& plan) = nullptr;
  std::string (*foot)(const plan::Plan& plan) = nullptr;
};

std::string first_fill_foot(const plan::Plan& plan) {
  return "first fill " + long_date(read_date(plan.site.start_date));
}

/// What is taken outside, in the order of the work. Reference that nobody needs there stands in the appendix.
void draw_pack(Flow& flow, const plan::Plan& plan) {
  flow.fit([&](Flow& page) { answer_page(page, plan); });
  flow.share_page([](Flow& page) {
    contents_page(page,
                  "In appendix.pdf: costs, how the parts stack, loads, blend and water line in full, the whole "
                  "forecast, all cautions and assumptions.");
  });
  const Flow::Draw calendar = [&](Flow& page) { calendar_page(page, plan); };
  const double calendar_pt = flow.height_of(calendar);
  for (const plan::VesselPlan& vessel : plan.vessels) {
    flow.share_page([&](Flow& page) { first_weeks_page(page, plan, vessel, calendar_pt); });
  }
  flow.share_page(calendar);
  flow.fit([&](Flow& page) {
    constexpr double least_list_pt = 260.0, least_cuts_pt = 180.0;  // chosen: a title and some rows
    page.run_on([&](Flow& below) { shopping_page(below, plan); }, least_list_pt);
    page.run_on([&](Flow& below) { cut_page(below, plan); }, least_cuts_pt);
  });
  for (const plan::VesselPlan& vessel : plan.vessels) {
    drawing_pages(flow, plan, vessel);
    work_order_pages(flow, plan, vessel);
  }
  supply_page(flow, plan);
}

void draw_appendix(Flow& flow, const plan::Plan& plan) {
  cost_page(flow, plan);
  for (const plan::VesselPlan& vessel : plan.vessels) {
    exploded_page(flow, plan, vessel);
    shared(flow, plan, vessel, load_table_page);
    shared(flow, plan, vessel, blend_page);
    if (!plan.site.water.by_hand) shared(flow, plan, vessel, line_flow_page);
    forecast_page(flow, plan, vessel);
  }
  flow.share_page([&](Flow& page) { cautions_page(page, plan); });
  assumptions_page(flow, plan);
}

void draw_building_sheets(Flow& flow, const plan::Plan& plan) {
  if (!plan.warnings.empty()) {
    findings_page(flow, plan);
    flow.share_page([](Flow& page) {
      contents_page(page, "Written by stillheap plan: forecast, water programme, calendar, shopping list and costs.");
    });
  }
  for (const plan::VesselPlan& vessel : plan.vessels) {
    drawing_pages(flow, plan, vessel);
    exploded_page(flow, plan, vessel);
    building_order_pages(flow, plan, vessel);
  }
  supply_page(flow, plan);
}

constexpr Booklet pack{draw_pack, first_fill_foot};
constexpr Booklet appendix{draw_appendix, [](const plan::Plan& plan) { return "appendix, " + first_fill_foot(plan); }};
constexpr Booklet building{draw_building_sheets, [](const plan::Plan&) { return std::string("to build from"); }};

/// What a run over the sheets must know beforehand: how many pages there are, and where each sheet begins.
struct Known {
  int pages = 0;
  std::vector<SheetStart> contents;
  bool operator==(const Known&) const = default;
};

PackLayout draw(const Booklet& booklet, Canvas& canvas, const plan::Plan& plan, const Known& known) {
  Flow flow(canvas, {plan.site.name, booklet.foot(plan), known.pages, known.contents});
  booklet.draw(flow, plan);
  flow.close();
  return {canvas.page(), canvas.paper(), flow.sheets(), canvas.texts(), canvas.lines(), flow.page_uses()};
}

void describe(cairo_surface_t* surface, const plan::Plan& plan) {
  const std::string title = plan.site.name + ": plan for a first fill on " + long_date(read_date(plan.site.start_date));
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, "Plan of static, passively aerated compost");
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "stillheap");
  // The start date, not the clock: the same plan must give the same file.
  const std::string date = plan.site.start_date + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, date.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, date.c_str());
}

void add_outline(cairo_surface_t* surface, const std::vector<SheetStart>& sheets) {
  for (const SheetStart& sheet : sheets) {
    const std::string link = "page=" + std::to_string(sheet.page);
    cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, sheet.title.c_str(), link.c_str(),
                                  static_cast<cairo_pdf_outline_flags_t>(0));
  }
}

/// Runs over the sheets until the contents that one run prints are what the next one finds.
Known find_out(const Booklet& booklet, const plan::Plan& plan) {
  constexpr int most_runs = 4;
  Known known;
  for (int run = 0; run < most_runs; ++run) {
    Canvas counting = Canvas::blind(paper_for(plan.site.units));
    const PackLayout layout = draw(booklet, counting, plan, known);
    Known found{layout.pages, layout.sheets};
    if (found == known) break;
    known = std::move(found);
  }
  return known;
}

PackLayout lay_out(const Booklet& booklet, const plan::Plan& plan) {
  Canvas canvas = Canvas::blind(paper_for(plan.site.units));
  return draw(booklet, canvas, plan, find_out(booklet, plan));
}

int write(const Booklet& booklet, const plan::Plan& plan, const std::filesystem::path& file) {
  const Known known = find_out(booklet, plan);
  Canvas canvas = Canvas::pdf(file, paper_for(plan.site.units));
  describe(canvas.surface(), plan);
  add_outline(canvas.surface(), draw(booklet, canvas, plan, known).sheets);
  canvas.finish();
  return known.pages;
}

}  // namespace

PackLayout lay_out_pack(const plan::Plan& plan) { return lay_out(pack, plan); }
PackLayout lay_out_appendix(const plan::Plan& plan) { return lay_out(appendix, plan); }
PackLayout lay_out_building_sheets(const plan::Plan& plan) { return lay_out(building, plan); }

int write_pack(const plan::Plan& plan, const std::filesystem::path& file) { return write(pack, plan, file); }
int write_appendix(const plan::Plan& plan, const std::filesystem::path& file) { return write(appendix, plan, file); }
int write_building_sheets(const plan::Plan& plan, const std::filesystem::path& file) {
  return write(building, plan, file);
}

}  // namespace stillheap::sheet
