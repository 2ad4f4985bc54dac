#include "hand_intake.h"

#include <charconv>

#include "answers.h"
#include "core/report_parts.h"
#include "core/utf8.h"
#include "picture_codes.h"
#include "route.h"

namespace trowelbell::collector {
namespace {

Json set_json(const PartSet& set) {
  Json json = {
      {"digest", set.digest}, {"of", set.of}, {"missing", set.missing}, {"damaged", set.damaged}};
  if (!set.report.empty()) json["report"] = set.report;
  return json;
}

// 0 for anything but 1..kMostSide.
int side(std::string_view query, std::string_view key) {
  const std::string text = query_value(query, key);
  int value = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  return error == std::errc() && stop == end && value > 0 && value <= kMostSide ? value : 0;
}

}  // namespace

Response parts_answer(const Request& request) {
  if (request.body.size() > kMostPartsText)
    return problem_answer(413, "too-large", "The text is too long",
                          "At most 512 KiB are taken in at a time. Take in fewer reports at once.");
  const GatheredParts gathered = gather_parts(request.body);
  Json answer = {{"sets", Json::array()}, {"unread", gathered.unread}, {"newer", gathered.newer}};
  for (const PartSet& set : gathered.sets) answer["sets"].push_back(set_json(set));
  return json_answer(200, answer);
}

Response picture_answer(const Request& request, std::string_view query) {
  const int width = side(query, "width"), height = side(query, "height");
  if (width == 0 || height == 0 ||
      request.body.size() != static_cast<std::size_t>(width) * static_cast<std::size_t>(height))
    return problem_answer(400, "picture", "The picture is not in order",
                          "Send one byte of grey a pixel, row by row, and say width and height, 1 "
                          "to 4096 each.");
  Json texts = Json::array();
  for (const std::string& text : codes_in_picture(request.body, width, height))
    if (is_utf8(text)) texts.push_back(text);
  return json_answer(200, {{"texts", texts}});
}

}  // namespace trowelbell::collector
