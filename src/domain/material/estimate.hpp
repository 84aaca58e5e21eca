#pragma once

/// Small estimates for people who measure their own feedstock.
namespace stillheap::material {

/// Moisture, kg/kg wet, from oven drying: container alone, wet sample alone, dry sample in its container (any one
/// unit). Source: Richard & Trautmann, Cornell Waste Management Institute, "Moisture content". Throws InputError when
/// the sample has no mass or comes out of the oven heavier.
[[nodiscard]] double moisture_from_drying(double wet_sample, double container, double dry_with_container);

/// Carbon, kg/kg dry, from ash, kg/kg dry: volatile solids / 1.8.
/// Source: Adams et al. 1951 as given by Richard, Cornell, "Estimating Carbon Content" (carbon is 45 to 60 % of them).
[[nodiscard]] double carbon_from_ash(double ash_dry);

/// Share of the volatile solids that decays, from their lignin share: 0.830 - 2.8 L, never below 0 (L above 0.296).
/// Source: Chandler et al. 1980, 0.830 - 0.028 X with X in per cent (coefficients from memory). Found for weeks of
/// anaerobic digestion: a lower bound for a year with fungi, which take part of the lignin too.
[[nodiscard]] double degradable_share_from_lignin(double lignin_of_volatile);

}  // namespace stillheap::material
