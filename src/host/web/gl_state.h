#pragma once
// Put before Dear ImGui's renderer, which shares OpenGL with others: before each frame it asks for
// all state that it will change, and puts it back afterwards. Each question makes the page wait for
// the process that draws (nine tenths of a frame's time), and each setting is a call out of the
// program. Here nothing else draws but the clearing in screen.cpp: what the renderer has set stays
// set, and it is told so.
#include <GLES3/gl3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

namespace gl_state {

inline GLuint texture = 0;  // the one that is bound

inline void get(GLenum name, GLint* values) {
  switch (name) {
    case GL_TEXTURE_BINDING_2D:
      *values = static_cast<GLint>(texture);
      break;
    case GL_ACTIVE_TEXTURE:
    case GL_BLEND_SRC_RGB:
    case GL_BLEND_SRC_ALPHA:
    case GL_BLEND_EQUATION_RGB:
    case GL_BLEND_EQUATION_ALPHA:
    case GL_BLEND_DST_RGB:
    case GL_BLEND_DST_ALPHA:
    case GL_CURRENT_PROGRAM:
    case GL_SAMPLER_BINDING:
    case GL_ARRAY_BUFFER_BINDING:
    case GL_ELEMENT_ARRAY_BUFFER_BINDING:
    case GL_PIXEL_UNPACK_BUFFER_BINDING:
    case GL_VERTEX_ARRAY_BINDING:
      *values = 0;  // would be put back; nothing below listens
      break;
    case GL_VIEWPORT:
    case GL_SCISSOR_BOX:
      values[0] = values[1] = values[2] = values[3] = 0;
      break;
    default:
      glGetIntegerv(name, values);
  }
}

// Only the scissor goes on and off: clearing needs it off.
inline GLboolean is_enabled(GLenum what) {
  return what == GL_BLEND ? GL_TRUE : GL_FALSE;
}
inline void enable(GLenum what) {
  static bool blends = false;
  if (what == GL_SCISSOR_TEST || !blends) glEnable(what);
  blends = blends || what == GL_BLEND;
}
inline void disable(GLenum what) {
  if (what == GL_SCISSOR_TEST) glDisable(what);
}

// A fresh context has these.
template <typename... Values>
void stays(Values...) {}

// Called once only: later it would set the same again, or put back what was before.
template <auto set>
inline bool done = false;
template <auto set, typename... Values>
void once(Values... values) {
  if (!done<set>) set(values...);
  done<set> = true;
}

// It would make a vertex array for each frame; one will do, with its three attributes.
inline void one_vertex_array(GLsizei, GLuint* name) {
  static GLuint only = 0;
  if (only == 0) glGenVertexArrays(1, &only);
  *name = only;
}
inline void bind_vertex_array(GLuint name) {
  static bool set = false;
  if (name == 0 || set) return;
  set = true;
  glBindVertexArray(name);
}
inline void bind_buffer(GLenum target, GLuint name) {
  static GLuint vertices = 0, indices = 0;
  GLuint& bound = target == GL_ARRAY_BUFFER ? vertices : indices;
  if (name == 0 || name == bound) return;
  bound = name;
  glBindBuffer(target, name);
}
inline void attribute(GLuint at, GLint size, GLenum type, GLboolean normalized, GLsizei stride,
                      const void* offset) {
  static unsigned set = 0;
  if ((set >> at & 1) != 0) return;
  set |= 1U << at;
  glEnableVertexAttribArray(at);
  glVertexAttribPointer(at, size, type, normalized, stride, offset);
}

// Set when it differs.
inline void bind_texture(GLenum target, GLuint name) {
  if (name == texture) return;
  texture = name;
  glBindTexture(target, name);
}
inline void viewport(GLint x, GLint y, GLsizei width, GLsizei height) {
  static GLsizei last_width = 0, last_height = 0;
  if (width == 0 || (width == last_width && height == last_height)) return;
  last_width = width;
  last_height = height;
  glViewport(x, y, width, height);
}

// What it asks about its program is answered without a wait for the shaders: attributes are given
// their places, the only texture is at 0 as in every fresh program, and where the matrix is is
// asked when it is first set.
constexpr const char* kAttributes[] = {"Position", "UV", "Color"};
inline GLuint program = 0;

inline void link_program(GLuint name) {
  program = name;
  for (GLuint at = 0; at < 3; ++at) glBindAttribLocation(program, at, kAttributes[at]);
  glLinkProgram(program);
}
inline GLint attribute_location(GLuint, const char* name) {
  GLint at = 0;
  while (strcmp(kAttributes[at], name) != 0) ++at;
  return at;
}
inline GLint uniform_location(GLuint, const char*) {
  return 0;
}
inline void matrix(GLint, GLsizei count, GLboolean transpose, const GLfloat* values) {
  static const GLint at = glGetUniformLocation(program, "ProjMtx");
  static GLfloat last[16] = {};
  if (memcmp(last, values, sizeof last) == 0) return;
  memcpy(last, values, sizeof last);
  glUniformMatrix4fv(at, count, transpose, values);
}

// Whether its two shaders were understood, and which version this is, it asks only to print it.
inline const GLubyte* no_words(GLenum) {
  return nullptr;
}
inline void understood(GLuint, GLenum name, GLint* value) {
  *value = name == GL_INFO_LOG_LENGTH ? 0 : GL_TRUE;
}
// It chooses them by a version that it takes out of "#version 300 es".
inline int version_after_word(const char* text, const char*, int* version, int* = nullptr) {
  *version = atoi(strchr(text, ' '));
  return 1;
}

}  // namespace gl_state

#define glGetString gl_state::no_words
#define glLinkProgram gl_state::link_program
#define glGetAttribLocation gl_state::attribute_location
#define glGetUniformLocation gl_state::uniform_location
#define sscanf gl_state::version_after_word
#define glGetShaderiv gl_state::understood
#define glGetProgramiv gl_state::understood
#define glGetIntegerv gl_state::get
#define glIsEnabled gl_state::is_enabled
#define glEnable gl_state::enable
#define glDisable gl_state::disable
#define glBlendEquation gl_state::stays
#define glBlendEquationSeparate gl_state::stays
#define glActiveTexture gl_state::stays
#define glBindSampler gl_state::stays
#define glDeleteVertexArrays gl_state::stays
#define glEnableVertexAttribArray gl_state::stays
#define glBlendFuncSeparate gl_state::once<glBlendFuncSeparate>
#define glUseProgram gl_state::once<glUseProgram>
#define glUniform1i gl_state::stays
#define glGenVertexArrays gl_state::one_vertex_array
#define glBindVertexArray gl_state::bind_vertex_array
#define glBindBuffer gl_state::bind_buffer
#define glVertexAttribPointer gl_state::attribute
#define glBindTexture gl_state::bind_texture
#define glViewport gl_state::viewport
#define glUniformMatrix4fv gl_state::matrix
