// The screens, one function each. They draw the state and record taps; nothing else.
#pragma once

#include "app/app_state.h"

namespace trowelbell {

void draw_opening(AppState& app);  // nothing open yet: loading, no visit, or what went wrong
void draw_brief(AppState& app);
void draw_outlook(AppState& app);  // how many adults, and the chance of ending by the bell
void draw_packing(AppState& app);  // what to count before the visit, and what is short
void draw_lesson(AppState& app);
void draw_plan(AppState& app);  // every step of the lesson with its time; keep, leave out, go to
void draw_big(AppState& app);   // Lesson in letters for an arm's length
void draw_hold(AppState& app);  // why the lesson stands still
void draw_room(AppState& app);
void draw_names(AppState& app);  // first names of places, where the school allows them
void draw_care(AppState& app);
void draw_handover(AppState& app);
void draw_uneven(AppState& app);  // the kits do not add up: look again, or hand over all the same
void draw_sheet(AppState& app);   // what the teacher keeps
void draw_report(AppState& app);
void draw_elsewhere(AppState& app);        // another page of this phone writes; go on here?
void draw_codes(AppState& app);            // the report as QR codes
void draw_without_network(AppState& app);  // buttons to them, and to the report on paper

// Parts that screens share.
void draw_notices(AppState& app);  // at the top of a body
void draw_practice_entry(AppState& app, std::string_view id);
void draw_phone(AppState& app);  // what this phone should look like and sound like
void draw_tabs(AppState& app);
// The one thing to do next, as a bar at the bottom; true when it was tapped.
bool go_bar(Ui& ui, std::string_view id, const ButtonText& text, bool enabled = true);
// A bar at the bottom for two buttons side by side; they change sides for the left hand.
struct ToolBar {
  Rect left, right;
};
ToolBar tool_bar(Ui& ui, const ButtonText& left, const ButtonText& right);
// Title strip with the way back of a panel; true when it was tapped.
bool draw_panel_head(AppState& app, std::string_view title);
// The bed: one mound a step, as wide as its time; the sprout where we are; the bell at the end.
// Opens the plan.
void draw_bed(AppState& app, const VisitPace& pace, Rect strip);

// A number for a placeholder.
std::string n(std::int64_t value);
// A running time as it is shown: to half a minute, in the last minute and once it is over to a
// quarter, so that a phone need not draw every second. Has the frame drawn in which it changes.
std::int64_t shown_seconds(AppState& app, std::int64_t left);
// "17 min to the bell", "The bell was 2 min ago".
std::string bell_words(AppState& app, const VisitPace& pace);
// The bell cannot be kept, or is over.
bool late(const VisitPace& pace);
// "2:40 left", "0:15 over": of the step that is on.
std::string step_left_words(AppState& app, const VisitPace& pace);
// Why a step is shorter or left out, as a sentence; empty when it goes as planned.
std::string why_words(const AppState& app, const PacedItem& step, std::string_view title);
// What became of a report, in a few words and in a sentence.
std::string delivery_title(const AppState& app, const OutboxEntry& entry);
std::string delivery_detail(const AppState& app, const OutboxEntry& entry);
std::string minutes_words(const AppState& app, std::int64_t seconds);
// How far the packing table is, and how many kits it gives where something is short.
std::string packing_words(const AppState& app);
// The reader of a page: "reader", or the first and the second where two take turns.
std::string reader_words(const AppState& app, std::int64_t page);
void draw_readers(AppState& app);  // one reader or two
void draw_story(AppState& app);    // the page being read
const StoryPage& page_being_read(const AppState& app);
// The one large button at the bottom of Lesson, and the height its words need.
void draw_forward(AppState& app, Rect rect, const VisitPace& pace);
float forward_height(const AppState& app, float width);
// What the button that leads on says, and what it does.
std::string next_label(const AppState& app, std::size_t next);
void go_next(AppState& app, std::size_t next);
// Below this height parts of Lesson stand side by side instead of one below the other.
bool compact(const Ui& ui);
// How many kits are missing, or too many; `off` as KitPiles::unaccounted, not 0.
std::string uneven_words(const AppState& app, std::int64_t off);
// What is known of the kits, and whether it adds up.
void draw_kit_balance(AppState& app);

}  // namespace trowelbell
