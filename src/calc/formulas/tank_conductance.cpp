#include "calc/heat_inputs.h"

namespace redd::calc::formulas {
namespace {

Result<Findings> evaluate(const Arguments& in) {
  const std::string &lid = in.text("lid"), &base = in.text("base");
  const heat::TankWalls walls{
      .length_m = in.number("length_cm") / 100.0, .width_m = in.number("width_cm") / 100.0, .water_depth_m = in.number("water_depth_cm") / 100.0,
      .material = in.text("wall") == "glass" ? heat::WallMaterial::glass : heat::WallMaterial::acrylic, .wall_m = in.number("wall_thickness_mm") / 1000.0,
      .side_foam_m = in.number("foam_thickness_mm") / 1000.0, .bare_sides = static_cast<int>(in.number("bare_sides")),
      .lid = lid == "none" ? heat::LidKind::none : lid == "foam" ? heat::LidKind::foam : heat::LidKind::sheet,
      .base = base == "open" ? heat::BaseKind::open_frame : base == "foam" ? heat::BaseKind::foam : heat::BaseKind::board};
  const auto estimate = heat::conductance_estimate(walls);
  const double volume_l = 1000.0 * walls.length_m * walls.width_m * walls.water_depth_m;
  const auto drift = heat::relaxation(heat::heat_capacity(Volume::from_l(volume_l)), estimate.mid, Temperature::from_c(20), Power::from_w(0));
  Findings found;
  found.add("conductance_w_per_k", estimate.mid.w_per_k());
  found.add("conductance_low_w_per_k", estimate.low.w_per_k());
  found.add("conductance_high_w_per_k", estimate.high.w_per_k());
  found.add("volume_l", volume_l);
  found.add("time_constant_hours", drift.time_constant.count());
  double side = 0.0, floor = 0.0, top = 0.0;
  for (const heat::Face& face : heat::faces(walls))
    (face.kind == heat::FaceKind::side ? side : face.kind == heat::FaceKind::floor ? floor : top) += face.conductance().w_per_k();
  found.add("sides_w_per_k", side);
  found.add("floor_w_per_k", floor);
  found.add("top_w_per_k", top);
  found.notes.push_back("Real tanks leak at pipes, gaps and edges. A temperature log with the chiller off tells more than any measure.");
  return found;
}

}  // namespace

Formula tank_conductance() {
  return {.name = "tank_conductance",
          .summary = "Heat a rectangular tank lets in per degree, face by face, with its doubt.",
          .inputs = {measure("length_cm", "cm", "length of the water", {30, 200}, {1, 2000}),
                     measure("width_cm", "cm", "width of the water", {20, 80}, {1, 2000}),
                     measure("water_depth_cm", "cm", "depth of the water", {20, 80}, {1, 2000}),
                     optional(choice("wall", "material of the walls", {"glass", "acrylic"}), "glass"),
                     optional(measure("wall_thickness_mm", "mm", "thickness of the walls", {3, 25}, {0.5, 500}), "6"),
                     optional(measure("foam_thickness_mm", "mm", "foam on the sides", {0, 100}, {0, 1000}), "0"),
                     optional(measure("bare_sides", "", "long sides left without foam, 0 to 2", {0, 2}, {0, 2}), "0"),
                     optional(choice("lid", "what covers the water", {"none", "sheet", "foam"}), "sheet"),
                     optional(choice("base", "what the tank stands on", {"open", "board", "foam"}), "board")},
          .outputs = {{"conductance_w_per_k", "W/K", "whole tank"},
                      {"conductance_low_w_per_k", "W/K", "low end, 90 %"},
                      {"conductance_high_w_per_k", "W/K", "high end, 90 %"},
                      {"volume_l", "L", "volume of water"},
                      {"time_constant_hours", "h", "time to go 63 % of the way to the room"},
                      {"sides_w_per_k", "W/K", "through the sides"},
                      {"floor_w_per_k", "W/K", "through the floor"},
                      {"top_w_per_k", "W/K", "through lid or surface"}},
          .source = "Films after ISO 6946, conductivities after ISO 10077-2, foam 0.033 W/(m K) of insulation tables; doubt assumed",
          .evaluate = evaluate};
}

}  // namespace redd::calc::formulas
