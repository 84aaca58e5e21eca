#include "model/physics/parameters.hpp"

#include <array>

namespace stillheap::physics {
namespace {

using P = Parameters;
constexpr auto log = Spread::lognormal;
constexpr auto plain = Spread::normal;

// Spreads are ours throughout ("chosen"): no coefficients of variation were found in the sources read.
constexpr auto rows = std::to_array<ParameterRow>({
    {"least temperature of decay", "degC", &P::temperature_least_c, plain, 1.5,
     "Richard & Walker 2006 cardinals, from memory; spread chosen"},
    {"best temperature of decay", "degC", &P::temperature_best_c, plain, 1.5,
     "Richard & Walker 2006 cardinals, from memory; CO2 evolution best at 56 to 60 degC: Suler & Finstein 1977; spread "
     "chosen"},
    {"most temperature of decay", "degC", &P::temperature_most_c, plain, 3.0,
     "Richard & Walker 2006 cardinals, from memory; spread chosen as of the highest readings of manure heaps"},
    {"factor on decay by 10 K below 20 degC", "-", &P::cool_factor_10k, log, 0.15,
     "2 from 5 to 35 degC over 25 incubations: Kaetterer et al. 1998, Biol. Fertil. Soils 27, 258 (abstract read); "
     "spread chosen"},
    {"factor on all decay rates", "-", &P::rate_factor, log, 0.50,
     "1 by definition; spread chosen: a factor of two and more between lots of one material"},
    {"moisture at half rate", "kg/kg wet", &P::moisture_half_wet, plain, 0.04,
     "7.0622 over 17.684 of Haug 1993, from memory; spread chosen, of the size by which bests differ between "
     "materials"},
    {"oxygen at half rate", "% by volume", &P::oxygen_half_percent, log, 0.5,
     "within -0.67 to 1.74 % of Richard, Walker & Gossett 2006, Biotechnol. Prog. 22; value and spread chosen"},
    {"oxygen taken up per solids lost", "kg/kg", &P::oxygen_yield, log, 0.10,
     "stoichiometry of mixed plant matter and manure, 1.25 to 1.50; value and spread chosen"},
    {"heat per oxygen", "J/kg", &P::heat_per_oxygen_j_kg, plain, 0.35e6,
     "13.6 to 14.4 MJ/kg, Haug 1993, from memory; glucose and cellulose by higher heating value give 14.6, 14.7"},
    {"water made per solids lost", "kg/kg", &P::water_yield, log, 0.10,
     "stoichiometry: cellulose 0.556, glucose 0.600, food waste 0.498; spread chosen"},
    {"particle size that resists air", "m", &P::particle_size_m, log, 0.50,
     "chosen: loose chips (135 kg dry/m3) then have 4e-8 m2, between the 1e-7 of laboratory columns and the 2e-8 in "
     "piles of a study of the air permeability of chipped forest fuel (abstract read)"},
    {"dry matter in a particle's envelope", "kg/m3", &P::particle_kg_m3, log, 0.15,
     "basic density of wood, 350 to 550, from memory; taken for all materials"},
    {"factor on heat conductivity", "-", &P::conductivity_factor, log, 0.20,
     "1 keeps the mixing law inside the bands of Ahn et al. 2009; spread chosen"},
    {"specific heat of dry solids", "J/(kg K)", &P::solids_heat_j_kg_k, log, 0.12,
     "dry wood 1200 to 1500, from memory"},
    {"water held against gravity", "kg/kg dry", &P::holding_capacity, log, 0.15,
     "zero tension at 64 % wet basis: F. C. Miller in the Cornell compost pages; wheat straw 2.2: Whisenand 1918"},
    {"saturated water conductivity", "m/s", &P::saturated_conductivity_m_s, log, 1.0,
     "chosen, between bark and fine compost"},
    {"capillary diffusivity at holding capacity", "m2/s", &P::capillary_m2_s, log, 0.7,
     "0.04 m rise in 6 h in yard-waste compost, Water Sci. Technol. 67 (2013) 2406; a front over D_h s^5.7 stands at "
     "0.615 (D_h t)^0.5 (self-similar solution)"},
    {"exponent of the retention curve", "-", &P::retention_exponent, log, 0.2,
     "container media hold about 0.62 of their volume at 0.1 m and 0.40 at 0.5 m suction (De Boodt & Verdonck 1972, "
     "from "
     "memory)"},
    {"suction at holding capacity", "m", &P::holding_suction_m, log, 0.4,
     "container capacity is taken at 0.1 m (De Boodt & Verdonck 1972, from memory)"},
    {"height lost per solids lost", "-", &P::height_per_solids, plain, 0.15, "chosen: 1 keeps the dry bulk density"},
    {"compression index", "-", &P::compression_index, log, 0.5,
     "chosen; class of test: Das & Keener 1997, McCartney & Chen 2001"},
    {"time to settle under load", "s", &P::compression_time_s, log, 0.3, "chosen: five days"},
    {"factor on outside films", "-", &P::film_factor, log, 0.3, "1 by definition; spread chosen"},
    {"factor on the cloths' flow resistance", "-", &P::cloth_flow_factor, log, 0.8, "1 by definition; spread chosen"},
    {"vapour resistance of cloth", "s/m", &P::cloth_vapour_s_m, log, 0.4,
     "one woven layer of 5 m2 Pa/W, ISO 11092 class, from memory"},
    {"entry and exit loss of a channel", "velocity heads", &P::channel_loss, plain, 0.2,
     "0.5 sharp entry (Idelchik) plus 1.0 exit, from memory"},
    {"factor on heat and vapour transfer in channels", "-", &P::channel_transfer_factor, log, 0.3,
     "1 by definition; spread chosen"},
    {"dissolved salts per conductivity of the 1:5 extract", "kg/kg dry per S/m", &P::salt_per_conductivity, log, 0.1,
     "640 mg/L per dS/m (FAO-29 rev. 1, from memory) times 5 L/kg"},
});

}  // namespace

std::span<const ParameterRow> parameter_rows() noexcept { return rows; }

}  // namespace stillheap::physics
