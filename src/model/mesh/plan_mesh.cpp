#include "model/mesh/plan_mesh.hpp"

#include <CGAL/Constrained_Delaunay_triangulation_2.h>
#include <CGAL/Delaunay_mesh_face_base_2.h>
#include <CGAL/Delaunay_mesh_size_criteria_2.h>
#include <CGAL/Delaunay_mesh_vertex_base_2.h>
#include <CGAL/Delaunay_mesher_2.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "model/mesh/outline.hpp"

namespace stillheap::mesh {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Vertex = CGAL::Delaunay_mesh_vertex_base_2<Kernel>;
using Face = CGAL::Delaunay_mesh_face_base_2<Kernel>;
using Triangulation =
    CGAL::Constrained_Delaunay_triangulation_2<Kernel, CGAL::Triangulation_data_structure_2<Vertex, Face>>;
using Criteria = CGAL::Delaunay_mesh_size_criteria_2<Triangulation>;

// Sine squared of the smallest angle asked for (20.7 degrees): the bound CGAL's manual proves to end.
constexpr double shape_bound = 0.125;

Triangulation triangulate(const Outline& outline, double edge_m) {
  Triangulation triangulation;
  std::vector<Triangulation::Vertex_handle> handles;
  handles.reserve(outline.points.size());
  for (const Point& p : outline.points) handles.push_back(triangulation.insert({p.x_m, p.y_m}));
  for (const auto& [a, b] : outline.segments) triangulation.insert_constraint(handles[a], handles[b]);
  std::vector<Kernel::Point_2> seeds;
  for (const Point& hole : outline.holes) seeds.emplace_back(hole.x_m, hole.y_m);
  CGAL::refine_Delaunay_mesh_2(triangulation, seeds.begin(), seeds.end(), Criteria(shape_bound, edge_m), false);
  return triangulation;
}

/// Copies the triangles inside the domain; nodes are numbered from left to right so that neighbouring
/// columns stand near one another in memory.
void copy_triangles(const Triangulation& triangulation, PlanMesh& mesh) {
  std::map<Triangulation::Vertex_handle, int> number;
  std::vector<Triangulation::Vertex_handle> used;
  for (auto face = triangulation.finite_faces_begin(); face != triangulation.finite_faces_end(); ++face) {
    if (!face->is_in_domain()) continue;
    for (int k = 0; k < 3; ++k)
      if (number.emplace(face->vertex(k), 0).second) used.push_back(face->vertex(k));
  }
  std::sort(used.begin(), used.end(), [](auto a, auto b) { return a->point() < b->point(); });
  for (const auto& vertex : used) {
    number[vertex] = static_cast<int>(mesh.nodes.size());
    mesh.nodes.push_back({vertex->point().x(), vertex->point().y()});
  }
  for (auto face = triangulation.finite_faces_begin(); face != triangulation.finite_faces_end(); ++face) {
    if (!face->is_in_domain()) continue;
    mesh.triangles.push_back({number[face->vertex(0)], number[face->vertex(1)], number[face->vertex(2)]});
  }
  std::sort(mesh.triangles.begin(), mesh.triangles.end());
}

/// Cotangent of the angle at c in the triangle a, b, c.
double cotangent(Point a, Point b, Point c) {
  const double ux = a.x_m - c.x_m, uy = a.y_m - c.y_m;
  const double vx = b.x_m - c.x_m, vy = b.y_m - c.y_m;
  return (ux * vx + uy * vy) / (ux * vy - uy * vx);
}

double area_m2(Point a, Point b, Point c) {
  return 0.5 * ((b.x_m - a.x_m) * (c.y_m - a.y_m) - (c.x_m - a.x_m) * (b.y_m - a.y_m));
}

struct EdgeSum {
  double ratio = 0.0;
  int triangles = 0;
};
using EdgeMap = std::map<std::pair<int, int>, EdgeSum>;

EdgeMap measure(PlanMesh& mesh) {
  EdgeMap edges;
  mesh.area_m2.assign(mesh.nodes.size(), 0.0);
  for (const auto& t : mesh.triangles) {
    const double third_m2 = area_m2(mesh.nodes[t[0]], mesh.nodes[t[1]], mesh.nodes[t[2]]) / 3.0;
    for (int k = 0; k < 3; ++k) {
      const int a = t[k], b = t[(k + 1) % 3], c = t[(k + 2) % 3];
      mesh.area_m2[a] += third_m2;
      EdgeSum& sum = edges[{std::min(a, b), std::max(a, b)}];
      sum.ratio += 0.5 * cotangent(mesh.nodes[a], mesh.nodes[b], mesh.nodes[c]);
      ++sum.triangles;
    }
  }
  return edges;
}

/// On a mirror ray nothing crosses.
bool on_ray(Point p, const Sector& sector) {
  if (sector.mirrors == 0) return false;
  for (const double angle : {sector.first_angle_rad, sector.first_angle_rad + sector.angle_rad()})
    if (std::abs(p.x_m * std::sin(angle) - p.y_m * std::cos(angle)) < 1e-6) return true;
  return false;
}

/// The channel whose rim an edge's middle lies on, or -1 for the wall.
int channel_at(Point middle, const vessel::Design& design, double edge_m) {
  int best = -1;
  double best_m = 0.35 * edge_m;
  for (std::size_t k = 0; k < design.channels.size(); ++k) {
    const double off_m = std::abs(distance_m(middle, design.channels[k].centre) - 0.5 * design.channels[k].diameter_m);
    if (off_m < best_m) {
      best_m = off_m;
      best = static_cast<int>(k);
    }
  }
  return best;
}

/// A polygon of a circle's area has a rim 2 or 3 % longer. What lies in the sector is a whole channel, half a one on a
/// ray, or a wedge of the middle one: the nearest of these, with the rim cut to the circle's.
void make_rims_exact(const vessel::Design& design, PlanMesh& mesh) {
  std::vector<double> cut(design.channels.size(), 1.0);
  for (std::size_t k = 0; k < design.channels.size(); ++k) {
    double& share = mesh.channel_share[k];
    if (share <= 0.0) continue;
    double exact = 1.0;
    if (mesh.sector.mirrors > 0) {
      for (const double part : {0.5, 1.0 / mesh.sector.copies()})
        if (std::abs(part - share) < std::abs(exact - share)) exact = part;
    }
    cut[k] = exact / share;
    share = exact;
  }
  for (BoundaryEdge& brink : mesh.brinks)
    if (brink.channel >= 0) brink.length_m *= cut[brink.channel];
}

void collect(const EdgeMap& edges, const vessel::Design& design, PlanMesh& mesh) {
  std::map<std::pair<int, int>, double> brinks;  // (node, channel) -> length
  for (const auto& [ends, sum] : edges) {
    const Point a = mesh.nodes[ends.first], b = mesh.nodes[ends.second];
    const double length_m = distance_m(a, b);
    // A wedge's sharp corner can leave a slightly negative ratio; nothing would flow uphill for it.
    mesh.edges.push_back({ends.first, ends.second, std::max(sum.ratio, 0.0), length_m});
    if (sum.triangles == 2) continue;
    const Point middle{0.5 * (a.x_m + b.x_m), 0.5 * (a.y_m + b.y_m)};
    if (on_ray(a, mesh.sector) && on_ray(b, mesh.sector) && on_ray(middle, mesh.sector)) continue;
    const int channel = channel_at(middle, design, length_m);
    brinks[{ends.first, channel}] += 0.5 * length_m;
    brinks[{ends.second, channel}] += 0.5 * length_m;
  }
  mesh.channel_share.assign(design.channels.size(), 0.0);
  for (const auto& [key, length_m] : brinks) {
    mesh.brinks.push_back({key.first, key.second, length_m});
    if (key.second >= 0)
      mesh.channel_share[key.second] += length_m / (constant::pi * design.channels[key.second].diameter_m);
  }
  make_rims_exact(design, mesh);
}

}  // namespace

