// Reports that come without a network: saved files, pictures of QR codes, texts; chosen, dropped or pasted. The collector
// reads the codes, puts the parts together and stores the report; here they are only carried to it.
import { element } from './coordinator_element.js';
import { greyPixels } from './coordinator_pixels.js';
import { text } from './coordinator_texts.js';

const MARK = 'TROWELBELL-REPORT-';    // of a part, core/report_parts.h
const LONGEST_TEXT = 512 * 1024;
const REFUSALS = { 404: 'unknown', 409: 'conflict', 429: 'full', 503: 'storage' };
const byId = (id) => document.getElementById(id);
const say = (key, values) => text(`coordinator.intake.${key}`, values);

let ask;                 // of the page: asks the collector, or throws what there is to say
let stored;              // a report has come in
let parts = new Set();   // texts of parts, until every report they belong to is in
let told = { unread: 0, digests: new Set() };  // of them, what need not be said again
let queue = Promise.resolve();  // one thing after the other

const post = (path, type, body) => ask(path, { method: 'POST', headers: { 'Content-Type': type }, body });

function nameOf(report) {
  const { room, school, date } = report;
  return [room, school, date].map(String).join(', ');
}

/** Stores a report, its text as the phone wrote it. Answers what became of it. */
async function store(report) {
  const visit = nameOf(JSON.parse(report));
  try {
    const { status } = await post('v1/reports', 'application/json', report);
    return say(status === 201 ? 'stored' : 'already', { visit });
  } catch (error) {
    if (!error.status || error.status === 401) throw error;
    return say('refused', { visit, why: say(`refused.${REFUSALS[error.status] ?? 'unread'}`) });
  }
}

/** The parts gathered so far and these, put together as far as they go. */
async function takeParts(texts) {
  for (const one of texts) parts.add(one);
  const { sets, unread, newer } = await (await post('v1/parts', 'text/plain', [...parts].join('\n'))).json();
  const said = [];
  for (const set of sets) {
    const digest = set.digest.slice(0, 6);
    if (set.report !== undefined) {
      if (!told.digests.has(set.digest)) said.push(await store(set.report));
      told.digests.add(set.digest);
    } else {
      const missing = new Intl.ListFormat(document.documentElement.lang).format(set.missing.map(String));
      said.push(set.damaged ? say('damaged', { digest }) : say('missing', { of: set.of, digest, missing }));
    }
  }
  if (unread > told.unread) said.push(say('unread', { n: unread - told.unread }));
  told.unread = unread;
  if (newer) said.push(say('newer'));
  if (sets.every((set) => set.report !== undefined || set.damaged)) forget();
  return said;
}

function forget() {
  parts = new Set();
  told = { unread: 0, digests: new Set() };
}

async function takeText(name, words) {
  if (words.length > LONGEST_TEXT) return [say('too_long', { name })];
  if (words.includes(MARK)) return takeParts([words]);
  const report = words.trim();
  try {
    if (JSON.parse(report).format !== 'trowelbell.report') throw new Error(report);
  } catch {
    return [say('no_report', { name })];
  }
  return [await store(report)];
}

async function takePicture(file) {
  let picture;
  try {
    picture = await greyPixels(file);
  } catch {
    return [say('no_picture', { name: file.name })];
  }
  const { width, height, grey } = picture;
  const { texts } = await (await post(`v1/picture?width=${width}&height=${height}`, 'application/octet-stream', grey)).json();
  const found = texts.filter((one) => one.includes(MARK));
  if (found.length > 0) return takeParts(found);
  return [say(texts.length > 0 ? 'no_report' : 'no_code', { name: file.name })];
}

async function takeFile(file) {
  const written = /^(text\/|application\/json)/.test(file.type) || /\.(json|txt)$/i.test(file.name);
  return written ? takeText(file.name, await file.slice(0, LONGEST_TEXT + 1).text()) : takePicture(file);
}

/** Does `jobs` one after the other, and says what came of each. */
function take(jobs) {
  queue = queue.then(async () => {
    byId('intake').open = true;
    const log = byId('intake-log');
    const working = element('p', { textContent: say('working') });
    log.replaceChildren(working);
    const before = new Set();
    for (const job of jobs) {
      let said;
      try {
        said = await job();
      } catch (error) {
        said = [error.sentence?.() ?? text('coordinator.error.unreachable')];
      }
      // Of several pictures only the last needs to tell what is missing.
      for (const old of before) old.remove();
      before.clear();
      for (const words of said) {
        const line = element('p', { textContent: words });
        working.before(line);
        if (parts.size > 0) before.add(line);
      }
    }
    working.remove();
    byId('intake-clear').hidden = parts.size === 0;
    await stored();
  });
}

const takeFiles = (files) => take([...files].map((file) => () => takeFile(file)));
const takeWords = (words) => take([() => takeText(say('pasted'), words)]);

/** `ask(path, options)` asks the collector; `stored()` is called after reports may have come in; `ready()` tells whether
 *  there is a list to take them into. */
export function beginIntake(page) {
  ({ ask, stored } = page);
  byId('intake-files').addEventListener('change', ({ target }) => {
    takeFiles(target.files);
    target.value = '';  // the same file may be chosen again
  });
  byId('intake-form').addEventListener('submit', (event) => {
    event.preventDefault();
    takeWords(byId('intake-text').value);
    byId('intake-text').value = '';
  });
  byId('intake-clear').addEventListener('click', () => {
    forget();
    byId('intake-log').replaceChildren();
    byId('intake-clear').hidden = true;
  });
  const takeAll = (data) => {
    if (data.files.length > 0) takeFiles(data.files);
    else if (data.getData('text/plain')) takeWords(data.getData('text/plain'));
  };
  addEventListener('dragover', (event) => event.preventDefault());
  addEventListener('drop', (event) => {
    event.preventDefault();
    if (page.ready()) takeAll(event.dataTransfer);
  });
  addEventListener('paste', (event) => {
    const inField = event.target.matches?.('input, textarea') && event.clipboardData.files.length === 0;
    if (inField || !page.ready()) return;
    event.preventDefault();
    takeAll(event.clipboardData);
  });
}
