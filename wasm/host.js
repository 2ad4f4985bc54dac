// The page as C++ sees it: the functions of the table in src/host/web/web_host.h, and the way back into C++.
import { Announcer } from './announcer.js';
import * as device from './device.js';
import { lateTimer } from './late-timer.js';
import { Mirror } from './mirror.js';
import { put } from './net.js';
import { sendWhenBack } from './offline.js';

const prefers = { dark: matchMedia('(prefers-color-scheme: dark)'), still: matchMedia('(prefers-reduced-motion: reduce)') };
const element = (id) => document.getElementById(id);

// A clock that only goes forward and counts the time a phone sleeps, when browsers may stop performance.now().
function sleepProofClock() {
  const SHORTEST_SLEEP_MS = 1000;
  const LONGEST_SLEEP_MS = 12 * 3600 * 1000;
  let slept = 0;
  let ahead = Date.now() - performance.now();
  document.addEventListener('visibilitychange', () => {
    const now = Date.now() - performance.now();
    const missed = now - ahead;
    // While the page is shown, a jump of the wall clock is someone setting it.
    if (!document.hidden && missed > SHORTEST_SLEEP_MS && missed < LONGEST_SLEEP_MS) slept += missed;
    ahead = now;
  });
  return () => performance.now() + slept;
}

const NO_FILE = new Uint8Array();

/** `files`: those of the page, path -> Uint8Array; `faces`: those among them that it writes in; `ahead`: an Ahead of ahead.js.
 *  `drawn` of what comes back is a promise: something has been drawn. */
export function createHost({ files, faces, ahead }) {
  const { store } = ahead;
  let module = null;

  const utf8 = new TextEncoder();

  // Texts, and bytes that are one in UTF-8, are in memory for the length of the call.
  function call(name, ...values) {
    const texts = [];
    const passed = values.map((value) => {
      const bytes = typeof value === 'string' ? utf8.encode(value) : value;
      if (!(bytes instanceof Uint8Array)) return Number(value);
      const pointer = module['_malloc'](bytes.length + 1);
      module['HEAPU8'].set(bytes, pointer);
      module['HEAPU8'][pointer + bytes.length] = 0;
      texts.push(pointer);
      return pointer;
    });
    const answer = module[`_page_${name}`](...passed);
    texts.forEach((pointer) => module['_free'](pointer));
    return answer;
  }

  const announcer = new Announcer(element('polite'), element('assertive'));
  const mirror = new Mirror(element('mirror'), {
    activate: (id) => call('activate', id),
    focus: (id) => call('focus', id),
    type: (id, text) => call('type', id, text),
    back: () => call('back'),
  });
  const opened = (text) => call('file_opened', text);
  let askedToPersist = false;
  const open = new Set();  // streams

  let ready;  // for the first frame
  let tellDrawn;
  const drawn = new Promise((resolve) => { tellDrawn = resolve; });
  const draw = () => { if (call('frame')) tellDrawn(); };

  const host = {
    monotonic_ms: sleepProofClock(),
    random_hex(digits) {
      const bytes = crypto.getRandomValues(new Uint8Array(Math.ceil(digits / 2)));
      return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('').slice(0, digits);
    },

    async open_stream(stream) {
      open.add(stream);
      if (!await store.writes()) call('writes_here', false);
      const nothing = { records: [], file: false, copy: false, lost: 0 };
      const { records, file, copy, lost } = await ahead.open(stream).catch(() => nothing);
      call('stream_opened', stream, records.join('\n'), records.length, file, copy, lost);
    },
    async append(stream, record, token) {
      const ok = await store.append(stream, record).catch(() => false);
      call('appended', token, ok);
      // Once a visit is kept: a person may be asked, and should know by then what for.
      if (ok && !askedToPersist && stream.startsWith('visit-')) {
        askedToPersist = true;
        navigator.storage?.persist?.().catch(() => {});
      }
    },

    // Where a page may not write files, names live as long as the page. The first screen has none.
    async open_names() {
      await drawn;
      call('names_opened', await store.file.readNames().catch(() => ''));
    },
    keep_names: (text) => store.file.keepNames(text).catch(() => {}),
    async ask_storage() {
      await new Promise((resolve) => { setTimeout(resolve); });  // not in the middle of a frame
      const [used, persistent] = await Promise.all([
        navigator.storage?.estimate?.().catch(() => null), navigator.storage?.persisted?.().catch(() => false),
      ]);
      call('storage_told', used?.usage ?? -1, !!persistent);
    },
    write_here: () => store.writeHere(),

    async fetch(path) {
      await null;  // the app does not expect the answer while it asks
      call('fetched', path, files.has(path), files.get(path) ?? NO_FILE);
    },
    async send(path, bearer, body) {
      const answer = await put(path, bearer, body);
      if (answer.status === 0) sendWhenBack().catch(() => {});
      call('sent', answer.status, answer.body, answer.digest, answer.retryAfter);
    },

    show_nodes: (json, language) => mirror.show(JSON.parse(json), language),
    announce: (text, urgent) => announcer.say(text, urgent),
    set_page(title, language, dark) {
      document.title = title;
      document.documentElement.lang = language;
      document.documentElement.dataset.theme = dark ? 'dark' : 'light';
      for (const meta of document.querySelectorAll('meta[name=theme-color]')) meta.content = dark ? '#1E1A16' : '#FBF6EA';
    },
    prefers_dark: () => prefers.dark.matches,
    prefers_still: () => prefers.still.matches,
    preferred_language: () => navigator.language || 'en',

    save_file: device.saveFile,
    pick_file: () => device.pickFile(opened),
    print_text: device.printText,
    keep_awake: device.keepAwake,
    buzz: device.buzz,
    push_history: () => history.pushState('place', ''),

    request_frame() {
      ready ??= ahead.answered();
      ready.then(() => requestAnimationFrame(draw));
    },
    set_timer: lateTimer(() => call('timer')),

    font_bytes: (face) => faces[face].length,
    font: (face) => faces[face],
  };
  device.acceptDrops(opened);
  store.listen({
    writesHere(here) {
      call('writes_here', here);
      if (here) open.forEach((stream) => host.open_stream(stream));
    },
    written: (stream) => host.open_stream(stream),
  });
  return { host, call, mirror, drawn, attach(attached) { module = attached; } };
}
