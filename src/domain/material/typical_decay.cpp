#include "domain/material/typical_row.hpp"

// Three speeds. What could be read of composting kinetics (abstracts) bounds them; the central values are chosen
// inside:
//  - medium: cellulose lost in 43 days of laboratory composting, 61 to 78 % (Michel et al. 1993, abstract read), is
//  0.022
//    to 0.035 per day at that temperature, about 0.0025 to 0.004 at 20 degC if it ran near 55 degC.
//  - slow: acid-insoluble matter lost there, 40 to 49 %, about 0.0015 per day at 20 degC; static chip piles lost
//  only 2.4
//    to 3.8 % of dry matter in 5.9 months (Energies 15, 7094, 2022, abstract read).
//  - fast: so that active manure and food take up 1 to 10 g O2 per kg of volatile solids and hour (Richard, Cornell,
//  after
//    Haug 1993, read) at the degraded shares below.
// A spread of half to double belongs to every number here.

namespace stillheap::material::table {
namespace {

constexpr std::array<double, pool_count> usual{0.030, 0.0035, 0.0005};
constexpr std::array<double, pool_count> dung{0.060, 0.0035, 0.0005};
constexpr std::array<double, pool_count> juicy_rates{0.060, 0.0035, 0.0005};
constexpr std::array<double, pool_count> woody{0.030, 0.0035, 0.0002};

constexpr std::string_view usual_source =
    "chosen within 0.015-0.08, 0.0015-0.008 and 0.0001-0.0015 per day; medium and slow bounded by Michel et al. 1993 "
    "(abstract read), fast by the oxygen uptake of active material (Richard, Cornell, after Haug 1993, read)";
constexpr std::string_view fresh_source =
    "as for other materials, but fast doubled within its 0.015-0.08, since sugars and proteins of living tissue go "
    "first: kitchen scraps with leaves rose by 23 K a day at 23 degC in a box of 0.3 to 0.4 m3, 1.1 g O2 per kg of "
    "volatile solids and hour without any loss (public temperature logs, own arithmetic), where 0.030 gives 0.7 to 1.2";
constexpr std::string_view dung_source =
    "as for other materials, but fast doubled within its 0.015-0.08: fresh dung at 30 degC then takes up 1.1 to 2.8 g "
    "O2 "
    "per kg of volatile solids and hour. Beef manure with bedding took up to 1.4 (animbiosci.org, article 23434, "
    "abstract "
    "read), compost that counts as unstable 2.5; with 0.030 it stood at 0.6, which test standards call nearly stable";
constexpr std::string_view woody_source =
    "chosen as for other materials; slow bounded by the 2.4 to 3.8 % dry matter a chip pile lost in 5.9 months "
    "(Energies "
    "15, 7094, 2022, abstract read)";
constexpr std::string_view share_source =
    "chosen shares of the volatile solids (1 - ash): no table of pools could be read; within about a fifth of the "
    "degradability that lignin suggests (Chandler et al. 1980) plus what fungi take later";
constexpr std::string_view food_source =
    "chosen shares of the volatile solids (1 - ash), 80 % in all: Zhang et al. 2007 destroyed 81 % in 28 days (read)";
constexpr std::string_view coffee_source =
    "chosen shares of the volatile solids (1 - ash), slow for its 22 % lignin (E3S Web Conf. 142, 04002, 2020, read)";

constexpr Decay usual_decay(double fast_share, double medium_share, double slow_share,
                            std::string_view source = share_source) {
  return {{fast_share, medium_share, slow_share}, usual, source, usual_source};
}

constexpr Decay fresh_decay(double fast_share, double medium_share, double slow_share,
                            std::string_view source = share_source) {
  return {{fast_share, medium_share, slow_share}, juicy_rates, source, fresh_source};
}

constexpr Decay woody_decay(double fast_share, double medium_share, double slow_share) {
  return {{fast_share, medium_share, slow_share}, woody, share_source, woody_source};
}

constexpr Decay dung_decay(double fast_share, double medium_share, double slow_share,
                           std::string_view source = share_source) {
  return {{fast_share, medium_share, slow_share}, dung, source, dung_source};
}

constexpr std::string_view horse_source =
    "chosen shares of the volatile solids (1 - ash): well-aired jars of horse manure at 60 degC lost 21, 28, 34 and 32 "
    "% "
    "of their organic matter in 40, 64, 208 and 256 h (Sinden & Hauser 1950, Mushroom Science 1, table 1, read); a "
    "fast "
    "quarter gives 16, 21, 32 and 34, a fast tenth half of what was measured";
constexpr std::string_view litter_source =
    "chosen shares of the volatile solids (1 - ash): decayed for weeks under the animals, at 40 to 70 degC in deep "
    "mats "
    "(Moller et al. 2000, abstract read), so that a third of fresh dung's first uptake is left";
constexpr std::string_view bark_source =
    "chosen shares of the volatile solids (1 - ash): fresh spruce bark lost 6 % of its dry matter a month and passed "
    "50 "
    "degC within a week (bark storage study, Luke 2020, abstract read)";
constexpr std::string_view peat_source =
    "chosen shares of the volatile solids (1 - ash): 1 to 42 % of the carbon of 560 peat soils in half a year at 20 "
    "degC "
    "(Bader et al. 2018, Biogeosciences 15, 703, abstract read)";

constexpr std::string_view shoot_source =
    "chosen shares of the volatile solids (1 - ash): chips with bark and thin wood lost 4.2, 6.4, 7.5 and 9.8 % in "
    "weeks "
    "1 to 4 (poplar in a chamber, Forests 13, 459, 2022, appendix table read), piles 14 to 23 % in 228 days (poplar, "
    "Biomass and Bioenergy 96, 119, 2017, abstract read)";

}  // namespace

constinit const Decay food = fresh_decay(0.45, 0.25, 0.10, food_source);
constinit const Decay grass = fresh_decay(0.30, 0.35, 0.15);
constinit const Decay fruit = fresh_decay(0.35, 0.25, 0.15);
constinit const Decay coffee = usual_decay(0.15, 0.30, 0.25, coffee_source);
constinit const Decay grain = fresh_decay(0.30, 0.35, 0.15);
constinit const Decay poultry = dung_decay(0.30, 0.35, 0.10);
constinit const Decay pig = dung_decay(0.25, 0.35, 0.10);
constinit const Decay cow = dung_decay(0.12, 0.33, 0.20);
constinit const Decay horse = dung_decay(0.25, 0.30, 0.20, horse_source);
constinit const Decay hay = usual_decay(0.15, 0.45, 0.15);
constinit const Decay straw = usual_decay(0.05, 0.45, 0.20);
constinit const Decay leaf = usual_decay(0.07, 0.30, 0.25);
constinit const Decay hull = usual_decay(0.02, 0.15, 0.25);
constinit const Decay paper = usual_decay(0.02, 0.50, 0.15);
constinit const Decay wood = woody_decay(0.01, 0.07, 0.27);
constinit const Decay shoots = {{0.08, 0.15, 0.27}, woody, shoot_source, woody_source};
constinit const Decay bark = {{0.03, 0.15, 0.20}, woody, bark_source, woody_source};
constinit const Decay seaweed = fresh_decay(0.30, 0.30, 0.15);
constinit const Decay spent = usual_decay(0.05, 0.20, 0.25);
constinit const Decay deep_litter = dung_decay(0.03, 0.35, 0.22, litter_source);
constinit const Decay poultry_litter = dung_decay(0.10, 0.35, 0.15, litter_source);
constinit const Decay peat = usual_decay(0.01, 0.10, 0.20, peat_source);
constinit const Decay ripe = usual_decay(0.01, 0.08, 0.20);

}  // namespace stillheap::material::table
