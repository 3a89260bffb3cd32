// Built with -march=native, or the floor would lie above the solver, whose kernels choose their instructions at run
// time; and with the library's namespace renamed (CMakeLists.txt), so that its functions for this machine do not stand
// in for those of the engine.
#include "floor.hpp"

#include <Eigen/Core>
#include <array>

namespace bench {

struct PlainProducts::Matrices {
  std::array<Eigen::MatrixXd, 4> to_edge;
  Eigen::MatrixXd integrals, edges;
};

PlainProducts::PlainProducts(int rows, int columns, int fields) : matrices_(std::make_unique<Matrices>()) {
  for (auto& block : matrices_->to_edge) block = Eigen::MatrixXd::Random(rows, columns);
  matrices_->integrals = Eigen::MatrixXd::Random(columns, fields);
  matrices_->edges = Eigen::MatrixXd::Zero(rows, fields);
}

PlainProducts::~PlainProducts() = default;

double PlainProducts::multiply() {
  auto& [to_edge, integrals, edges] = *matrices_;
  double sum = 0.0;
  for (const auto& block : to_edge) {
    if (integrals.cols() == 1)
      edges.col(0).noalias() = block * integrals.col(0);
    else
      edges.noalias() = block * integrals;
    sum += edges(0, 0);
  }
  return sum;
}

}  // namespace bench
