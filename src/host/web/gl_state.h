#pragma once
// Put before Dear ImGui's renderer. Each frame it asks OpenGL for all state that it will change, to
// put it back afterwards, and each question makes the page wait for the process that draws: nine
// tenths of a frame's time. Nothing else draws here, so it is told what a fresh context has.
#include <GLES3/gl3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

inline void fresh_or_asked(GLenum name, GLint* values) {
  switch (name) {
    case GL_ACTIVE_TEXTURE:
      *values = GL_TEXTURE0;
      break;
    case GL_BLEND_SRC_RGB:
    case GL_BLEND_SRC_ALPHA:
      *values = GL_ONE;
      break;
    case GL_BLEND_EQUATION_RGB:
    case GL_BLEND_EQUATION_ALPHA:
      *values = GL_FUNC_ADD;
      break;
    case GL_BLEND_DST_RGB:
    case GL_BLEND_DST_ALPHA:
    case GL_CURRENT_PROGRAM:
    case GL_TEXTURE_BINDING_2D:
    case GL_SAMPLER_BINDING:
    case GL_ARRAY_BUFFER_BINDING:
    case GL_ELEMENT_ARRAY_BUFFER_BINDING:
    case GL_PIXEL_UNPACK_BUFFER_BINDING:
    case GL_VERTEX_ARRAY_BINDING:
      *values = 0;
      break;
    case GL_VIEWPORT:
    case GL_SCISSOR_BOX:
      values[0] = values[1] = values[2] = values[3] = 0;  // both are set before they are used
      break;
    default:
      glGetIntegerv(name, values);
  }
}

inline GLboolean fresh_is_enabled(GLenum) {
  return GL_FALSE;
}

// It makes a vertex array for each frame and deletes it afterwards; one will do.
inline void one_vertex_array(GLsizei, GLuint* name) {
  static GLuint only = 0;
  if (only == 0) glGenVertexArrays(1, &only);
  *name = only;
}
inline void keep_vertex_array(GLsizei, const GLuint*) {}

// Whether its two shaders were understood it asks only to print it.
inline void understood(GLuint, GLenum name, GLint* value) {
  *value = name == GL_INFO_LOG_LENGTH ? 0 : GL_TRUE;
}

// It chooses them by a version that it takes out of "#version 300 es".
inline int version_after_word(const char* text, const char*, int* version, int* = nullptr) {
  *version = atoi(strchr(text, ' '));
  return 1;
}

#define sscanf version_after_word
#define glGetShaderiv understood
#define glGetProgramiv understood
#define glGetIntegerv fresh_or_asked
#define glIsEnabled fresh_is_enabled
#define glGenVertexArrays one_vertex_array
#define glDeleteVertexArrays keep_vertex_array
