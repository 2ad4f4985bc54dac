// Nodes as JSON text for wasm/mirror.js: an array of objects that leave out what is empty, false or
// 0.
// {"id","role","name","value","hint","level","percent","checked","selected","disabled","most","lines",
//  "rect":[x,y,width,height],"clip":[top,bottom]} in whole CSS pixels.
#pragma once

#include <span>
#include <string>

#include "host/node.h"

namespace trowelbell {

std::string node_text(std::span<const Node> nodes);

}  // namespace trowelbell
