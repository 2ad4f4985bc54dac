#include "event.h"

#include <algorithm>

namespace trowelbell {

namespace {

std::int64_t read_seq(const Reader& reader) {
  return reader.whole("seq", 1, kLargestExact);
}

void presence(const Reader& data) {
  data.choice("is", {"present", "late", "absent", "left_early", "unknown"});
}

struct KindCheck {
  std::string_view kind;
  void (*check)(const Reader& data);
};

constexpr KindCheck kKinds[] = {
    {"start", [](const Reader&) {}},
    {"step", [](const Reader& data) { data.id("step"); }},
    {"page", [](const Reader& data) { data.whole("page", 0, 59); }},
    {"finish", [](const Reader&) {}},
    {"hold",
     [](const Reader& data) {
       data.choice("reason", {"drill", "child", "teacher", "other"});
     }},
    {"resume", [](const Reader&) {}},
    {"choose",
     [](const Reader& data) {
       data.id("step");
       data.choice("choice", {"keep", "drop", "auto"});
     }},
    {"place",
     [](const Reader& data) {
       data.whole("place", 1, 60);
       presence(data);
     }},
    {"others", presence},
    {"children", [](const Reader& data) { data.whole("count", 1, 60); }},
    {"adults", [](const Reader& data) { data.whole("count", 1, 20); }},
    {"bell", [](const Reader& data) { data.whole("at", 0, kLargestExact); }},
    {"kit",
     [](const Reader& data) {
       data.choice("pile", {"brought", "given", "spoiled", "with_teacher", "spare"});
       data.whole("by", -120, 120);
     }},
    {"lacking",
     [](const Reader& data) {
       data.id("item");
       data.whole("count", 0, 999);
     }},
    {"readers", [](const Reader& data) { data.whole("count", 1, 2); }},
    {"tick",
     [](const Reader& data) {
       data.choice("list", {"ready", "packed", "step", "handover"});
       data.id("item");
       data.flag("done");
     }},
    {"mishap", [](const Reader& data) { data.id("card"); }},
    {"taken",
     [](const Reader& data) {
       data.choice("by", {"teacher", "aide", "office", "nobody"});
     }},
    {"sheet",
     [](const Reader& data) {
       data.choice("language", {"en", "es"});
     }},
    // An empty note takes an earlier one back.
    {"note", [](const Reader& data) { data.text_or("text", 500, "", true); }},
    {"report", [](const Reader&) {}},
    {"undo",
     [](const Reader& data) {
       read_device(data);
       read_seq(data);
     }},
};

bool is_kind_name(std::string_view kind) {
  return std::all_of(kind.begin(), kind.end(),
                     [](char c) { return (c >= 'a' && c <= 'z') || c == '_'; });
}

}  // namespace

std::string read_device(const Reader& reader) {
  const std::string* device = reader.find_text("device");
  if (device == nullptr || device->size() != 16 ||
      device->find_first_not_of("0123456789abcdef") != std::string::npos) {
    reader.refuse("device", "16 digits of 0-9 and a-f");
    return "";
  }
  return *device;
}

std::strong_ordering Event::operator<=>(const Event& other) const {
  if (at != other.at) {
    return at <=> other.at;
  }
  if (const int by_device = device.compare(other.device); by_device != 0) {
    return by_device <=> 0;
  }
  if (seq != other.seq) {
    return seq <=> other.seq;
  }
  if (const int by_kind = kind.compare(other.kind); by_kind != 0) {
    return by_kind <=> 0;
  }
  return dump_json(data).compare(dump_json(other.data)) <=> 0;
}

bool Event::operator==(const Event& other) const {
  return (*this <=> other) == std::strong_ordering::equal;
}

Json event_json(const Event& event) {
  return {{"device", event.device},
          {"seq", event.seq},
          {"at", event.at},
          {"kind", event.kind},
          {"data", event.data}};
}

std::optional<Event> read_event(const Json& document, Problems& problems) {
  Problems found;
  const Reader reader(document, found);
  Event event;
  event.device = read_device(reader);
  event.seq = read_seq(reader);
  event.at = reader.whole("at", 0, kLargestExact);
  event.kind = reader.text("kind", 32);
  if (!is_kind_name(event.kind)) {
    reader.refuse("kind", "1 to 32 of a-z and \"_\"");
  }
  const Reader data = reader.object("data");
  const auto* known = std::find_if(std::begin(kKinds), std::end(kKinds),
                                   [&](const KindCheck& each) { return each.kind == event.kind; });
  if (known != std::end(kKinds)) {
    known->check(data);
  }
  event.data = data.value();
  // Also where the event did not come through parse_json with kEventLimits, as inside a journal
  // file.
  if (found.empty() && dump_json(event_json(event)).size() > kEventLimits.bytes) {
    reader.problem(
        "data", "is too long; an event may have " + std::to_string(kEventLimits.bytes) + " bytes");
  }
  add_problems(problems, found);
  return found.empty() ? std::optional<Event>(std::move(event)) : std::nullopt;
}

}  // namespace trowelbell
