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

/// What is printed together, and what its foot says.
struct Booklet {
  void (*draw)(Flow& flow, const plan::Plan& plan) = nullptr;
  std::string (*foot)(const plan::Plan& plan) = nullptr;
};

std::string first_fill_foot(const plan::Plan& plan) {
  return "first fill " + long_date(read_date(plan.site.start_date));
}

/// What is taken outside. Reference that nobody needs there stands in the appendix.
void draw_pack(Flow& flow, const plan::Plan& plan) {
  answer_page(flow, plan);
  shopping_page(flow, plan);
  cut_page(flow, plan);
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
}

void draw_appendix(Flow& flow, const plan::Plan& plan) {
  cost_page(flow, plan);
  assumptions_page(flow, plan);
}

void draw_building_sheets(Flow& flow, const plan::Plan& plan) {
  for (const plan::VesselPlan& vessel : plan.vessels) {
    vessel_page(flow, plan, vessel);
    drawing_pages(flow, plan, vessel);
    work_order_pages(flow, plan, vessel);
  }
  supply_page(flow, plan);
}

constexpr Booklet pack{draw_pack, first_fill_foot};
constexpr Booklet appendix{draw_appendix, [](const plan::Plan& plan) { return "appendix, " + first_fill_foot(plan); }};
constexpr Booklet building{draw_building_sheets, [](const plan::Plan&) { return std::string("to build from"); }};

PackLayout draw(const Booklet& booklet, Canvas& canvas, const plan::Plan& plan, int pages) {
  Flow flow(canvas, {plan.site.name, booklet.foot(plan), pages});
  booklet.draw(flow, plan);
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

int count_pages(const Booklet& booklet, const plan::Plan& plan) {
  Canvas counting = Canvas::blind(paper_for(plan.site.units));
  return draw(booklet, counting, plan, 0).pages;
}

/// Twice: the first run counts the pages that the second one prints at the foot.
PackLayout lay_out(const Booklet& booklet, const plan::Plan& plan) {
  const int pages = count_pages(booklet, plan);
  Canvas canvas = Canvas::blind(paper_for(plan.site.units));
  return draw(booklet, canvas, plan, pages);
}

int write(const Booklet& booklet, const plan::Plan& plan, const std::filesystem::path& file) {
  const int pages = count_pages(booklet, plan);
  Canvas canvas = Canvas::pdf(file, paper_for(plan.site.units));
  describe(canvas.surface(), plan);
  add_outline(canvas.surface(), draw(booklet, canvas, plan, pages).sheets);
  canvas.finish();
  return pages;
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
