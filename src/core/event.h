// The visit is its journal: one Event for every tap that matters. Format "trowelbell.event"
// (version carried by the journal file).
#pragma once

#include <compare>
#include <span>

#include "json.h"

namespace trowelbell {

// kind        data
// start       {}                                  the lesson begins (also the clock)
// step        {"step": id}                        now at this step (next, back, jump)
// page        {"page": 0..59}                     story page shown
// finish      {}                                  the last step is done
// hold        {"reason": "drill|child|teacher|other"}
// resume      {}
// choose      {"step": id, "choice": "keep|drop|auto"}   the lead's word on a step
// place       {"place": 1..60, "is": "present|late|absent|left_early|unknown"}
// others      {"is": ...}                         every place still unknown
// children    {"count": 1..60}                    places in the room
// adults      {"count": 1..20}
// bell        {"at": epoch ms}                    the bell as the school's own clock has it
// kit         {"pile": "brought|given|spoiled|with_teacher|spare", "by": -120..120}
// lacking     {"item": kit item id, "count": 0..999}   pieces short at the packing table
// readers     {"count": 1..2}                     two take turns, page by page
// tick        {"list": "ready|packed|step|handover", "item": id, "done": bool}
// mishap      {"card": id}                        counted by kind; never who
// taken       {"by": "teacher|aide|office|nobody"}   who took the hand-over
// sheet       {"language": "en|es"}
// note        {"text": 0..500 bytes}              to the coordinator; the screen warns: no names
// report      {}                                  a report was made of all up to here; its seq is
//                                                 the revision
// undo        {"device": id, "seq": n}            takes back that event (which may itself be an
//                                                 undo)
struct Event {
  std::string device;    // 16 lower-case hex digits, made on the phone
  std::int64_t seq = 0;  // 1, 2, 3 ... on that device
  std::int64_t at = 0;   // hybrid logical clock, ms since 1970 UTC
  std::string kind;
  Json data = Json::object();

  // The one order of a journal: (at, device, seq). Only a forged journal has two events that agree
  // in these; then kind and data decide, so that the order is still the same everywhere.
  std::strong_ordering operator<=>(const Event& other) const;
  bool operator==(const Event& other) const;
};

inline constexpr JsonLimits kEventLimits{4 * 1024, 6};
inline constexpr std::size_t kMostEvents = 20'000;

Json event_json(const Event& event);
// The field "device"; "", and a problem, where it is not 16 lower-case hex digits.
std::string read_device(const Reader& reader);
// A known kind with wrong data is a problem; an unknown kind is kept as it is (a newer app may have
// written it).
std::optional<Event> read_event(const Json& document, Problems& problems);

}  // namespace trowelbell
