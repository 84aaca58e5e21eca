#include "planning/plan/records.hpp"

#include "core/base/csv.hpp"
#include "core/base/date.hpp"
#include "planning/plan/plan_json.hpp"
#include "planning/plan/staged_folder.hpp"
#include "planning/plan/water_step.hpp"
#include "planning/water/words.hpp"

namespace stillheap::plan {
namespace {

using csv::cell;
using csv::row;

void append_priced(std::string& text, const std::vector<PricedPiece>& lines, const std::string& currency) {
  for (const PricedPiece& line : lines) {
    const vessel::Piece& piece = line.piece;
    text += row({cell(piece.what), cell(piece.use), cell(line.count), cell(piece.length_m), cell(piece.width_m),
                 cell(piece.diameter_m), cell(line.amount), cell(line.amount_unit), line.priced ? cell(line.cost) : "",
                 line.priced ? cell(currency) : "not priced"});
  }
}

}  // namespace

std::string shopping_csv(const Plan& plan) {
  std::string text =
      row({"what", "use", "count", "length_m", "width_m", "diameter_m", "amount", "amount_unit", "cost", "currency"});
  append_priced(text, plan.feedstock_shopping, plan.site.currency);
  append_priced(text, plan.shopping, plan.site.currency);
  return text;
}

std::string cuts_csv(const Plan& plan) {
  std::string text = row({"material", "stock_number", "stock_length_m", "stock_width_m", "part", "x_m", "y_m",
                          "along_m", "across_m", "used_m"});
  for (const MaterialCuts& material : plan.cutting) {
    int stock_number = 0;
    for (const cut::StockPiece& piece : material.cuts.pieces) {
      const cut::Stock& stock = material.job.stock[piece.stock];
      ++stock_number;
      for (const cut::Placed& placed : piece.pieces) {
        text += row({cell(material.job.what), cell(stock_number), cell(stock.length_m), cell(stock.width_m),
                     cell(material.cuts.parts[placed.want].what), cell(placed.x_m), cell(placed.y_m),
                     cell(placed.along_m), cell(placed.across_m), cell(piece.used_m)});
      }
    }
  }
  return text;
}

std::string line_csv(const Plan& plan) {
  std::string text = row({"vessel", "hole", "distance_m", "pressure_pa", "flow_m3_s", "pipe_flow_m3_s"});
  for (const VesselPlan& vessel : plan.vessels) {
    const water::LineFlow& flow = vessel.line_flow;
    for (std::size_t i = 0; i < flow.hole_distance_m.size(); ++i) {
      text += row({cell(vessel.design.name), cell(static_cast<double>(i + 1)), cell(flow.hole_distance_m[i]),
                   cell(flow.hole_pressure_pa[i]), cell(flow.hole_flow_m3_s[i]), cell(flow.pipe_flow_m3_s[i])});
    }
  }
  return text;
}

std::string blend_csv(const Plan& plan) {
  std::string text = row({"vessel", "feedstock", "mass_as_delivered_kg", "share_by_mass", "loose_volume_m3",
                          "moisture_wet", "carbon_to_nitrogen"});
  for (const VesselPlan& vessel : plan.vessels) {
    const material::Blend& blend = vessel.blend_as_delivered;
    for (const material::Part& part : blend.parts) {
      const material::Feedstock& feedstock = part.feedstock;
      text += row({cell(vessel.design.name), cell(feedstock.name), cell(part.mass_wet_kg),
                   cell(part.mass_wet_kg / blend.mass_wet_kg), cell(part.mass_wet_kg / feedstock.bulk_density_kg_m3),
                   cell(feedstock.moisture_wet), cell(feedstock.carbon_dry / feedstock.nitrogen_dry)});
    }
    for (const auto& [name, mixed] :
         {std::pair{"blend as delivered", &blend}, {"blend soaked", &vessel.blend_soaked}}) {
      text += row({cell(vessel.design.name), name, cell(mixed->mass_wet_kg), "", cell(mixed->volume_m3),
                   cell(mixed->moisture_wet), cell(mixed->carbon_to_nitrogen)});
    }
  }
  return text;
}

std::string fill_csv(const Plan& plan) {
  std::string text = row({"vessel", "step", "what"});
  for (const VesselPlan& vessel : plan.vessels) {
    int step = 0;
    for (const std::string& what : vessel.fill.steps) {
      text += row({cell(vessel.design.name), cell(++step), cell(what)});
    }
  }
  return text;
}

std::string water_csv(const Plan& plan) {
  std::string text = row({"vessel", "first_day", "last_day", "setting", "every_days", "steps", "run_s", "runs",
                          "run_let_out_kg", "run_reaching_kg", "lost_kg", "rain_kg", "rain_credited_kg",
                          "drained_kg_day", "drained_low_kg_day", "drained_high_kg_day", "salt_out_g_day"});
  for (const VesselPlan& vessel : plan.vessels) {
    const water::Programme& programme = vessel.programme;
    for (std::size_t i = 0; i < programme.rows.size(); ++i) {
      const water::Row& one = programme.rows[i];
      const std::optional<forecast::Banded> drained = drained_in(vessel, i);
      const auto known = [&](double forecast::Banded::*part, double scale = 1.0) {
        return drained ? cell((*drained).*part * scale) : "";
      };
      text +=
          row({cell(vessel.design.name), date::to_iso(one.first), date::to_iso(one.last), cell(water::rhythm_text(one)),
               cell(one.every_days), cell(one.steps), programme.way.by_hand ? "" : cell(water::run_s(programme, one)),
               cell(one.runs), cell(one.run_kg), cell(one.run_reaching_kg), cell(one.lost_kg), cell(one.rain_kg),
               cell(one.rain_credited_kg), known(&forecast::Banded::middle), known(&forecast::Banded::low),
               known(&forecast::Banded::high), known(&forecast::Banded::middle, drained_salt_g_kg(vessel))});
    }
  }
  return text;
}

std::string calendar_csv(const Plan& plan) {
  std::string text = row({"date", "latest_date", "vessel", "what"});
  for (const CalendarEntry& entry : plan.calendar) {
    text += row({cell(entry.date), cell(entry.latest_date), cell(entry.vessel), cell(entry.what)});
  }
  return text;
}

std::string assumptions_csv(const Plan& plan) {
  std::string text = row({"topic", "value", "source"});
  for (const Assumption& one : plan.assumptions) text += row({cell(one.topic), cell(one.value), cell(one.source)});
  return text;
}

void write_supply(const Plan& plan, const std::filesystem::path& folder) {
  if (!plan.supply) return;
  write_text(folder / "supply.csv", supply::supply_csv(*plan.supply));
  write_text(folder / "supply.ics", supply::supply_ics(*plan.supply, plan.site.units));
}

void write_records(const Plan& plan, const std::filesystem::path& folder) {
  write_text(folder / "plan.json", to_text(to_json(plan)));
  write_text(folder / "shopping.csv", shopping_csv(plan));
  write_text(folder / "cuts.csv", cuts_csv(plan));
  write_text(folder / "line.csv", line_csv(plan));
  write_text(folder / "blend.csv", blend_csv(plan));
  write_text(folder / "fill.csv", fill_csv(plan));
  write_text(folder / "water.csv", water_csv(plan));
  write_text(folder / "calendar.csv", calendar_csv(plan));
  write_text(folder / "assumptions.csv", assumptions_csv(plan));
  write_supply(plan, folder);
}

}  // namespace stillheap::plan
