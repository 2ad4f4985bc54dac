#pragma once
// Put before the sources of Dear ImGui and SDL2, for the reason in number_text.c: they read numbers
// from settings files, which the page has not, and write none but whole ones.
#include <stdio.h>
#define sscanf(...) 0
#define vsnprintf vsniprintf
#ifdef __cplusplus
extern "C"
#endif
    int
    vsniprintf(char* text, size_t size, const char* format, va_list values);
