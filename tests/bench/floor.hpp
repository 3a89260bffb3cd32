// The arithmetic that a field cannot do without, as plain matrix products: the floor under the solver's time.
#pragma once

#include <memory>

namespace bench {

// Four products of a rows x columns matrix with `fields` columns of integrals.
class PlainProducts {
 public:
  PlainProducts(int rows, int columns, int fields);
  ~PlainProducts();
  double multiply();

 private:
  struct Matrices;
  std::unique_ptr<Matrices> matrices_;
};

}  // namespace bench
