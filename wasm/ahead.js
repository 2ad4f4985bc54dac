// The streams of the store that the app will open first, asked for while its code is still on its way. The app asks as if
// nothing had been done, and finds the answers here.

const LAST_VISIT = 'trowelbell.last-visit';  // the stream of the visit that was open last
const STREAMS = ['app', 'outbox'];           // those that are always opened
const LONGEST_MS = 1000;

function remembered() {
  try {
    return localStorage.getItem(LAST_VISIT);
  } catch {
    return null;  // storage is denied
  }
}

function remember(stream) {
  try {
    if (!STREAMS.includes(stream)) localStorage.setItem(LAST_VISIT, stream);
  } catch { /* then the next opening asks for it later */ }
}

export class Ahead {
  /** `store`: a Store. `sameVisit`: the page has no link to another visit. */
  constructor(store, sameVisit) {
    this.store = store;
    const last = sameVisit ? remembered() : null;
    const streams = last ? [...STREAMS, last] : STREAMS;
    this.streams = new Map(streams.map((stream) => [stream, store.open(stream)]));  // until the app takes the answer
    this.wrote = store.writes();
    this.answers = Promise.allSettled(this.streams.values());
  }

  /** Resolves when all is answered, or is late: a screen that still waits for most of it is not worth drawing. */
  async answered() {
    await Promise.race([this.answers, new Promise((resolve) => { setTimeout(resolve, LONGEST_MS); })]);
  }

  /** As open of a Store. What was read while another page wrote may be old, and is read anew. */
  async open(stream) {
    remember(stream);
    const answer = this.streams.get(stream);
    this.streams.delete(stream);
    return answer && await this.wrote && this.store.writer.here ? answer : this.store.open(stream);
  }
}
