// What the app asks for first, asked while its code is still on its way: all content, and the streams of the store that
// it will open. The app asks as if nothing had been done, and finds the answers there.
import { fetchText } from './net.js';

const INDEX = 'content/index.json';
const LAST_VISIT = 'trowelbell.last-visit';  // the stream of the visit that was open last
const STREAMS = ['app', 'outbox'];           // those that are always opened

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
    this.files = new Map();    // path -> {ok, text}, to come; until the app takes it
    this.streams = new Map();  // name -> what the store answers
    const last = sameVisit ? remembered() : null;
    for (const stream of last ? [...STREAMS, last] : STREAMS) this.streams.set(stream, store.open(stream));
    this.askFor(INDEX).then(({ ok, text }) => { if (ok) this.askForAll(text); }).catch(() => {});
  }

  askFor(path) {
    const answer = fetchText(path);
    this.files.set(path, answer);
    return answer;
  }

  // The index names every file of the content, alone or in groups (content/schema/index.schema.json).
  askForAll(index) {
    for (const part of Object.values(JSON.parse(index))) {
      for (const path of typeof part === 'object' ? Object.values(part) : [part]) {
        if (/\.json$/.test(path)) this.askFor(`content/${path}`);
      }
    }
  }

  /** As fetchText of net.js. Asked for a second time, the file is fetched anew. */
  fetchText(path) {
    return take(this.files, path) ?? fetchText(path);
  }

  /** As open of a Store. */
  open(stream) {
    remember(stream);
    return take(this.streams, stream) ?? this.store.open(stream);
  }
}

function take(answers, name) {
  const answer = answers.get(name);
  answers.delete(name);
  return answer;
}
