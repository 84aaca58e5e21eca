#include "present/sheet/pack.hpp"

#include <cairo-pdf.h>

#include "present/draw/dates.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/work_order.hpp"

namespace stillheap::sheet {
namespace {

void drawing_pages(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  base_page(flow, plan, vessel);
  cage_page(flow, plan, vessel);
  forms_page(flow, plan, vessel);
  if (!plan.site.water.by_hand) line_page(flow, plan, vessel);
  exploded_page(flow, plan, vessel);
}

PackLayout draw_pack(Canvas& canvas, const plan::Plan& plan, int pages) {
  Flow flow(canvas, {plan.site.name, "first fill " + long_date(read_date(plan.site.start_date)), pages});
  answer_page(flow, plan);
  shopping_page(flow, plan);
  cut_page(flow, plan);
  cost_page(flow, plan);
  for (const plan::VesselPlan& vessel : plan.vessels) {
    vessel_page(flow, plan, vessel);
    drawing_pages(flow, plan, vessel);
    loads_page(flow, plan, vessel);
    blend_page(flow, plan, vessel);
    batch_card_page(flow, plan, vessel);
    fill_page(flow, plan, vessel);
    water_page(flow, plan, vessel);
    if (!plan.site.water.by_hand) line_flow_page(flow, plan, vessel);
    work_order_pages(flow, plan, vessel);
    log_page(flow, plan, vessel);
    forecast_page(flow, plan, vessel);
  }
  supply_page(flow, plan);
  calendar_page(flow, plan);
  cautions_page(flow, plan);
  assumptions_page(flow, plan);
  flow.close();
  return {canvas.page(), canvas.paper(), flow.sheets(), canvas.texts()};
}

PackLayout draw_building_sheets(Canvas& canvas, const plan::Plan& plan, int pages) {
  Flow flow(canvas, {plan.site.name, "to build from", pages});
  for (const plan::VesselPlan& vessel : plan.vessels) {
    vessel_page(flow, plan, vessel);
    drawing_pages(flow, plan, vessel);
    work_order_pages(flow, plan, vessel);
  }
  supply_page(flow, plan);
  flow.close();
  return {canvas.page(), canvas.paper(), flow.sheets(), canvas.texts()};
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

}  // namespace

PackLayout lay_out_pack(const plan::Plan& plan) {
  // Twice: the first run counts the pages that the second one prints at the foot.
  Canvas counting = Canvas::blind(paper_for(plan.site.units));
  const int pages = draw_pack(counting, plan, 0).pages;
  Canvas canvas = Canvas::blind(paper_for(plan.site.units));
  return draw_pack(canvas, plan, pages);
}

PackLayout lay_out_building_sheets(const plan::Plan& plan) {
  Canvas counting = Canvas::blind(paper_for(plan.site.units));
  const int pages = draw_building_sheets(counting, plan, 0).pages;
  Canvas canvas = Canvas::blind(paper_for(plan.site.units));
  return draw_building_sheets(canvas, plan, pages);
}

int write_building_sheets(const plan::Plan& plan, const std::filesystem::path& file) {
  Canvas counting = Canvas::blind(paper_for(plan.site.units));
  const int pages = draw_building_sheets(counting, plan, 0).pages;
  Canvas canvas = Canvas::pdf(file, paper_for(plan.site.units));
  describe(canvas.surface(), plan);
  add_outline(canvas.surface(), draw_building_sheets(canvas, plan, pages).sheets);
  canvas.finish();
  return pages;
}

int write_pack(const plan::Plan& plan, const std::filesystem::path& file) {
  Canvas counting = Canvas::blind(paper_for(plan.site.units));
  const PackLayout first = draw_pack(counting, plan, 0);
  Canvas canvas = Canvas::pdf(file, paper_for(plan.site.units));
  describe(canvas.surface(), plan);
  const PackLayout layout = draw_pack(canvas, plan, first.pages);
  add_outline(canvas.surface(), layout.sheets);
  canvas.finish();
  return layout.pages;
}

}  // namespace stillheap::sheet
