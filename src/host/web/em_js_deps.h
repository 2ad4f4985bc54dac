#pragma once
// Put before other people's sources. EM_JS_DEPS names the JavaScript helpers a file calls; an
// Emscripten older than the macro needs none of it, since we export those helpers at the link.
#include <emscripten.h>
#ifndef EM_JS_DEPS
#define EM_JS_DEPS(tag, deps)
#endif
