#include <cmath>

#include "core/quantity/retold.hpp"
#include "domain/rules/caution_words.hpp"
#include "domain/rules/harvest.hpp"
#include "domain/rules/worms.hpp"
#include "domain/vessel/base.hpp"
#include "planning/plan/hours.hpp"
#include "planning/plan/practice.hpp"
#include "present/sheet/words.hpp"
#include "present/sheet/work_order.hpp"
#include "present/sheet/work_pictures.hpp"

namespace stillheap::sheet {
namespace {

struct Words {
  const plan::Plan& plan;
  const plan::VesselPlan& vessel;
  [[nodiscard]] const vessel::Design& design() const { return vessel.design; }
  [[nodiscard]] std::string length(double m) const { return quantity::format_workshop(m, plan.site.units); }
  [[nodiscard]] std::string amount(double si, Dimension dimension) const {
    return quantity::format(si, dimension, plan.site.units, 2);
  }
  [[nodiscard]] bool open_wall() const { return design().wall == vessel::Wall::open; }
  [[nodiscard]] std::string forms(const std::string& before = "") const {
    const std::size_t n = design().channels.size();
    return before + std::to_string(n) + (n == 1 ? " form" : " forms");
  }
  [[nodiscard]] Picture picture(const Scene& scene) const { return picture_of(design(), scene); }
};

/// Where the slats alone do not carry a hole.
std::string seat_words(const vessel::Design& design) {
  const std::size_t seats = vessel::seats_of(design).size();
  return seats == 0 ? "" : " and its " + std::to_string(seats) + (seats == 1 ? " seat board" : " seat boards");
}

std::string people(int count) { return std::to_string(count) + (count == 1 ? " person" : " people"); }

Job build_job(const Words& w) {
  const vessel::Design& design = w.design();
  Job job{"build",
          w.open_wall() ? "spade, level, straight board, tape, drill with hole cutter, wire cutter, pliers, shears"
                        : "spade, level, straight board, tape, saw, drill with hole cutter, screwdriver, shears",
          people(2),
          clock_time(plan::practice::build_hours_a_vessel / 2.0) + " on the clock (chosen)",
          {}};
  std::string base = "Set the base on firm ground, level both ways and across.";
  if (design.base_gap_m > 0.0) base += " Keep " + w.length(design.base_gap_m) + " free under it.";
  job.steps.push_back({base, "Too heavy to right once full. Lift bearers and pallets in pairs.",
                       w.picture({.wall_share = 0.0, .sign = Sign::level})});
  if (!design.channels.empty()) {
    job.steps.push_back({design.base_open
                             ? "Lay the drilling template centre on centre, drill " +
                                   std::to_string(design.channels.size()) + " holes through the deck" +
                                   seat_words(design) + ", staple a stop under each, cut stars in the cloth and lay it."
                             : "Mark the places of the forms from the template, and lay the base cloth.",
                         "Clamp the work; eye protection; hands behind the cutter.",
                         w.picture({.base_cloth = true, .wall_share = 0.0})});
  } else {
    job.steps.push_back({"Lay the base cloth, its edge past the wall on all sides.", "",
                         w.picture({.base_cloth = true, .wall_share = 0.0})});
  }
  const bool round = design.footprint == vessel::Footprint::round;
  job.steps.push_back(
      {round ? std::string(w.open_wall()
                               ? "Bend the panel into a ring, ends edge to edge, tie from the bottom up on the wires, "
                                 "and stand it on the cloth. "
                               : "Bend the sheet into a ring, join it, and stand it on the cloth. ") +
                   w.length(design.diameter_m) + " across, both ways."
             : "Stand the four sides, join the corners from the bottom up, and measure the diagonals: alike.",
       w.open_wall() ? "Wire springs back: gloves, eye protection, nobody in its way. Turn cut ends outward."
                     : "Hold each side until two corners are joined: a loose side falls.",
       w.picture({.base_cloth = true})});
  if (w.open_wall())
    job.steps.push_back(
        {"Hang the lining inside" +
             (design.lining_overlap_m > 0.0 ? ", flap of " + w.length(design.lining_overlap_m) + " over its joint"
                                            : std::string()) +
             (design.lining_fold_m > 0.0 ? ", " + w.length(design.lining_fold_m) + " over the brim" : std::string()) +
             ". Tie it at the brim.",
         "", w.picture({.base_cloth = true, .lining = true})});
  if (!design.channels.empty()) {
    job.steps.push_back(
        {w.forms("Stand ") +
             " on their marks, tie them to hoop or battens at the brim, and check each with the level: plumb.",
         "", w.picture({.base_cloth = true, .lining = true, .forms_lift = 0.0})});
  }
  return job;
}

std::string soak_words(const Words& w) {
  const fill::FillPlan& fill = w.vessel.fill;
  const material::Bath& bath = w.plan.site.bath;
  if (fill.soak.too_wet_already)
    return "Do not soak: the blend is wet enough. Let it drain, or mix in something drier.";
  if (fill.soak.batches == 0) return "Do not soak: the blend is as wet as wanted.";
  return "Soak in " + std::to_string(fill.soak.batches) + (fill.soak.batches == 1 ? " batch: " : " batches: ") +
         w.amount(bath.soak_s, Dimension::duration) + " in the bath, " + w.amount(bath.drain_s, Dimension::duration) +
         " to drain over it. The next goes in while this one is spread.";
}

/// With the waiting for the baths.
std::string on_the_clock(const Words& w) {
  const int baths = w.plan.site.practice.baths;
  return clock_time(w.vessel.fill.clock_s / 3600.0) + " on the clock with " + std::to_string(baths) +
         (baths == 1 ? " bath" : " baths");
}

Job fill_job(const Words& w) {
  const fill::FillPlan& fill = w.vessel.fill;
  const fill::Practice& practice = w.plan.site.practice;
  Job job{"fill",
          "bath, " + std::to_string(practice.pails_a_lift) + " pails of " +
              w.amount(practice.pail_m3, Dimension::volume) +
              ", fork, rake, firm step, hose, FFP2 or N95 masks, gloves",
          people(practice.people),
          on_the_clock(w),
          {}};
  const bool forms = !w.design().channels.empty();
  const double up = forms ? 0.0 : -1.0;
  job.steps.push_back(
      {soak_words(w), std::string(rules::words::bath) + " Mask (FFP2 or N95) on for dry material.", bath_picture()});
  const double first = 1.0 / std::max(1, fill.lifts);
  std::string pails = "Tip in " + std::to_string(std::min(practice.pails_a_lift, std::max(1, fill.pails))) +
                      " pails and spread them level: one lift, " + w.length(fill.lift_height_m) +
                      " high. Do not tread.";
  if (fill.inoculum_kg > 0.0) {
    pails += " Strew " + w.amount(fill.inoculum_kg / std::max(1, fill.lifts), Dimension::mass) +
             " of finished compost on it.";
  }
  std::string lift = "A full pail weighs " + w.amount(fill.pail_mass_kg, Dimension::mass) + ".";
  if (fill.pail_limit_kg <= 0.0) {
    lift = "The brim is too high to lift over from the ground: work from a firm platform, two hands to a pail.";
  } else if (fill.lifting_index > 1.0) {
    lift += " One person lifts at most " + w.amount(fill.pail_limit_kg, Dimension::mass) +
            ": part-fill pails, or lift in stages.";
  }
  job.steps.push_back(
      {pails, lift, w.picture({.lining = true, .fill_share = std::max(first, 0.12), .forms_lift = up})});
  job.steps.push_back({std::string("Check after each lift: ") + (forms ? "forms plumb, " : "") +
                           "lining smooth, a squeezed handful gives a few drops. Tick the lift on the fill card.",
                       "", w.picture({.lining = true, .fill_share = 0.55, .forms_lift = up})});
  job.steps.push_back({"Stop at " + w.length(w.design().fill_height_m) + " above the base, after " +
                           std::to_string(fill.lifts) + (fill.lifts == 1 ? " lift and " : " lifts and ") +
                           std::to_string(fill.pails) + " pails. Rake the top level" +
                           (forms ? ", and lay the cover cloth loosely round the forms until tomorrow." : "."),
                       "", w.picture({.lining = true, .fill_share = 1.0, .forms_lift = up})});
  job.steps.push_back({"Wash pails, tools and hands. Write down date, pails, what went in, and the moisture by hand.",
                       "Manure carries germs: wash before you eat, and keep these tools from finished compost.",
                       notes_picture()});
  return job;
}

Job forms_job(const Words& w) {
  const std::string after = w.amount(w.plan.site.practice.forms_out_after_s, Dimension::duration);
  Job job{"forms out",
          "firm step or platform, strap or cord with a loop, torch, gloves",
          people(2),
          clock_time(plan::practice::forms_out_hours / 2.0) + " on the clock (chosen), " + after + " after filling",
          {}};
  job.steps.push_back({"Wait " + after + ". Untie hoop or battens. Leave the cloth and the wall as they are.", "",
                       w.picture({.lining = true, .fill_share = 0.97, .forms_lift = 0.0})});
  job.steps.push_back({"Turn each form to and fro until it is loose, a quarter turn each way. Do not rock it sideways.",
                       "Stand level and firm; steam may be hot.",
                       w.picture({.lining = true, .fill_share = 0.97, .forms_lift = 0.0, .sign = Sign::turn})});
  job.steps.push_back(
      {"Pull it straight up with a second person, hand under hand.",
       "Lift with the legs, back straight; a form that sticks wants turning, not force.",
       w.picture(
           {.lining = true, .fill_share = 0.97, .forms_lift = 0.45, .one_form_only = true, .sign = Sign::arrow_up})});
  job.steps.push_back(
      {"Shine down each hole: open and smooth to the base. If its wall has fallen in, put the form back for a day.", "",
       w.picture({.lining = true, .fill_share = 0.97})});
  job.steps.push_back(
      {"Wash the forms, lay them flat in the shade: they are for the next vessel.", "", rack_picture()});
  return job;
}

void add_line_steps(const Words& w, Job& job) {
  const water::Line& pipe = w.plan.site.water.line;
  job.steps.push_back(
      {"Lay the water line round the top inside the wall, if it does not lie there yet, holes inward and down" +
           (pipe.sprays > 0 ? ", and set " + std::to_string(pipe.sprays) + (pipe.sprays == 1 ? " spray." : " sprays.")
                            : std::string(".")) +
           " Hang it on cord from the brim.",
       w.plan.site.water.drinking_water
           ? "Drinking water: a back-flow preventer as local codes ask, fitted by somebody licensed where they say so."
           : "",
       w.picture({.lining = true, .fill_share = 0.97, .line = true})});
  job.steps.push_back({"Open the valve: every hole runs, no channel is hit, nothing runs down outside. Close it.", "",
                       w.picture({.lining = true, .fill_share = 0.97, .line = true, .sign = Sign::shower})});
}

/// What to do about water: by the card, and nothing where the programme lets none out.
WorkStep water_step(const Words& w) {
  const bool by_hand = w.plan.site.water.by_hand;
  const auto shower = w.picture({.lining = true, .fill_share = 0.97, .cover = true, .sign = Sign::shower});
  if (!w.vessel.programme.rows.empty() && water::let_out_kg(w.vessel.programme) <= 0.0) {
    return {by_hand
                ? "Do not water by rote: in this weather the heap keeps what it needs. Look at the water card, and "
                  "wet by hand what a squeeze finds dry."
                : "Leave the timer off: in this weather the heap keeps what it needs. Look at the water card, and wet "
                  "by hand what a squeeze finds dry.",
            by_hand ? std::string(rules::words::mist)
                    : "Drain line, timer and filter before frost. " + std::string(rules::words::mist),
            shower};
  }
  if (by_hand) {
    return {"Water by the water card: so many cans, every so many days, evenly over the top and into no channel.",
            "Carry no more than you lift with ease; half a can twice is as good. " + std::string(rules::words::mist),
            shower};
  }
  return {"Set the timer by the water card: how long, and every how many days. Set it anew each half-month.",
          "Drain line, timer and filter before frost. " + std::string(rules::words::mist), timer_picture()};
}

Job cover_job(const Words& w) {
  const bool by_hand = w.plan.site.water.by_hand;
  Job job{"cover and water",
          by_hand ? "shears, cord, watering can with a rose, or a hose with a soft spray"
                  : "shears, cord, water line with fittings, timer, pressure regulator, filter",
          people(1),
          clock_time(plan::practice::cover_hours) + " on the clock (chosen), once the forms are out",
          {}};
  if (!by_hand) add_line_steps(w, job);
  job.steps.push_back(
      {"Lay the cover cloth, a star cut over each channel, points folded under. Weigh its edge down outside the wall.",
       "", w.picture({.lining = true, .fill_share = 0.97, .line = !by_hand, .cover = true})});
  job.steps.push_back(water_step(w));
  job.steps.push_back(
      {"Keep the base free all round: air goes in below. From tomorrow read the core's temperature daily.",
       "A hot heap that dries out can smoulder: keep it moist, never seal it. " + std::string(rules::words::smoke),
       w.picture({.lining = true, .fill_share = 0.97, .cover = true, .sign = Sign::probe})});
  return job;
}

Job worms_job(const Words& w) {
  const UnitSystem units = w.plan.site.units;
  const std::string window =
      temperature(rules::worms::least_c, units) + " to " + temperature(rules::worms::most_c, units);
  Job job{"worms",
          "probe thermometer, hand fork, bucket with damp bedding, gloves",
          people(1),
          clock_time(plan::practice::worms_hours) + " on the clock (chosen)",
          {}};
  job.steps.push_back({"Read the probe in three places for a week. Go on when self-heating is over, all read " +
                           window + " and no frost is ahead, and not in the first " +
                           decimal(rules::worms::earliest_day, 0) + " days.",
                       std::string(rules::words::arm),
                       w.picture({.lining = true, .fill_share = 0.75, .cover = true, .sign = Sign::probe})});
  job.steps.push_back({"Fold the cover back. Water the top so that a squeezed handful gives a few drops.", "",
                       w.picture({.lining = true, .fill_share = 0.75, .sign = Sign::shower})});
  job.steps.push_back({std::string(rules::worms::place), std::string(rules::worms::caution),
                       w.picture({.lining = true, .fill_share = 0.75, .sign = Sign::worms})});
  job.steps.push_back(
      {"Cover again. Keep watering by the card; look after a week: they have gone in, or it is too hot, too dry or too "
       "salty.",
       "", w.picture({.lining = true, .fill_share = 0.75, .line = true, .cover = true})});
  return job;
}

Job harvest_job(const Words& w) {
  const double hours = plan::hours_of(w.plan.site, w.vessel).harvest;
  const int count = std::max(1, w.plan.site.practice.people);
  Job job{"harvest",
          "probe thermometer, pliers, fork, shovel, sieve, barrow, dust mask, gloves",
          people(count),
          clock_time(hours / count) + " on the clock (chosen)",
          {}};
  job.steps.push_back({"It is ready when " + rules::harvest::all_words() + ". Else wait.",
                       std::string(rules::words::arm),
                       w.picture({.lining = true, .fill_share = 0.6, .cover = true, .sign = Sign::probe})});
  job.steps.push_back({w.plan.site.water.by_hand
                           ? "Stop watering a week before. Take off the cover."
                           : "Stop the water a week before. Take off cover and line, flush and drain the line.",
                       "", w.picture({.lining = true, .fill_share = 0.6})});
  job.steps.push_back({"Open the joint of the wall from the top down and swing it away.",
                       w.open_wall() ? "Wire springs: gloves, eye protection. Stand beside the joint, not before it."
                                     : "Stand beside the wall, not before it: the filling can slide.",
                       w.picture({.lining = true, .open_front = true, .fill_share = 0.6})});
  job.steps.push_back({"Fork it out from the top down. Put worms and what is coarse aside for the next fill.",
                       "Do not undercut: a standing face can fall. Mask (FFP2 or N95) on when it is dry.",
                       w.picture({.lining = true, .open_front = true, .fill_share = 0.35, .sign = Sign::fork})});
  job.steps.push_back(
      {"Sieve, heap under a cloth that breathes, and write down the volume. Wash the base, look over cloths and ties.",
       "For use on food crops keep to the rules of your authority; readings are the proof.", sieve_picture()});
  return job;
}

}  // namespace

std::vector<Job> jobs_of(const plan::Plan& plan, const plan::VesselPlan& vessel) {
  const Words words{plan, vessel};
  std::vector<Job> jobs{build_job(words), fill_job(words)};
  if (!vessel.design.channels.empty()) jobs.push_back(forms_job(words));
  jobs.push_back(cover_job(words));
  jobs.push_back(worms_job(words));
  jobs.push_back(harvest_job(words));
  for (Job& job : jobs) {
    for (WorkStep& step : job.steps) {
      step.words = quantity::retold(step.words, plan.site.units);
      step.caution = quantity::retold(step.caution, plan.site.units);
    }
  }
  return jobs;
}

}  // namespace stillheap::sheet
