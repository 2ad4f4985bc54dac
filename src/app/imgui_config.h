#pragma once
// What Dear ImGui is built with, for the web page and for the headless tests alike
// (IMGUI_USER_CONFIG). Text, files and windows of its own that the app never uses stay out.
#define IMGUI_USE_WCHAR32
#define IMGUI_DISABLE_DEFAULT_FONT
#define IMGUI_DISABLE_FILE_FUNCTIONS
#define IMGUI_DISABLE_DEFAULT_SHELL_FUNCTIONS
#define IMGUI_DISABLE_DEMO_WINDOWS
#define IMGUI_DISABLE_DEBUG_TOOLS
#define IMGUI_DISABLE_OBSOLETE_FUNCTIONS
