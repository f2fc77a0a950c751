#pragma once
// How well a tank's walls, floor and lid keep the room out: resistances in series for each face. Start at conductance_estimate().
// A window's published figure (about 5.7) is for air on both sides and too low for a tank: water replaces one film of still air.

#include <span>
#include <vector>

#include "quantities/estimate.h"
#include "quantities/heat.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::heat {

/// Which way heat flows through a face of a cold tank: it decides the film of still air outside.
enum class FaceKind { side, floor, top };

/// Film of still air in a room with its radiation, m2 K/W.
/// Source  [iso_surface2017]: 0.13 horizontal flow. Down (warm air over cold water or lid) 0.17 and up (under the floor) 0.10 from memory.
constexpr double air_film_m2_k_per_w(FaceKind kind) { return kind == FaceKind::side ? 0.13 : kind == FaceKind::top ? 0.17 : 0.10; }
/// Film of moving water. Source  200-1000 W/(m2 K) for pumped or aerated water, from memory; hardly matters beside the air's.
inline constexpr double water_film_m2_k_per_w = 0.002;
/// Still air between water and lid, heat flowing down. Source  [iso_surface2017], unventilated layer of 50 mm, from memory.
inline constexpr double gap_under_lid_m2_k_per_w = 0.21;

/// Conductivities, W/(m K).
/// Source  glass, acrylic, polycarbonate: [iso_windows2017]; wood: softwood of the same, from memory. Foam: extruded polystyrene at its
///         design value. Differs: [openstax_physics2012] prints 0.010 for polystyrene foam, less than still air; tests give 0.027-0.043.
namespace conductivity_w_per_m_k {
inline constexpr double glass = 1.0;
inline constexpr double acrylic = 0.18;
inline constexpr double polycarbonate = 0.20;
inline constexpr double foam = 0.033;
inline constexpr double wood = 0.13;
}  // namespace conductivity_w_per_m_k

/// One sheet of a wall.
struct Layer {
  double thickness_m;
  double conductivity_w_per_m_k;
};

/// Heat flow through a square metre per degree: 1 / (films + layers).
/// In      film resistances >= 0, their sum with the layers > 0.
double u_value_w_per_m2_k(std::span<const Layer> layers, double outer_film_m2_k_per_w, double inner_film_m2_k_per_w = water_film_m2_k_per_w);

enum class WallMaterial { glass, acrylic };
enum class LidKind { none, sheet, foam };
enum class BaseKind { open_frame, board, foam };

/// A rectangular tank as a keeper can measure it.
struct TankWalls {
  double length_m = 0.0, width_m = 0.0, water_depth_m = 0.0;  ///< of the water, each > 0
  WallMaterial material = WallMaterial::glass;
  double wall_m = 0.006;                                      ///< thickness of the panes
  double side_foam_m = 0.0;                                   ///< foam on the insulated sides
  int bare_sides = 0;                                         ///< of the long sides left as viewing panes, 0-2; matters only with foam
  LidKind lid = LidKind::sheet;                               ///< sheet: 3 mm of glass or plastic; foam: as thick as the sides' foam, at least 25 mm
  BaseKind base = BaseKind::board;                            ///< board: 18 mm of wood; foam: 25 mm on it
};

/// One face with what goes through it.
struct Face {
  FaceKind kind;
  double area_m2;
  double u_w_per_m2_k;
  bool bare;  ///< no foam: where sweating is looked for
  Conductance conductance() const { return Conductance::from_w_per_k(area_m2 * u_w_per_m2_k); }
};

/// Sides, floor and top, bare and insulated apart.
std::vector<Face> faces(const TankWalls& walls);

/// Sum over the faces.
Conductance conductance(const TankWalls& walls);

/// The same with its doubt.
/// Assumed: right within a factor 1.5 either way (90 %); with foam up to twice as much, because real tanks leak at pipes, lid gaps and edges.
Estimate<Conductance> conductance_estimate(const TankWalls& walls);

/// Rule for a bare lidded tank of which only the volume is known: 0.33 V^(2/3) W/K, V in litres, right within a factor 1.5.
/// Source  sum over the faces of ordinary proportions; conductance() with a sheet lid on a board gives 7-9 % more for glass of 75-300 L, less for acrylic.
Estimate<Conductance> conductance_from_volume(Volume water);

/// Temperature of a face's outer surface: what decides whether it sweats.
Temperature outer_surface(double u_value, FaceKind kind, Temperature water, Temperature room);

}  // namespace redd::heat
