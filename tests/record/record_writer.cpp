// record_writer FILE COUNT: adds entries and prints each one's number and hash once it is acknowledged. It is what
// record_test.py kills.
#include <cstdio>
#include <cstdlib>
#include <exception>

#include "record/invented.hpp"

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  try {
    sunstrain::record::Store store(argv[1], sunstrain::record::Store::Access::begin);
    for (long i = 0; i < std::atol(argv[2]); ++i) {
      const sunstrain::record::Head head = store.add(sunstrain::tests::invented_entry(i));
      std::printf("%lld %s\n", static_cast<long long>(head.entries), head.hash.c_str());
      std::fflush(stdout);
    }
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
