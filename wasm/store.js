// The phone's store: append-only streams of short texts, each record kept twice (store-file.js, store-copy.js), with a
// witness in localStorage of how many there were. Why twice: a browser that is killed has been seen to come up with an
// empty IndexedDB and no error. An append is answered when the file is on disk, or, without a file, the database.
import { Helper } from './helper.js';
import { OneWriter } from './one-writer.js';
import { DatabaseCopy } from './store-copy.js';
import { FileCopy } from './store-file.js';
import { LONGEST_RECORD } from './record.js';

const STREAM_NAME = /^[a-z0-9][a-z0-9._-]{0,99}$/;

/** The records of both copies by sequence number, and what each copy lacks. Where the two differ at one number, the
 *  file's record stays there and the other comes at the end: nothing is dropped. */
export function unite(file, copy) {
  const at = new Map();
  for (const { seq, text } of file) if (!at.has(seq)) at.set(seq, text);
  const displaced = [];
  for (const { seq, text } of copy) {
    if (!at.has(seq)) at.set(seq, text);
    else if (at.get(seq) !== text) displaced.push(text);
  }
  const known = new Set(at.values());
  let last = [...at.keys()].reduce((most, seq) => Math.max(most, seq), 0);
  for (const text of displaced) if (!known.has(text)) at.set(++last, text);
  const records = [...at].map(([seq, text]) => ({ seq, text })).sort((a, b) => a.seq - b.seq);
  const lacking = (copied) => {
    const has = new Map(copied.map(({ seq, text }) => [seq, text]));
    return records.filter(({ seq, text }) => has.get(seq) !== text);
  };
  return { records, fileLacks: lacking(file), copyLacks: lacking(copy) };
}

// The witness of a stream: "<last sequence number> <records acknowledged>".
const witness = {
  key: (stream) => `trowelbell.witness.${stream}`,
  read(stream) {
    try {
      const [last, count] = (localStorage.getItem(this.key(stream)) ?? '').split(' ').map(Number);
      return { last: last || 0, count: count || 0 };
    } catch {
      return { last: 0, count: 0 };
    }
  },
  write(stream, { last, count }) {
    try {
      localStorage.setItem(this.key(stream), `${last} ${count}`);
    } catch { /* storage is denied: there is no witness then */ }
  },
};

export class Store {
  /** `helper`: the Helper whose worker has the files. */
  constructor(helper = new Helper()) {
    this.file = new FileCopy(helper);
    this.copy = new DatabaseCopy();
    this.streams = new Map();  // name -> { file, copy, last, count, writing }
    this.opening = new Map();  // name -> what open() will answer
    this.writer = new OneWriter((here) => {
      if (!here) this.letGo();
      this.listener?.writesHere(here);
    });
    this.others = globalThis.BroadcastChannel ? new BroadcastChannel('trowelbell.store') : null;
    if (this.others) this.others.onmessage = ({ data }) => {
      if (!this.writer.here && this.opening.has(data)) this.listener?.written(data);
    };
  }

  /** `writesHere(here)`: as OneWriter tells. `written(stream)`: another page has written to a stream that is open here. */
  listen(listener) { this.listener = listener; }

  /** Whether this page writes. */
  async writes() {
    await this.writer.first;
    return this.writer.here;
  }

  writeHere() { this.writer.take(); }

  // Another page writes from now on, and needs the files.
  letGo() {
    for (const [stream, state] of this.streams) {
      state.file = state.copy = false;
      this.file.close(stream).catch(() => {});
    }
  }

  /** {records: [text], file, copy, lost, wiped}: what is stored, which copies can be used, how many records that were
   *  once acknowledged are in neither, and whether the database came back empty though the file or the witness knows of
   *  records. A page that does not write reads the second copy. */
  open(stream) {
    const answer = this.readBoth(stream);
    this.opening.set(stream, answer);
    return answer;
  }

  async readBoth(stream) {
    if (!STREAM_NAME.test(stream)) return { records: [], file: false, copy: false, lost: 0, wiped: false };
    const before = this.streams.get(stream);
    await before?.writing;
    const here = await this.writes();
    const [file, copy] = await Promise.all([
      here ? this.file.open(stream).catch(() => null) : null,
      this.copy.open(stream).catch(() => null),
    ]);
    const { records, fileLacks, copyLacks } = unite(file ?? [], copy ?? []);
    const seen = witness.read(stream);
    // Who only looks may be a step behind.
    const lost = here ? Math.max(0, seen.count - records.length) : 0;
    const wiped = this.copy.isNew && copy?.length === 0 && Math.max(seen.count, records.length) > 0;
    const state = {
      file: file !== null, copy: here && copy !== null, writing: undefined,
      last: Math.max(seen.last, before?.last ?? 0, records.at(-1)?.seq ?? 0),
      count: Math.max(seen.count, records.length),
    };
    this.streams.set(stream, state);
    if (state.file && fileLacks.length) await this.file.append(stream, fileLacks).catch(() => { state.file = false; });
    if (state.copy && copyLacks.length) await this.copy.repair(stream, copyLacks).catch(() => { state.copy = false; });
    if (here && records.length) witness.write(stream, state);
    return { records: records.map(({ text }) => text), file: state.file, copy: state.copy, lost, wiped };
  }

  /** True when the record is on disk; false when it could be written nowhere. */
  async append(stream, text) {
    await this.opening.get(stream);
    const state = this.streams.get(stream);
    if (!state || text.includes('\n') || new TextEncoder().encode(text).length > LONGEST_RECORD) return false;
    const records = [{ seq: ++state.last, text }];
    const filed = state.file ? this.file.append(stream, records).then(() => true, () => false) : Promise.resolve(false);
    // The copy follows: together they would wait for one disk.
    const copied = state.copy ? filed.then(() => this.copy.append(stream, records)).then(() => true, () => false) : false;
    state.writing = Promise.all([state.writing, copied, filed]);
    if (!await filed) {
      state.file = false;  // until the stream is opened again, which makes the file whole
      if (!await copied) return false;
    }
    ++state.count;
    witness.write(stream, state);
    state.writing.then(() => this.others?.postMessage(stream));
    return true;
  }
}
