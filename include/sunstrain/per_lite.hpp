// A short sequence with a place for each lite (or cavity) of a glazing, without storage of its own elsewhere: days are
// marched a million of them at a time.
#pragma once

#include <array>
#include <cstddef>
#include <initializer_list>
#include <stdexcept>

namespace sunstrain {

inline constexpr std::size_t most_lites = 8;

template <class T>
class PerLite {
 public:
  PerLite() = default;
  PerLite(std::initializer_list<T> values) {
    for (const T& value : values) push_back(value);
  }
  explicit PerLite(std::size_t size) { resize(size); }

  std::size_t size() const { return size_; }
  bool empty() const { return size_ == 0; }
  // Throws std::length_error past most_lites.
  void resize(std::size_t size) {
    if (size > most_lites) throw std::length_error("a glazing has at most eight lites");
    for (std::size_t i = size_; i < size; ++i) values_[i] = T{};
    size_ = size;
  }
  void assign(std::size_t size, const T& value) {
    resize(size);
    for (T& each : *this) each = value;
  }
  void push_back(const T& value) {
    resize(size_ + 1);
    values_[size_ - 1] = value;
  }
  T& operator[](std::size_t i) { return values_[i]; }
  const T& operator[](std::size_t i) const { return values_[i]; }
  T& front() { return values_[0]; }
  const T& front() const { return values_[0]; }
  T& back() { return values_[size_ - 1]; }
  const T& back() const { return values_[size_ - 1]; }
  T* begin() { return values_.data(); }
  T* end() { return values_.data() + size_; }
  const T* begin() const { return values_.data(); }
  const T* end() const { return values_.data() + size_; }

 private:
  std::array<T, most_lites> values_{};
  std::size_t size_ = 0;
};

}  // namespace sunstrain
