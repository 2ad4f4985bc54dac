// The coordinator's page: which reports are in, which are missing, and what they add up to.
import { fillTexts, formatTime, language, loadTexts, text } from './coordinator_texts.js';
import { beginIntake } from './coordinator_intake.js';
import { drawTotals, drawVisits } from './coordinator_table.js';

const KEY = 'coordinator.key';
const byId = (id) => document.getElementById(id);
const part = { key: byId('key-form'), list: byId('list') };

let visits = [];
let answer = null;  // the newest page of the list
let round = 0;      // a slow answer to an older question must not overwrite a newer one

/** The key of the coordinator's link, taken out of the address at once so that it stays in no history. */
function takeKeyFromAddress() {
  const key = new URLSearchParams(location.hash.slice(1)).get('key');
  if (key === null) return false;
  sessionStorage.setItem(KEY, key);
  history.replaceState(null, '', location.pathname + location.search);
  return true;
}

/** What went wrong, as one of the page's own sentences; `status`: what the collector answered, if it did. */
class Trouble extends Error {
  constructor(kind, status) {
    super(kind);
    this.status = status;
    this.sentence = () => text(`coordinator.error.${kind}`, { status });
  }
}

async function ask(path, options = {}) {
  let response;
  try {
    response = await fetch(path, {
      ...options,
      headers: { ...options.headers, Authorization: `Bearer ${sessionStorage.getItem(KEY)}` },
      cache: 'no-store',
      signal: AbortSignal.timeout?.(options.body ? 60000 : 20000),
    });
  } catch {
    throw new Trouble('unreachable');
  }
  if (response.status === 401) throw new Trouble('key', 401);
  if (response.status === 503) throw new Trouble('busy', 503);
  if (!response.ok) throw new Trouble('other', response.status);
  return response;
}

function show(name, notice) {
  for (const [key, element] of Object.entries(part)) element.hidden = key !== name;
  byId('notice').hidden = !notice;
  byId('notice').textContent = notice ?? '';
}

function draw() {
  drawTotals(byId('totals'), answer.totals);
  drawVisits(byId('visits'), visits, (visit) => ask(`v1/visits/${visit}/reports/latest`));
  const choice = byId('show').value;
  byId('visits').hidden = visits.length === 0;
  byId('empty').hidden = visits.length > 0;
  byId('empty').textContent = text(answer.totals.visits === 0 ? 'coordinator.empty.no_briefs' : `coordinator.empty.${choice}`);
  byId('more').hidden = answer.next === undefined;
  byId('status').textContent = text('coordinator.as_of', { time: formatTime(answer.asked_at), shown: visits.length });
}

async function load(after) {
  const mine = ++round;
  const buttons = [byId('refresh'), byId('more')];
  buttons.forEach((button) => { button.disabled = true; });
  byId('status').textContent = text('coordinator.loading');
  try {
    const query = new URLSearchParams({ show: byId('show').value });
    if (after) query.set('after', after);
    const page = await (await ask(`v1/visits?${query}`)).json();
    if (mine !== round) return;
    answer = { ...page, asked_at: Date.now() };
    visits = after ? visits.concat(page.visits) : page.visits;
    show('list');
    draw();
  } catch (error) {
    if (mine !== round) return;
    byId('status').textContent = '';
    const sentence = error instanceof Trouble ? error.sentence() : text('coordinator.error.unreachable');
    if (error.message === 'key') {
      sessionStorage.removeItem(KEY);
      show('key', sentence);
      byId('key').focus();
    } else {
      show('list', sentence);
    }
  } finally {
    if (mine === round) buttons.forEach((button) => { button.disabled = false; });
  }
}

function begin() {
  if (sessionStorage.getItem(KEY)) return load();
  show('key');
  byId('key').focus();
}

async function useLanguage(tag) {
  await loadTexts(tag);
  byId('language').value = language();
  fillTexts(document);
  if (answer && !part.list.hidden) draw();
}

byId('refresh').addEventListener('click', () => load());
byId('show').addEventListener('change', () => load());
byId('more').addEventListener('click', () => load(answer.next));
byId('language').addEventListener('change', (event) => {
  localStorage.setItem('coordinator.language', event.target.value);
  useLanguage(event.target.value);
});
part.key.addEventListener('submit', (event) => {
  event.preventDefault();
  // The whole link may be pasted as well as the key alone.
  sessionStorage.setItem(KEY, byId('key').value.trim().replace(/^.*#key=/, ''));
  byId('key').value = '';
  load();
});
beginIntake({ ask, stored: () => load(), ready: () => !part.list.hidden });
addEventListener('hashchange', () => { if (takeKeyFromAddress()) load(); });

takeKeyFromAddress();
try {
  await useLanguage(localStorage.getItem('coordinator.language') ?? navigator.language);
  document.querySelector('main').hidden = false;
  document.querySelector('header .field').hidden = false;
  begin();
} catch {
  // Without its texts the page can say only this.
  const notice = document.createElement('p');
  notice.className = 'notice';
  notice.setAttribute('role', 'alert');
  notice.textContent = 'The page could not load its words. Load it again. · La página no pudo cargar sus textos. Vuelva a cargarla.';
  document.body.append(notice);
}
