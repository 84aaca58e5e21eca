#pragma once

/// Colours of the sheets: black on white, one accent, and two maps for fields.
namespace stillheap::sheet {

/// Red, green and blue, 0..1, sRGB.
struct Colour {
  double red = 0.0, green = 0.0, blue = 0.0;
};

// All chosen. Ink and accent keep a contrast above 7:1 on white, also when printed in grey.
inline constexpr Colour ink{0.10, 0.10, 0.10};
inline constexpr Colour soft{0.36, 0.36, 0.36};     ///< labels and notes
inline constexpr Colour hair{0.74, 0.74, 0.74};     ///< thin rules
inline constexpr Colour wash{0.945, 0.940, 0.930};  ///< quiet backgrounds
inline constexpr Colour paper_white{1.0, 1.0, 1.0};
inline constexpr Colour accent{0.56, 0.22, 0.06};  ///< burnt umber
inline constexpr Colour accent_wash{0.93, 0.85, 0.80};

/// Maps for fields, both even in lightness and readable by the colour-blind.
/// Source: N. J. Smith, S. van der Walt, E. Firing 2015, maps "inferno" and "viridis", released under CC0.
/// `water` is ours: straight in CIE L*a*b* from a pale to a deep blue, so that its lightness falls evenly.
enum class FieldMap { inferno, viridis, water };

/// Colour at a share 0..1 of the map, linear between table rows; values outside are held at the ends.
[[nodiscard]] Colour map_colour(FieldMap map, double share) noexcept;

/// CIE 1976 lightness L*, 0..100, of an sRGB colour. Source: IEC 61966-2-1 and CIE 15, white D65.
[[nodiscard]] double lightness(Colour colour) noexcept;

}  // namespace stillheap::sheet
