#pragma once
// Put before SDL2's event queue, which can write every event down: its level, here always 0, is the
// one number that it clamps.
#include "SDL_internal.h"

#include <SDL_stdinc.h>
#undef SDL_clamp
#define SDL_clamp(level, least, most) 0
