// A request and its answer as the handlers see them: no sockets, no HTTP library.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace trowelbell::collector {

struct Request {
  std::string method;  // "GET", "PUT", ...
  std::string target;  // as sent: path, and a query where there is one
  // Header fields that matter here; "" where absent, several lines of one name joined with ", ".
  std::string authorization;
  std::string content_type;
  std::string content_encoding;
  std::string accept_encoding;
  std::string if_none_match;
  std::string body;
};

struct Field {
  std::string name;
  std::string value;
};

struct Response {
  int status = 200;
  std::vector<Field> fields;
  std::string body;
  // A file of the site: lives as long as the site, sent instead of `body`.
  std::string_view file;
  bool head = false;  // answer to HEAD: the body is measured but not sent

  std::string_view content() const { return file.data() != nullptr ? file : body; }
  // "" where there is no such field.
  std::string_view field(std::string_view name) const;
};

}  // namespace trowelbell::collector
