// The page's side of worker.js.

// A worker that cannot start may never say so.
const LONGEST_START_MS = 6000;

export class Helper {
  constructor() {
    this.calls = new Map();
    this.last = 0;
    /** Resolves when the worker runs, or will not. */
    this.begun = new Promise((resolve) => { this.begin = resolve; });
    try {
      this.worker = new Worker(new URL('worker.js', import.meta.url), { type: 'module' });
      this.worker.onmessage = ({ data }) => (data.begun ? this.begin() : this.calls.get(data.call)?.(data));
      this.worker.onerror = () => this.giveUp();
    } catch {
      this.giveUp();
    }
    const patience = setTimeout(() => this.giveUp(), LONGEST_START_MS);
    this.begun.then(() => clearTimeout(patience));
  }

  /** The worker's answer. Rejects when there is no worker, when it cannot do it, and when it does not answer within
   *  `most_ms`. */
  call(kind, data, most_ms) {
    return new Promise((resolve, reject) => {
      if (!this.worker) return void reject(new Error('no worker'));
      const call = ++this.last;
      const timer = most_ms && setTimeout(() => this.calls.get(call)?.({ ok: false, why: 'no answer' }), most_ms);
      this.calls.set(call, (answer) => {
        clearTimeout(timer);
        this.calls.delete(call);
        if (answer.ok) resolve(answer.answer);
        else reject(new Error(answer.why));
      });
      this.worker.postMessage({ ...data, kind, call });
    });
  }

  giveUp() {
    this.worker?.terminate();
    this.worker = null;
    this.begin();
    for (const answer of [...this.calls.values()]) answer({ ok: false, why: 'no worker' });
  }
}
