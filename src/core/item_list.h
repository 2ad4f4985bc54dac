// Lists whose items have an id of their own, as lessons, care cards and counties are full of.
#pragma once

#include <map>

#include "json.h"

namespace trowelbell {

// Reads the list at `key` with `read(const Reader&) -> Item`; no two of its items may have the same
// `id`.
template <class Item, class Read>
std::vector<Item> read_items(const Reader& reader, std::string_view key, std::size_t least,
                             std::size_t most, Read read) {
  std::vector<Item> items;
  std::map<std::string, std::size_t> places;
  reader.array(key, least, most, [&](const Reader& at) {
    items.push_back(read(at));
    const auto [first, is_new] = places.emplace(items.back().id, items.size() - 1);
    if (!is_new) {
      at.problem("id", "is already that of item " + std::to_string(first->second) +
                           " (counted from 0); each id may stand there once");
    }
  });
  return items;
}

}  // namespace trowelbell
