#include "route.h"

#include <algorithm>
#include <charconv>
#include <vector>

#include "core/json.h"

namespace trowelbell::collector {
namespace {

int hex_value(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

// The same grammar as core's ids: a brief with another id is never imported.
bool is_id(std::string_view text) {
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  return !text.empty() && text.size() <= 64 && text.front() != '-' &&
         std::ranges::all_of(text, allowed);
}

bool is_device(std::string_view text) {
  const auto digit = [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); };
  return text.size() == 16 && std::ranges::all_of(text, digit);
}

// 1 and up, written in the one usual way, so that one revision has one address.
bool read_revision(std::string_view text, std::int64_t& revision) {
  if (text.empty() || text.size() > 16 || text.front() == '0') return false;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), revision);
  return error == std::errc() && end == text.data() + text.size() && revision > 0 &&
         revision <= kLargestExact;
}

std::vector<std::string_view> segments(std::string_view path) {
  std::vector<std::string_view> parts;
  while (!path.empty()) {
    path.remove_prefix(1);  // the '/'
    const std::size_t end = std::min(path.find('/'), path.size());
    parts.push_back(path.substr(0, end));
    path.remove_prefix(end);
  }
  return parts;
}

void find_endpoint(Route& route) {
  const auto parts = segments(route.path);
  if (parts[0] != "v1") {
    route.endpoint = Endpoint::site;
    route.pattern = "site";
    return;
  }
  if (parts.size() == 2 && parts[1] == "health") {
    route.endpoint = Endpoint::health;
    route.pattern = "/v1/health";
  } else if (parts.size() == 2 && parts[1] == "visits") {
    route.endpoint = Endpoint::visits;
    route.pattern = "/v1/visits";
  } else if (parts.size() == 2 && parts[1] == "reports") {
    route.endpoint = Endpoint::by_hand;
    route.pattern = "/v1/reports";
  } else if (parts.size() == 2 && parts[1] == "parts") {
    route.endpoint = Endpoint::parts;
    route.pattern = "/v1/parts";
  } else if (parts.size() == 2 && parts[1] == "picture") {
    route.endpoint = Endpoint::picture;
    route.pattern = "/v1/picture";
  } else if (parts.size() >= 5 && parts[1] == "visits" && is_id(parts[2]) &&
             parts[3] == "reports") {
    route.visit = parts[2];
    if (parts.size() == 5 && parts[4] == "latest") {
      route.endpoint = Endpoint::latest_report;
      route.pattern = "/v1/visits/{visit}/reports/latest";
    } else if (parts.size() == 6 && is_device(parts[4]) &&
               read_revision(parts[5], route.revision)) {
      route.device = parts[4];
      route.endpoint = Endpoint::report;
      route.pattern = "/v1/visits/{visit}/reports/{device}/{revision}";
    }
  }
}

}  // namespace

bool percent_decode(std::string_view text, std::string& decoded) {
  decoded.clear();
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (c == '%') {
      if (i + 2 >= text.size()) return false;
      const int high = hex_value(text[i + 1]);
      const int low = hex_value(text[i + 2]);
      if (high < 0 || low < 0) return false;
      c = static_cast<char>(high * 16 + low);
      i += 2;
    }
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) return false;
    decoded += c;
  }
  return true;
}

std::string query_value(std::string_view query, std::string_view key) {
  while (!query.empty()) {
    const std::size_t end = std::min(query.find('&'), query.size());
    const std::string_view pair = query.substr(0, end);
    query.remove_prefix(std::min(end + 1, query.size()));
    const std::size_t equals = pair.find('=');
    if (equals == std::string_view::npos || pair.substr(0, equals) != key) continue;
    std::string value;
    return percent_decode(pair.substr(equals + 1), value) ? value : "";
  }
  return "";
}

Route find_route(std::string_view target) {
  Route route;
  route.pattern = "unknown";
  for (const std::string_view scheme : {"http://", "https://"}) {
    if (!target.starts_with(scheme)) continue;
    target.remove_prefix(scheme.size());
    target.remove_prefix(std::min(target.find_first_of("/?"), target.size()));
    if (!target.starts_with('/')) return route;
    break;
  }
  const std::size_t question = std::min(target.find('?'), target.size());
  if (question < target.size()) route.query = target.substr(question + 1);
  if (!target.starts_with('/') || !percent_decode(target.substr(0, question), route.path))
    return route;
  find_endpoint(route);
  return route;
}

}  // namespace trowelbell::collector
