// The phone's store: append-only streams of short texts, each record kept twice (store-file.js, store-copy.js), with a
// witness in localStorage of how many there were. Why twice: a browser that is killed has been seen to come up with an
// empty IndexedDB and no error. An append is answered when the file is on disk, or, without a file, the database.
import { DatabaseCopy } from './store-copy.js';
import { FileCopy } from './store-file.js';
import { LONGEST_RECORD } from './record.js';

const STREAM_NAME = /^[a-z0-9][a-z0-9._-]{0,99}$/;
const LONGEST_WAIT_FOR_LOCK_MS = 6000;  // a slow phone closes the page before this one slowly, too

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

// Holds the stream for this page as long as it lives. False: another page has it.
function lock(stream) {
  if (!navigator.locks) return Promise.resolve(true);
  return new Promise((resolve) => {
    const patience = new AbortController();
    setTimeout(() => patience.abort(), LONGEST_WAIT_FOR_LOCK_MS);
    navigator.locks.request(`trowelbell.${stream}`, { signal: patience.signal }, () => {
      resolve(true);
      return new Promise(() => {});
    }).catch(() => resolve(false));
  });
}

export class Store {
  constructor() {
    this.file = new FileCopy();
    this.copy = new DatabaseCopy();
    this.streams = new Map();  // name -> { mine, file, copy, last, count, writing }
    this.opening = new Map();  // name -> what open() will answer
  }

  /** {records: [text], file, copy, lost, wiped}: what is stored, which copies can be used, how many records that were
   *  once acknowledged are in neither, and whether the database came back empty though the file or the witness knows of
   *  records. A page that finds the stream open in another page may only read it. */
  open(stream) {
    const answer = this.readBoth(stream);
    this.opening.set(stream, answer);
    return answer;
  }

  async readBoth(stream) {
    if (!STREAM_NAME.test(stream)) return { records: [], file: false, copy: false, lost: 0, wiped: false };
    const before = this.streams.get(stream);
    await before?.writing;
    const mine = before?.mine || await lock(stream);
    const [file, copy] = await Promise.all([
      mine ? this.file.open(stream).catch(() => null) : null,
      this.copy.open(stream).catch(() => null),
    ]);
    const { records, fileLacks, copyLacks } = unite(file ?? [], copy ?? []);
    const seen = witness.read(stream);
    const lost = Math.max(0, seen.count - records.length);
    const wiped = this.copy.isNew && copy?.length === 0 && Math.max(seen.count, records.length) > 0;
    const state = {
      mine, file: file !== null, copy: mine && copy !== null, writing: undefined,
      last: Math.max(seen.last, before?.last ?? 0, records.at(-1)?.seq ?? 0),
      count: Math.max(seen.count, records.length),
    };
    this.streams.set(stream, state);
    if (state.file && fileLacks.length) await this.file.append(stream, fileLacks).catch(() => { state.file = false; });
    if (state.copy && copyLacks.length) await this.copy.repair(stream, copyLacks).catch(() => { state.copy = false; });
    if (mine && records.length) witness.write(stream, state);
    return { records: records.map(({ text }) => text), file: state.file, copy: state.copy, lost, wiped };
  }

  /** True when the record is on disk; false when it could be written nowhere. */
  async append(stream, text) {
    await this.opening.get(stream);
    const state = this.streams.get(stream);
    if (!state || text.includes('\n') || new TextEncoder().encode(text).length > LONGEST_RECORD) return false;
    const records = [{ seq: ++state.last, text }];
    const copied = state.copy ? this.copy.append(stream, records).then(() => true, () => false) : false;
    const filed = state.file ? this.file.append(stream, records).then(() => true, () => false) : false;
    state.writing = Promise.all([state.writing, copied, filed]);
    if (!await filed) {
      state.file = false;  // until the stream is opened again, which makes the file whole
      if (!await copied) return false;
    }
    ++state.count;
    witness.write(stream, state);
    return true;
  }
}
