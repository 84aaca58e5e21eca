#pragma once
#include <string_view>

/// Cautions that stand in more than one place, each once: sheets, status, today and the page read them here. They defer
/// to local codes and licensed practice. Common practice, no source, where none is named.
namespace stillheap::rules::words {

/// No bare touch from here on. Chosen, below what burns in a short touch.
inline constexpr double touch_c = 40.0;
/// For whoever reaches or squeezes; a test holds its number to touch_c.
inline constexpr std::string_view arm =
    "No hand or arm into the heap where the probe reads 40 degC (104 degF) or more; below that gloved.";
inline constexpr std::string_view scald =
    "The inside scalds and the top lets out hot vapour: stand back, wear gloves, lift the cover from the far side.";
inline constexpr std::string_view smoke =
    "Smoke or a burnt smell: leave, keep everybody away and call the fire service; the smoke is poisonous. Do not dig "
    "it "
    "open: air feeds embers.";
inline constexpr std::string_view hose =
    "No smoke: wet it slowly and evenly from a distance, with a charged hose at hand, and follow the local fire code.";
inline constexpr std::string_view bath =
    "An open bath drowns children and animals: never leave it alone uncovered, and empty it when done. Used soaking "
    "water carries germs: gloves, none on crops that are eaten raw, none into drains or open water.";
inline constexpr std::string_view mist =
    "Standing or sun-warmed water breeds legionella, and spray carries it into the lungs: let the line run out first, "
    "spray coarse and low, stay upwind out of the mist, empty tanks and lines that stand.";
inline constexpr std::string_view mask =
    "Dust carries mould spores: a fitted FFP2 or N95 mask, wet the material first, work upwind. People with asthma or "
    "a "
    "weak immune system stay away.";
inline constexpr std::string_view pull =
    "Two people, straight up, from outside: never climb in or lean in head down. Hot vapour comes out of the hole: "
    "gloves, "
    "face turned away.";
inline constexpr std::string_view airless =
    "Never lean into or climb into a vessel or a channel: air low in oxygen gives no warning.";

}  // namespace stillheap::rules::words
