// What every cell of a plane touches: the strip's cells, laid along all four sides.
#include "plane_sheet.hpp"

#include <algorithm>
#include <map>
#include <stdexcept>
#include <utility>

namespace sunstrain::internal {
namespace {

// How many cells lie between a cell and its nearer end.
std::size_t from_end(std::size_t cell, std::size_t cells) { return std::min(cell, cells - 1 - cell); }

// The cells at the beginning of a direction, to the first that is plain open glass, or to the middle.
StripMesh edge_mesh(const Line& line, const std::vector<double>& edges) {
  if (edges.size() < 3) throw std::invalid_argument("a plane needs two cells a direction");
  const std::size_t cells = std::min(edge_cells(line, edges) + 1, (edges.size() - 1) / 2);
  return strip_mesh(line, {edges.begin(), edges.begin() + static_cast<std::ptrdiff_t>(cells) + 1});
}

std::size_t kind_at(const PlaneSheet& sheet, std::size_t i, std::size_t j) {
  const std::size_t depth_x = from_end(i, sheet.grid.columns()), depth_y = from_end(j, sheet.grid.rows());
  const std::size_t x_cells = sheet.along_x.cells;
  return depth_x <= depth_y ? std::min(depth_x, x_cells - 1) : x_cells + std::min(depth_y, sheet.along_y.cells - 1);
}

// Cells of a strip that touch the frame.
std::size_t cells_in_frame(const StripMesh& mesh) {
  std::size_t cells = 1;
  for (std::size_t cell = 0; cell < mesh.cells(); ++cell)
    for (std::size_t lite = 0; lite < mesh.outer_contact_w_mk.size(); ++lite)
      if (mesh.outer_contact_w_mk[lite][cell] > 0.0 || mesh.inner_contact_w_mk[lite][cell] > 0.0) cells = cell + 1;
  return cells;
}

// Along which length of frame a cell lies, and how deep, in cells. Where two sides meet it is the nearer one's; there
// both sides' rows at one distance from the corner go together.
struct FramePlace {
  int side;  // left, right, bottom, top; then the corners
  std::size_t along, depth;
};
FramePlace frame_place(const PlaneGrid& grid, std::size_t i, std::size_t j, std::size_t deep) {
  const std::size_t depth_x = from_end(i, grid.columns()), depth_y = from_end(j, grid.rows());
  const int right = 2 * i >= grid.columns() ? 1 : 0, upper = 2 * j >= grid.rows() ? 1 : 0;
  if (depth_x < deep && depth_y < deep)
    return {4 + right + 2 * upper, std::max(depth_x, depth_y), std::min(depth_x, depth_y)};
  return depth_x < deep ? FramePlace{right, j, depth_x} : FramePlace{2 + upper, i, depth_y};
}

// Contacts with the frame: per area what the strip's cell has per width, and across the clearance at the cut edge.
RimCell rim_cell(const PlaneSheet& sheet, std::size_t i, std::size_t j, std::size_t depth) {
  const PlaneGrid& grid = sheet.grid;
  const StripMesh& mesh = sheet.along_x.mesh;
  RimCell cell{j * grid.columns() + i, 0.0, {}, {}};
  if (from_end(i, grid.columns()) == 0) cell.cut_edge_m += grid.y_m[j + 1] - grid.y_m[j];
  if (from_end(j, grid.rows()) == 0) cell.cut_edge_m += grid.x_m[i + 1] - grid.x_m[i];
  const double length_m = sheet.area_m2[cell.cell] / mesh.width_m[depth];
  for (std::size_t lite = 0; lite < sheet.lites(); ++lite) {
    cell.outer_w_k[lite] =
        cell.cut_edge_m * mesh.edge_to_outer_w_mk[lite] + length_m * mesh.outer_contact_w_mk[lite][depth];
    cell.inner_w_k[lite] =
        cell.cut_edge_m * mesh.edge_to_inner_w_mk[lite] + length_m * mesh.inner_contact_w_mk[lite][depth];
  }
  return cell;
}

void add_to(RimPlace& place, const RimCell& cell, std::size_t lites) {
  place.length_m += cell.cut_edge_m;
  if (cell.cut_edge_m > 0.0) place.edge_cell = cell.cell;
  for (std::size_t lite = 0; lite < lites; ++lite) {
    place.outer_w_k += cell.outer_w_k[lite];
    place.inner_w_k += cell.inner_w_k[lite];
  }
  place.cells.push_back(cell);
}

void lay_frame(PlaneSheet& sheet) {
  const PlaneGrid& grid = sheet.grid;
  const std::size_t deep = cells_in_frame(sheet.along_x.mesh);
  std::map<std::pair<int, std::size_t>, std::size_t> known;
  sheet.in_rim.assign(grid.cells(), false);
  for (std::size_t j = 0; j < grid.rows(); ++j) {
    for (std::size_t i = 0; i < grid.columns(); ++i) {
      if (from_end(i, grid.columns()) >= deep && from_end(j, grid.rows()) >= deep) continue;
      const FramePlace at = frame_place(grid, i, j, deep);
      const auto [slot, is_new] = known.try_emplace({at.side, at.along}, sheet.rim.size());
      if (is_new) sheet.rim.emplace_back();
      add_to(sheet.rim[slot->second], rim_cell(sheet, i, j, at.depth), sheet.lites());
      sheet.in_rim[j * grid.columns() + i] = true;
    }
  }
}

}  // namespace

std::size_t edge_cells(const Line& line, std::span<const double> strip_m) {
  const EdgeSection& edge = line.edge;
  const double open_from_m =
      std::max({edge.bite_m + std::max(edge.room_corner_length_m, line.glazing.rim_m), edge.frame.soft_strip_to_m,
                line.glazing.lites.size() > 1 ? edge.spacer_to_m : 0.0});
  return static_cast<std::size_t>(std::lower_bound(strip_m.begin(), strip_m.end(), open_from_m) - strip_m.begin());
}

PlaneSheet::PlaneSheet(const Line& of, PlaneGrid its_grid)
    : line(of),
      grid(std::move(its_grid)),
      along_x(line, edge_mesh(line, grid.x_m)),
      along_y(line, edge_mesh(line, grid.y_m)) {
  for (std::size_t lite = 0; lite < lites(); ++lite) stored_j_m2k[lite] = heat_capacity_j_m2k(line.glazing, lite);
  for (std::size_t j = 0; j < grid.rows(); ++j) {
    for (std::size_t i = 0; i < grid.columns(); ++i) {
      area_m2.push_back((grid.x_m[i + 1] - grid.x_m[i]) * (grid.y_m[j + 1] - grid.y_m[j]));
      kind_of.push_back(static_cast<std::uint16_t>(kind_at(*this, i, j)));
    }
  }
  lay_frame(*this);
}

}  // namespace sunstrain::internal
