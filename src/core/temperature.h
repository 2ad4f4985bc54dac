// The two scales that rooms are measured in. Exact: F = C x 9/5 + 32 (the definition; NIST SP 811,
// appendix B.8), so 68 F is 20 C and 70 F is 21.111... C.
#pragma once

namespace trowelbell {

constexpr double celsius_of(double fahrenheit) {
  return (fahrenheit - 32) * 5 / 9;
}
constexpr double fahrenheit_of(double celsius) {
  return celsius * 9 / 5 + 32;
}

}  // namespace trowelbell
