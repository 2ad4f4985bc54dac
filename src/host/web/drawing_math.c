// Curves and arcs, of single precision, by the browser: the C library's own sines are tables and
// arithmetic for angles that no drawing has. What is counted (src/core) does not use these.
#include <emscripten.h>

#define BY_BROWSER(name, function)                                    \
  EM_JS(double, browser_##name, (double x), { return function(x); }); \
  float name(float x) {                                               \
    return (float)browser_##name(x);                                  \
  }

BY_BROWSER(sinf, Math.sin)
BY_BROWSER(cosf, Math.cos)
BY_BROWSER(acosf, Math.acos)
BY_BROWSER(expf, Math.exp)
