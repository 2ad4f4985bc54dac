#include "host/web/frame_pacing.h"

#include <doctest/doctest.h>

#include <vector>

using trowelbell::FramePacing;

namespace {

// A page that notes what it is asked for.
int frames_asked = 0;
std::vector<std::int64_t> timers;

FramePacing fresh_pacing() {
  frames_asked = 0;
  timers.clear();
  return FramePacing({[] { ++frames_asked; }, [](std::int64_t ms) { timers.push_back(ms); }});
}

// Runs the frames that are asked for, each drawing an app whose next moment comes in `due` ms; at
// most `most`.
int frames_run(FramePacing& pacing, std::int64_t due, int most = 100) {
  int drawn = 0;
  while (frames_asked > 0 && drawn < most) {
    --frames_asked;
    if (!pacing.begin_frame()) break;
    ++drawn;
    pacing.wake_after(due);
  }
  return drawn;
}

}  // namespace

TEST_CASE("an event draws three frames, then nothing is pending") {
  FramePacing pacing = fresh_pacing();
  pacing.wake();
  pacing.wake();  // a second event before the first frame asks for no more
  CHECK(frames_asked == 1);
  CHECK(frames_run(pacing, -1) == 3);
  CHECK(frames_asked == 0);
  CHECK(timers == std::vector<std::int64_t>{-1});
}

TEST_CASE("an event during the three frames begins them anew") {
  FramePacing pacing = fresh_pacing();
  pacing.wake();
  CHECK(frames_run(pacing, -1, 2) == 2);
  pacing.wake();
  CHECK(frames_run(pacing, -1) == 3);
}

TEST_CASE("the second hand costs one frame a second") {
  FramePacing pacing = fresh_pacing();
  pacing.wake();
  frames_run(pacing, 1000);
  for (int second = 0; second < 10; ++second) {
    timers.clear();
    pacing.timer();
    CHECK(frames_run(pacing, 1000) == 1);
    CHECK(timers == std::vector<std::int64_t>{1000});
  }
}

TEST_CASE("an animation draws frame after frame until it ends") {
  FramePacing pacing = fresh_pacing();
  pacing.wake();
  CHECK(frames_run(pacing, 0, 50) == 50);
  CHECK(frames_asked == 1);
  CHECK(frames_run(pacing, -1) == 1);
}

TEST_CASE("a hidden page draws nothing, takes its timer back, and wakes when it is shown") {
  FramePacing pacing = fresh_pacing();
  pacing.wake();
  frames_run(pacing, 1000);
  timers.clear();
  pacing.shown(false);
  CHECK(timers == std::vector<std::int64_t>{-1});
  pacing.wake();
  pacing.timer();
  CHECK(frames_asked == 0);
  pacing.shown(true);
  CHECK(frames_run(pacing, 1000) == 3);
}

TEST_CASE("hidden between asking and drawing: the frame is given up and asked for again later") {
  FramePacing pacing = fresh_pacing();
  pacing.wake();
  pacing.shown(false);
  CHECK(frames_run(pacing, 1000) == 0);
  pacing.shown(true);
  CHECK(frames_run(pacing, -1) == 3);
}
