/** A timer that each frame may set anew: (ms) => set, -1 takes it back. To take back one and start another would cost every
 *  frame, so one that would end too early is left to run, and then waits for the rest. */
export function lateTimer(run) {
  let id = 0;
  let ends = Infinity;  // when the one that runs ends
  let due = Infinity;

  function start() {
    ends = due;
    id = setTimeout(ended, due - performance.now());
  }
  function ended() {
    ends = Infinity;
    if (performance.now() < due) start();
    else run();
  }
  return (ms) => {
    due = ms < 0 ? Infinity : performance.now() + ms;
    if (due < Infinity && ends <= due) return;
    clearTimeout(id);
    ends = Infinity;
    if (due < Infinity) start();
  };
}
