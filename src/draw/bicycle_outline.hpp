#pragma once
// The bicycle itself, from the plan's shapes: wheels and chain, tubes as double outlines with their overlaps, and
// forms.

#include "draw/scene.hpp"
#include "draw/svg_writer.hpp"

namespace cotter::draw {

/// Ground, wheels with their axes, sprocket and ring, and the chain around both as a hidden line.
void draw_wheels(SvgWriter& svg, const Scene& scene);

/// All tubes, farthest first. Tubes of one welded group share one outline; a left tube that a right one covers is not
/// drawn. Each carries `data-tube` and its ends in micrometres.
void draw_tubes(SvgWriter& svg, const Scene& scene);

/// Arms and pad of each rim brake, in front of the fork and behind the stays; nothing where there is none.
void draw_rim_brakes(SvgWriter& svg, const Scene& scene);

/// Crank, pedal, handlebar, brake hood and saddle; a saddle still to be chosen is phantom.
void draw_cockpit_and_crank(SvgWriter& svg, const Scene& scene);

/// Centre lines of head and seat tube, and the plan's own axes.
void draw_axes(SvgWriter& svg, const Scene& scene);

}  // namespace cotter::draw
