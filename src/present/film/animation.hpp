#pragma once
#include <filesystem>
#include <vector>

#include "present/sheet/field_drawing.hpp"

namespace stillheap::sheet {

/// Paper of a frame: 1280 by 720 pixels at the scale the animation draws at.
[[nodiscard]] Paper frame_paper();

/// One frame: upright cut and plan of temperature, oxygen and moisture on the frame's day, colour bars, and a line that
/// shows how far the run has come. `scales` are those of `shown_fields`, the same for all frames.
void draw_frame(Canvas& canvas, const plan::Plan& plan, const plan::VesselPlan& vessel,
                const forecast::Snapshot& snapshot, const std::vector<Span>& scales);

/// Writes the inside of every vessel as a film, GIF or MP4 by the file's ending, and returns the files: one vessel
/// takes the name as given, several add theirs to it. The forecast must have been asked for frames. Throws InputError
/// for another ending, RunError when the encoder is missing or fails, or there are no frames.
std::vector<std::filesystem::path> write_animation(const plan::Plan& plan, const std::filesystem::path& file);

}  // namespace stillheap::sheet
