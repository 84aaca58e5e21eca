#include "domain/vessel/equidistant.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

namespace stillheap::vessel {
namespace {

using Complex = std::complex<double>;
using Vector = std::array<double, 3>;  // (x, y, d)

/// square (x^2 + y^2 - d^2) + linear . (x, y, d) + constant = 0
struct Equation {
  double square = 0.0;
  Vector linear{};
  double constant = 0.0;
};

Equation equation_of(const Site& site) noexcept {
  if (site.kind == Site::Kind::straight_wall) return {0.0, {site.centre.x_m, site.centre.y_m, -1.0}, site.radius_m};
  // A wall seen from inside is a disc of negative radius about the origin.
  const double r = site.kind == Site::Kind::round_wall ? -site.radius_m : site.radius_m;
  const Point c = site.kind == Site::Kind::round_wall ? Point{} : site.centre;
  return {1.0, {-2.0 * c.x_m, -2.0 * c.y_m, -2.0 * r}, c.x_m * c.x_m + c.y_m * c.y_m - r * r};
}

double dot(const Vector& a, const Vector& b) noexcept { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

Vector cross(const Vector& a, const Vector& b) noexcept {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

/// Takes the square part out of an equation with the help of one that has it.
void make_linear(Equation& equation, const Equation& by) noexcept {
  if (equation.square == 0.0) return;
  equation.square = 0.0;
  for (std::size_t i = 0; i < 3; ++i) equation.linear[i] -= by.linear[i];
  equation.constant -= by.constant;
}

/// Cuts a straight line in (x, y, d), given as two planes, with a third equation.
void cut(const Equation& plane1, const Equation& plane2, const Equation& last, std::vector<Point>& out) {
  const Vector n = cross(plane1.linear, plane2.linear);
  const double n2 = dot(n, n);
  // Parallel planes: no single line; such triples have no isolated solution.
  constexpr double parallel = 1e-24;
  if (n2 <= parallel * dot(plane1.linear, plane1.linear) * dot(plane2.linear, plane2.linear)) return;
  const Vector u = cross(plane2.linear, n);
  const Vector v = cross(n, plane1.linear);
  Vector foot{};
  for (std::size_t i = 0; i < 3; ++i) foot[i] = -(plane1.constant * u[i] + plane2.constant * v[i]) / n2;
  const double length = std::sqrt(n2);
  const Vector along{n[0] / length, n[1] / length, n[2] / length};

  const double q2 = last.square * (along[0] * along[0] + along[1] * along[1] - along[2] * along[2]);
  const double q1 =
      last.square * 2.0 * (foot[0] * along[0] + foot[1] * along[1] - foot[2] * along[2]) + dot(last.linear, along);
  const double q0 = last.square * (foot[0] * foot[0] + foot[1] * foot[1] - foot[2] * foot[2]) + dot(last.linear, foot) +
                    last.constant;
  const auto add = [&](double t) {
    if (std::isfinite(t)) out.push_back({foot[0] + t * along[0], foot[1] + t * along[1]});
  };
  // Both roots in the form that does not cancel; a touching line may come out a rounding below zero.
  const double root = q1 * q1 - 4.0 * q2 * q0;
  if (root < -1e-12 * (q1 * q1 + std::abs(4.0 * q2 * q0))) return;
  const double q = -0.5 * (q1 + std::copysign(std::sqrt(std::max(root, 0.0)), q1));
  if (q2 != 0.0) add(q / q2);
  if (q != 0.0) add(q0 / q);
}

/// All four roots at once (Durand and Kerner's iteration), for a monic quartic z^4 + p3 z^3 + ... + p0.
std::array<Complex, 4> quartic_roots(const std::array<Complex, 4>& p) {
  std::array<Complex, 4> z{Complex{1.0, 0.0}, Complex{0.4, 0.9}, Complex{-0.65, 0.72}, Complex{-0.908, -0.297}};
  for (int step = 0; step < 80; ++step) {
    for (std::size_t i = 0; i < 4; ++i) {
      const Complex value = (((z[i] + p[3]) * z[i] + p[2]) * z[i] + p[1]) * z[i] + p[0];
      Complex others{1.0, 0.0};
      for (std::size_t j = 0; j < 4; ++j)
        if (j != i) others *= z[i] - z[j];
      if (std::abs(others) > 0.0) z[i] -= value / others;
    }
  }
  return z;
}

/// Squared distance from a channel's middle to the point of the circle at an angle, as offset + 2 Re(wave z).
struct AlongCircle {
  double offset = 0.0;
  Complex wave;
};

AlongCircle along_circle(const Site& site, double radius) noexcept {
  const Point c = site.centre;
  return {radius * radius + c.x_m * c.x_m + c.y_m * c.y_m, Complex{-radius * c.x_m, radius * c.y_m}};
}

/// Newton's steps on the difference of the two distances, along the circle.
double polish_angle(const Site& a, const Site& b, double radius, double angle) {
  for (int step = 0; step < 6; ++step) {
    const Point p{radius * std::cos(angle), radius * std::sin(angle)};
    const Point tangent{-p.y_m, p.x_m};
    const auto slope = [&](const Site& s) {
      const double d = distance_m(p, s.centre);
      return d > 0.0 ? (tangent.x_m * (p.x_m - s.centre.x_m) + tangent.y_m * (p.y_m - s.centre.y_m)) / d : 0.0;
    };
    const double change = slope(a) - slope(b);
    if (change == 0.0) break;
    const double move = (distance_to_m(a, p) - distance_to_m(b, p)) / change;
    if (!(std::abs(move) < 0.1)) break;
    angle -= move;
  }
  return angle;
}

}  // namespace

double distance_to_m(const Site& site, Point p) noexcept {
  switch (site.kind) {
    case Site::Kind::channel:
      return distance_m(p, site.centre) - site.radius_m;
    case Site::Kind::round_wall:
      return site.radius_m - distance_m(p, {});
    case Site::Kind::straight_wall:
      break;
  }
  return site.centre.x_m * p.x_m + site.centre.y_m * p.y_m + site.radius_m;
}

void add_equidistant(const Site& a, const Site& b, const Site& c, std::vector<Point>& out) {
  std::array<Equation, 3> equations{equation_of(a), equation_of(b), equation_of(c)};
  const auto curved = std::find_if(equations.begin(), equations.end(), [](const Equation& e) { return e.square > 0; });
  if (curved != equations.end()) std::iter_swap(curved, equations.end() - 1);
  make_linear(equations[0], equations[2]);
  make_linear(equations[1], equations[2]);
  cut(equations[0], equations[1], equations[2], out);
}

void add_equidistant_on_line(const Site& a, const Site& b, const ClosedLine& wall, std::vector<Point>& out) {
  Equation first = equation_of(a);
  const Equation second = equation_of(b);
  make_linear(first, second);
  cut({0.0, {wall.normal.x_m, wall.normal.y_m, 0.0}, wall.offset_m}, first, second, out);
}

void add_equidistant_on_circle(const Site& a, const Site& b, double circle_radius_m, std::vector<Point>& out) {
  // Squared distances A and B; A = (sqrt(B) + delta)^2, hence (A - B - delta^2)^2 = 4 delta^2 B.
  const AlongCircle of_a = along_circle(a, circle_radius_m);
  const AlongCircle of_b = along_circle(b, circle_radius_m);
  const double delta = a.radius_m - b.radius_m;
  const double k = of_a.offset - of_b.offset - delta * delta;
  const Complex w = of_a.wave - of_b.wave;
  const double scale = circle_radius_m * circle_radius_m;
  if (std::abs(w) <= 1e-14 * scale) return;  // same middle: nowhere or everywhere equal
  const auto add = [&](double angle) {
    angle = polish_angle(a, b, circle_radius_m, angle);
    out.push_back({circle_radius_m * std::cos(angle), circle_radius_m * std::sin(angle)});
  };
  if (delta == 0.0) {
    const double cosine = -k / (2.0 * std::abs(w));
    if (std::abs(cosine) > 1.0) return;
    add(std::acos(cosine) - std::arg(w));
    add(-std::acos(cosine) - std::arg(w));
    return;
  }
  const double four = 4.0 * delta * delta;
  const Complex v = four * of_b.wave;
  const Complex lead = w * w;
  const Complex odd = 2.0 * k * w - v;
  const std::array<Complex, 4> monic{std::conj(lead) / lead, std::conj(odd) / lead,
                                     (k * k + 2.0 * std::norm(w) - four * of_b.offset) / lead, odd / lead};
  for (const Complex z : quartic_roots(monic)) add(std::arg(z));
}

}  // namespace stillheap::vessel
