// The page's side of store-worker.js: the first copy of the store.

// A worker that cannot start may never say so.
const LONGEST_OPENING_MS = 6000;
const LONGEST_WRITE_MS = 10000;

export class FileCopy {
  constructor() {
    this.calls = new Map();
    this.last = 0;
    try {
      this.worker = new Worker(new URL('store-worker.js', import.meta.url), { type: 'module' });
      this.worker.onmessage = ({ data }) => this.calls.get(data.call)?.(data);
      this.worker.onerror = () => this.giveUp();
    } catch {
      this.giveUp();
    }
  }

  /** The records of a stream, {seq, text} in the order they were written. Rejects where files cannot be had. */
  async open(stream) {
    return await this.call(LONGEST_OPENING_MS, { kind: 'open', stream });
  }

  /** Resolves when the records are on disk. */
  async append(stream, records) {
    await this.call(LONGEST_WRITE_MS, { kind: 'append', stream, records });
  }

  /** Gives the file to another page. */
  async close(stream) {
    await this.call(LONGEST_WRITE_MS, { kind: 'close', stream });
  }

  /** The text of the file for first names (names-file.js). */
  async readNames() {
    return await this.call(LONGEST_OPENING_MS, { kind: 'read_names' });
  }

  async keepNames(text) {
    await this.call(LONGEST_WRITE_MS, { kind: 'keep_names', text });
  }

  call(most_ms, message) {
    return new Promise((resolve, reject) => {
      if (!this.worker) return void reject(new Error('no worker'));
      const call = ++this.last;
      const timer = setTimeout(() => this.calls.get(call)?.({ ok: false, why: 'no answer' }), most_ms);
      this.calls.set(call, (answer) => {
        clearTimeout(timer);
        this.calls.delete(call);
        if (answer.ok) resolve(answer.answer);
        else reject(new Error(answer.why));
      });
      this.worker.postMessage({ ...message, call });
    });
  }

  giveUp() {
    this.worker?.terminate();
    this.worker = null;
    for (const answer of [...this.calls.values()]) answer({ ok: false, why: 'no worker' });
  }
}
