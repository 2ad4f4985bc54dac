#include "negotiation.h"

#include <algorithm>

namespace trowelbell::collector {
namespace {

std::string_view trim(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

// Takes the part before `separator` off `rest`.
std::string_view take(std::string_view& rest, char separator) {
  const std::size_t end = std::min(rest.find(separator), rest.size());
  const std::string_view part = trim(rest.substr(0, end));
  rest.remove_prefix(std::min(end + 1, rest.size()));
  return part;
}

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same_word(std::string_view a, std::string_view b) {
  return std::ranges::equal(a, b, {}, lower, lower);
}

// "q=0", "q=0.000": the client refuses it.
bool refused(std::string_view parameters) {
  while (!parameters.empty()) {
    const std::string_view parameter = take(parameters, ';');
    if (parameter.size() > 2 && same_word(parameter.substr(0, 2), "q="))
      return parameter.find_first_not_of("0.", 2) == std::string_view::npos;
  }
  return false;
}

}  // namespace

bool accepts_coding(std::string_view accept_encoding, std::string_view coding) {
  bool by_star = false;
  while (!accept_encoding.empty()) {
    std::string_view item = take(accept_encoding, ',');
    const std::string_view name = take(item, ';');
    if (same_word(name, coding)) return !refused(item);
    if (name == "*") by_star = !refused(item);
  }
  return by_star;
}

bool names_etag(std::string_view if_none_match, std::string_view etag) {
  if (trim(if_none_match) == "*") return true;
  // Our tags have no comma inside, so a split at commas cannot take a part of another for ours.
  while (!if_none_match.empty()) {
    std::string_view item = take(if_none_match, ',');
    if (item.starts_with("W/")) item.remove_prefix(2);
    if (item == etag) return true;
  }
  return false;
}

}  // namespace trowelbell::collector