PlanMesh make_plan_mesh(const vessel::Design& design, const Sector& sector, const PlanSize& size) {
  PlanMesh mesh;
  mesh.sector = sector;
  const Triangulation triangulation = triangulate(make_outline(design, sector, size), size.inside_m);
  copy_triangles(triangulation, mesh);
  if (mesh.nodes.empty()) {
    throw RunError("mesh", "the vessel's plan could not be cut into cells",
                   "this is a fault of the program; please report it with the site file");
  }
  collect(measure(mesh), design, mesh);
  return mesh;
}

UnfoldedPlan unfold(const PlanMesh& mesh) {
  UnfoldedPlan whole;
  const int count = static_cast<int>(mesh.nodes.size());
  for (int copy = 0; copy < mesh.sector.copies(); ++copy) {
    const int turn = copy / 2;
    const bool flipped = copy % 2 == 1;
    const double start = mesh.sector.first_angle_rad;
    for (const Point& p : mesh.nodes) {
      const double radius_m = std::hypot(p.x_m, p.y_m);
      const double inside = std::atan2(p.y_m, p.x_m) - start;
      const double angle = start + (flipped ? -inside : inside) + turn * 2.0 * mesh.sector.angle_rad();
      whole.nodes.push_back({radius_m * std::cos(angle), radius_m * std::sin(angle)});
    }
    for (const auto& t : mesh.triangles) {
      const int shift = copy * count;
      if (flipped) {
        whole.triangles.push_back({t[0] + shift, t[2] + shift, t[1] + shift});
      } else {
        whole.triangles.push_back({t[0] + shift, t[1] + shift, t[2] + shift});
      }
    }
  }
  return whole;
}

}  // namespace stillheap::mesh
