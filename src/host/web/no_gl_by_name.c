// SDL2 can give out any function of OpenGL by its name, which keeps all of them in the page. Dear
// ImGui calls the few that it needs directly, so nobody asks.
void (*eglGetProcAddress(const char* name))(void) {
  (void)name;
  return 0;
}
