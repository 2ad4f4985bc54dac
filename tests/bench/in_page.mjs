// What is measured inside a page: functions that run there before its own scripts do (page.addInitScript). The pages
// themselves know nothing of it.

/** The handle of every animation frame that drew something, into globalThis.bench.frames. */
export function watchFrames() {
  const bench = globalThis.bench = { frames: [], ...globalThis.bench };
  let drew = false;
  const { drawElements } = WebGL2RenderingContext.prototype;
  WebGL2RenderingContext.prototype.drawElements = function draw(...how) {
    drew = true;
    return drawElements.apply(this, how);
  };
  const ask = requestAnimationFrame.bind(globalThis);
  globalThis.requestAnimationFrame = (frame) => {
    const handle = ask((at) => {
      drew = false;
      frame(at);
      if (drew) bench.frames.push(handle);
    });
    return handle;
  };
}

/** In the store's worker: every answer says when it was given, at the end of the flush. A page hears it later: browsers
 *  let messages wait for the frame after a tap. */
export function watchFlush() {
  const answer = postMessage.bind(globalThis);
  globalThis.postMessage = (data) => answer({ ...data, at: performance.timeOrigin + performance.now() });
}

/** From the page's hearing of the end of a touch, and from its asking, until the event is on disk (watchFlush), in ms, into
 *  globalThis.bench.taps and .appends; and until the page knows, into .answers. What passed before the page heard of it goes
 *  into .waits: the driver stamps a touch, and then waits for a frame of the browser before it sends it. */
export function watchStore() {
  const bench = globalThis.bench = { taps: [], appends: [], answers: [], waits: [], ...globalThis.bench };
  let touched = 0;
  addEventListener('pointerup', ({ timeStamp }) => {
    touched = performance.now();
    bench.waits.push(touched - timeStamp);
  }, true);
  globalThis.Worker = class extends Worker {
    constructor(...how) {
      super(...how);
      this.asked = new Map();
      this.addEventListener('message', ({ data }) => {
        const asked = this.asked.get(data.call);
        if (!asked || !data.ok) return;
        this.asked.delete(data.call);
        const flushed = data.at - performance.timeOrigin;
        bench.appends.push(flushed - asked.at);
        if (!asked.touched) return;
        bench.taps.push(flushed - asked.touched);
        bench.answers.push(performance.now() - asked.touched);
      });
    }

    postMessage(message) {
      if (message.kind === 'append') this.asked.set(message.call, { at: performance.now(), touched });
      touched = 0;
      super.postMessage(message);
    }
  };
}

/** Calls globalThis.tellFirstFrame(ms from the beginning, as text) when the app's mirror first has a button of that name.
 *  Looks on only when the page's own scripts have begun, so that the parser need not wait for it. */
export function watchFirstButton(name) {
  const watch = () => {
    const mirror = document.getElementById('mirror');
    if (!mirror) return;
    const look = new MutationObserver(() => {
      const buttons = [...mirror.querySelectorAll('button')];
      if (!buttons.some((button) => button.textContent === name)) return;
      look.disconnect();
      globalThis.tellFirstFrame(String(performance.now()));
    });
    look.observe(mirror, { subtree: true, childList: true, characterData: true });
  };
  document.addEventListener('DOMContentLoaded', watch, { once: true });
}

/** The same for the hello page, which tells of each frame. */
export function watchHello() {
  globalThis.drawn = () => {
    globalThis.drawn = () => {};
    globalThis.tellFirstFrame(String(performance.now()));
  };
}
