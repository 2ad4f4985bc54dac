// Numbers as text, in place of the C library's, whose reading and writing brings along arithmetic
// of 128 bits. The browser reads; only whole numbers are written.
#include <emscripten.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

EM_JS(double, number_in, (const char* text), { return parseFloat(UTF8ToString(text)); });

// The text is one number and nothing after it, as JSON's reader hands it over.
double strtod(const char* text, char** end) {
  if (end != NULL) *end = (char*)text + strlen(text);
  return number_in(text);
}

// In the C library these come with it; nobody calls them.
float strtof(const char* text, char** end) {
  return (float)strtod(text, end);
}
long double strtold(const char* text, char** end) {
  return strtod(text, end);
}

int snprintf(char* text, size_t size, const char* format, ...) {
  va_list values;
  va_start(values, format);
  const int length = vsniprintf(text, size, format, values);
  va_end(values);
  return length;
}
