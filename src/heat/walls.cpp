#include "heat/walls.h"

#include <algorithm>
#include <cmath>

namespace redd::heat {
namespace {

namespace k = conductivity_w_per_m_k;
constexpr double thin_foam_m = 0.025;

Layer pane(const TankWalls& walls) { return {walls.wall_m, walls.material == WallMaterial::glass ? k::glass : k::acrylic}; }

double top_u_value(const TankWalls& walls) {
  const double film = air_film_m2_k_per_w(FaceKind::top);
  if (walls.lid == LidKind::none) return u_value_w_per_m2_k({}, film);
  std::vector<Layer> layers{{0.003, k::polycarbonate}};
  if (walls.lid == LidKind::foam) layers.push_back({std::max(thin_foam_m, walls.side_foam_m), k::foam});
  return u_value_w_per_m2_k(layers, film + gap_under_lid_m2_k_per_w);
}

double floor_u_value(const TankWalls& walls) {
  std::vector<Layer> layers{pane(walls)};
  if (walls.base != BaseKind::open_frame) layers.push_back({0.018, k::wood});
  if (walls.base == BaseKind::foam) layers.push_back({thin_foam_m, k::foam});
  return u_value_w_per_m2_k(layers, air_film_m2_k_per_w(FaceKind::floor));
}

bool has_foam(const TankWalls& walls) { return walls.side_foam_m > 0.0 || walls.lid == LidKind::foam || walls.base == BaseKind::foam; }

Estimate<Conductance> within(Conductance mid, double factor_down, double factor_up) {
  return {(1.0 / factor_down) * mid, mid, factor_up * mid, Support::assumed};
}

}  // namespace

double u_value_w_per_m2_k(std::span<const Layer> layers, double outer_film_m2_k_per_w, double inner_film_m2_k_per_w) {
  double resistance = outer_film_m2_k_per_w + inner_film_m2_k_per_w;
  for (const Layer& layer : layers) resistance += layer.thickness_m / layer.conductivity_w_per_m_k;
  return 1.0 / resistance;
}

std::vector<Face> faces(const TankWalls& walls) {
  const double film = air_film_m2_k_per_w(FaceKind::side);
  const std::vector<Layer> bare{pane(walls)};
  const std::vector<Layer> insulated{pane(walls), {walls.side_foam_m, k::foam}};
  const double all_sides_m2 = 2.0 * (walls.length_m + walls.width_m) * walls.water_depth_m;
  const int bare_count = std::clamp(walls.bare_sides, 0, 2);
  const double bare_m2 = walls.side_foam_m > 0.0 ? bare_count * walls.length_m * walls.water_depth_m : all_sides_m2;
  const double plan_m2 = walls.length_m * walls.width_m;
  std::vector<Face> all;
  if (bare_m2 > 0.0) all.push_back({FaceKind::side, bare_m2, u_value_w_per_m2_k(bare, film), true});
  if (all_sides_m2 > bare_m2) all.push_back({FaceKind::side, all_sides_m2 - bare_m2, u_value_w_per_m2_k(insulated, film), false});
  all.push_back({FaceKind::floor, plan_m2, floor_u_value(walls), walls.base == BaseKind::open_frame});
  all.push_back({FaceKind::top, plan_m2, top_u_value(walls), false});
  return all;
}

Conductance conductance(const TankWalls& walls) {
  Conductance sum = Conductance::from_w_per_k(0.0);
  for (const Face& face : faces(walls)) sum = sum + face.conductance();
  return sum;
}

Estimate<Conductance> conductance_estimate(const TankWalls& walls) { return within(conductance(walls), 1.5, has_foam(walls) ? 2.0 : 1.5); }

Estimate<Conductance> conductance_from_volume(Volume water) {
  return within(Conductance::from_w_per_k(0.33 * std::cbrt(water.l() * water.l())), 1.5, 1.5);
}

Temperature outer_surface(double u_value, FaceKind kind, Temperature water, Temperature room) {
  return room - u_value * air_film_m2_k_per_w(kind) * (room - water);
}

}  // namespace redd::heat
