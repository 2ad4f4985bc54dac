// Dear ImGui's tables, which no screen uses, are left out of the page (CMakeLists.txt). Its windows
// call these; there is never a table for them.
#include <imgui_internal.h>

namespace ImGui {

void EndColumns() {}
void EndTable() {}
void TableGcCompactSettings() {}
void TableGcCompactTransientBuffers(ImGuiTable*) {}
void TableGcCompactTransientBuffers(ImGuiTableTempData*) {}
void TablePopColumnChannel() {}
void TablePushColumnChannel(int) {}
void TableSettingsAddSettingsHandler() {}

}  // namespace ImGui
