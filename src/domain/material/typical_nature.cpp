#include "domain/material/typical_row.hpp"

// How classes of materials take air, water and heat, shredded and soaked as a heap is filled. A spread belongs to every
// number (physics/parameters.cpp): of a factor of 1.6 for the particle size, 15 % for water, 2 to 3 K for temperatures.
//  - particle size that resists air: no table by material could be read. Wood is bounded by piles; the others follow
//    from the thickness of the pieces (a sheet of thickness t resists like a ball of 3 t, Ergun 1952) and from how they
//    clump when wet, and are chosen.
//  - envelope: of wood its basic density; of the others what water held and solids fill, 1 / (h / 1000 + 1 / 1600).
//  - temperatures: held reactors and the highest readings of heaps that are not among the records of validation.md.

namespace stillheap::material::table {
namespace {

constexpr std::string_view chip_air =
    "chosen: 135 kg dry/m3 then have 8e-9 m2, between 2e-8 of loose residues and compacted chips and less than 2e-9 "
    "after "
    "seven months, in piles (air permeability of chipped forest fuel, abstract read); laboratory columns have 1e-7";
constexpr std::string_view sheet_air = "chosen: three times the thickness of walls or blades, matted when wet";
constexpr std::string_view fine_air =
    "chosen: 19 to 78 % of sawdust and shavings pass 0.25 mm (Ahn et al. 2016 and 2020, Asian-Australas. J. Anim. "
    "Sci., "
    "read); air meets the fines";
constexpr std::string_view dung_air =
    "chosen: crumbs and fibres well below a millimetre that clump when wet; manures close to less than 30 % air space "
    "where straw and shavings keep 38 to 99 % (Ahn et al. 2008, abstract read)";
constexpr std::string_view ripe_air = "chosen: crumbs of half a millimetre and finer";

constexpr std::string_view wood_water =
    "chosen: lumens of drained chips half full; poplar and willow stand green at 1.0 to 1.4";
constexpr std::string_view soak_water =
    "chosen below what 24 to 72 h under water leave, which also fills gaps: straw 2.2 to 3.6, shavings 5.4, sawdust "
    "2.7 "
    "(Whisenand 1918, Ahn et al. 2016, Spiehs et al. 2013, read)";
constexpr std::string_view leaf_water =
    "oak leaves 1.62 after 24 h under water (Deherain in Whisenand 1918, read), rounded";
constexpr std::string_view own_water = "chosen: what it is delivered with, which living tissue and dung keep";
constexpr std::string_view bedded_water =
    "chosen: bedding soaks 1.3 to 4.3 of water and more of slurry (Kasimati 2015, abstract read)";
constexpr std::string_view ripe_water =
    "chosen: zero tension at 64 % wet basis (Miller, in the Cornell compost pages) is 1.8; water capacity of composts "
    "3.5 "
    "to 4.4 by another test (Misr J. Agric. Eng., abstract read)";
constexpr std::string_view peat_water =
    "peat 5 to 7 after 24 h under water (Deherain in Whisenand 1918, read), low end";

constexpr std::string_view wood_heat =
    "chosen: loose poplar chips stood at 60 degC for two weeks (Jirjis 2008, abstract read), wood's fungi end near "
    "there";
constexpr std::string_view bark_heat =
    "best at 40 or 50 degC in held reactors (Campbell et al. 1990, Biol. Wastes 31, 175, abstract read); most chosen";
constexpr std::string_view straw_heat =
    "chosen: straw alone reached 54 degC (Churchill et al. 1996, abstract read), damp hay 57 to 71 degC by living "
    "things";
constexpr std::string_view leaf_heat = "chosen between straw and green waste; shredded prunings with leaves 60 degC";
constexpr std::string_view green_heat =
    "best between 55 and 60, Suler & Finstein 1977; most chosen: large green-waste heaps 70 to 80 degC (trade texts), "
    "small ones of grass, leaves and scraps 53 to 74";
constexpr std::string_view food_heat =
    "household waste faster at 55 than at 40 or 67 degC (Sundberg 2005, abstract read); most chosen: vegetable waste "
    "in "
    "a drum 61 and 64, grape marc 71 and 72 (abstracts)";
constexpr std::string_view dung_heat =
    "cattle manure most active at 54 degC and with living enzymes still at 70 (Bioresour. Technol. 96, 1821, 2005, "
    "abstract read); most chosen: highest readings of manure heaps 65, 66, 69.5, 70 and 74 (Brito 2010, Dewes 1999, "
    "Moller et al. 2000, abstracts; two heaps by their makers), compost bacteria grow to 80 (Beffa et al. 1996, from "
    "memory)";

}  // namespace

constinit const Nature chips{Kind::wood, {0.65e-3, 430.0, 1.4, 54.0, 67.0}, chip_air, wood_water, wood_heat};
constinit const Nature shredded_bark{Kind::wood, {0.5e-3, 350.0, 1.8, 47.0, 65.0}, chip_air, wood_water, bark_heat};
constinit const Nature shavings{Kind::wood, {0.45e-3, 350.0, 2.8, 54.0, 67.0}, fine_air, soak_water, wood_heat};
constinit const Nature fine_wood{Kind::wood, {0.25e-3, 350.0, 2.2, 54.0, 67.0}, fine_air, soak_water, wood_heat};
constinit const Nature straws{Kind::dry_plant, {0.9e-3, 330.0, 2.4, 56.0, 69.0}, sheet_air, soak_water, straw_heat};
constinit const Nature dry_leaves{Kind::dry_plant, {0.45e-3, 400.0, 1.8, 57.0, 70.0}, sheet_air, leaf_water, leaf_heat};
constinit const Nature hulls{Kind::dry_plant, {0.6e-3, 350.0, 1.8, 56.0, 69.0}, sheet_air, soak_water, straw_heat};
constinit const Nature paper_sheets{
    Kind::dry_plant, {0.45e-3, 330.0, 2.4, 56.0, 69.0}, sheet_air, soak_water, straw_heat};
constinit const Nature green{Kind::fresh, {0.45e-3, 190.0, 4.6, 58.0, 74.0}, sheet_air, own_water, green_heat};
constinit const Nature scraps{Kind::fresh, {0.4e-3, 250.0, 3.4, 56.0, 70.0}, dung_air, own_water, food_heat};
constinit const Nature juicy{Kind::fresh, {0.4e-3, 150.0, 6.0, 56.0, 70.0}, dung_air, own_water, food_heat};
constinit const Nature marcs{Kind::fresh, {0.35e-3, 330.0, 2.4, 57.0, 72.0}, dung_air, own_water, food_heat};
constinit const Nature solid_manure{Kind::manure, {0.25e-3, 220.0, 4.0, 56.0, 73.0}, dung_air, own_water, dung_heat};
constinit const Nature bedded_manure{
    Kind::manure, {0.35e-3, 300.0, 2.6, 56.0, 73.0}, dung_air, bedded_water, dung_heat};
constinit const Nature hen_dung{Kind::manure, {0.2e-3, 320.0, 2.5, 56.0, 73.0}, dung_air, own_water, dung_heat};
constinit const Nature bird_litter{Kind::manure, {0.25e-3, 330.0, 2.4, 56.0, 73.0}, dung_air, bedded_water, dung_heat};
constinit const Nature humus{Kind::ripe, {0.3e-3, 340.0, 2.2, 54.0, 70.0}, ripe_air, ripe_water, leaf_heat};
constinit const Nature moss_peat{Kind::ripe, {0.35e-3, 180.0, 5.0, 54.0, 70.0}, ripe_air, peat_water, leaf_heat};

}  // namespace stillheap::material::table
