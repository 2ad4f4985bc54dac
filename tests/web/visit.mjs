// A visit in a test's hands: its brief, made by the command line; the taps of its lead, by role and name; what the
// screen says. A tap is a touch at the place that the node names, so it takes the way a finger's does: through the
// canvas.
import { setTimeout as sleep } from 'node:timers/promises';
import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { openPhone, root, startCollector } from './browser.mjs';
import { county, lesson, pattern, say, story } from './words.mjs';

const run = promisify(execFile);
const PATIENCE = 30000;
const MINUTE = 60 * 1000;

/** Runs build/native/trowelbell and gives what it wrote. */
export async function trowelbell(...words) {
  return (await run(join(root, 'build/native/trowelbell'), words, { maxBuffer: 1 << 24 })).stdout;
}

const clock = (minutes) => [minutes / 60, minutes % 60].map((n) => String(Math.floor(n)).padStart(2, '0')).join(':');

/** The brief of a visit that should have begun `minutesAgo` minutes ago, {brief, fragment, file, folder, remove()}. Its
 *  school is where it is half past nine now, so that no test comes near midnight. `visit` and `school`: what is
 *  different from the first of the demo county's; `today(n)` gives dates for it. */
export async function makeBrief({ minutesAgo = 0, minutes = 60, visit = {}, school = () => ({}) } = {}) {
  const now = Date.now();
  const ofDay = Math.floor(now / MINUTE) % 1440;
  let offset = 9 * 60 + 30 - ofDay;
  if (offset < -720) offset += 1440;
  const today = (n = 0) => new Date(now + offset * MINUTE + n * 1440 * MINUTE).toISOString().slice(0, 10);
  const start = 9 * 60 + 30 - minutesAgo;
  const [demoVisit] = county.visits;
  const demoSchool = county.schools.find(({ id }) => id === demoVisit.school);
  const folder = await mkdtemp(join(tmpdir(), 'trowelbell-brief-'));
  await writeFile(join(folder, 'county.json'), JSON.stringify({
    ...county,
    schools: [{ ...demoSchool, closed: [], half_days: [], utc_offset_minutes: offset, ...school(today) }],
    visits: [{ ...demoVisit, date: today(), start: clock(start), bell: clock(start + minutes), ...visit }],
  }));
  const said = await trowelbell('brief', join(folder, 'county.json'), '--keys', join(folder, 'keys.json'),
    '--out', join(folder, 'briefs'), '--link', 'http://127.0.0.1/');
  const file = join(folder, 'briefs', `${visit.id ?? demoVisit.id}.brief.json`);
  return {
    file, folder, today, fragment: said.match(/#b=[\w-]+/)[0], brief: JSON.parse(await readFile(file, 'utf8')),
    remove: () => rm(folder, { recursive: true, force: true }),
  };
}

/** The fragment of any text or document as a link carries it. */
export function fragmentOf(document) {
  const text = typeof document === 'string' ? document : JSON.stringify(document);
  return `#b=${Buffer.from(text).toString('base64url')}`;
}

/** A brief, a collector that knows it, and a phone: what most tests begin with. */
export async function setUp({ phone: phoneOptions, data, ...briefOptions } = {}) {
  const made = await makeBrief(briefOptions);
  const collector = await startCollector({ data, briefs: [made.file] });
  // One device pixel a CSS pixel: software draws it four times as fast as a phone's density.
  const phone = await openPhone({ deviceScaleFactor: 1, ...phoneOptions });
  const lead = new Lead(phone.page, collector, made);
  return {
    ...made, collector, phone, lead, page: phone.page,
    async tearDown() {
      await phone.close();
      await collector.stop();
      await made.remove();
    },
  };
}

// In the page: brings the node into view as a reader's focus does, and answers where it stands once it stands still.
async function settle(element) {
  element.focus();
  const where = () => {
    const { x, y, width, height } = element.getBoundingClientRect();
    return { x: x + width / 2, y: y + height / 2 };
  };
  for (let at = where(), still = 0; still < 3;) {
    await new Promise(requestAnimationFrame);
    if (!element.isConnected) return null;
    const now = where();
    still = now.x === at.x && now.y === at.y ? still + 1 : 0;
    at = now;
  }
  const { x, y } = where();
  return x > 0 && y > 0 && x < innerWidth && y < innerHeight ? { x, y } : null;
}

// In the page, before anything runs: a wall clock and a clock of the page's own that a test can put forward.
function adjustableClock(ahead) {
  globalThis.ahead = ahead;
  const now = Date.now.bind(Date);
  const running = performance.now.bind(performance);
  Date.now = () => now() + globalThis.ahead;
  performance.now = () => running() + globalThis.ahead;
}

/** Who holds the phone. */
export class Lead {
  constructor(page, collector, made) {
    this.page = page;
    this.collector = collector;
    this.made = made;
    page.setDefaultTimeout(PATIENCE);
  }

  get mirror() { return this.page.locator('#mirror'); }

  node(role, name) { return this.mirror.getByRole(role, name === undefined ? {} : { name, exact: true }); }

  text(text) { return this.mirror.getByText(text, { exact: true }); }

  /** Waits until the screen says so: a text, or a pattern of one. */
  async sees(text) { await this.waitFor(this.text(text), 'attached'); }

  async seesNode(role, name) { await this.waitFor(this.node(role, name), 'attached'); }

  async gone(role, name) { await this.waitFor(this.node(role, name), 'detached'); }

  // What is there instead tells more than that the wait was in vain.
  async waitFor(locator, state) {
    await locator.first().waitFor({ state }).catch(async (error) => {
      const screen = await this.page.locator('body').innerText().catch(() => 'nothing');
      throw new Error(`${error.message}\nOn the screen:\n${screen.replace(/\n+/g, '\n').slice(0, 1500)}`);
    });
  }

  /** Opens the visit's link, or another. */
  async open(fragment = this.made.fragment) {
    await this.page.goto(`${this.collector.url}/${fragment}`);
  }

  /** From the next opening on the phone's clock goes `minutes` wrong, and can be put forward. A reload sets it so again. */
  async holdClock(minutes = 0) { await this.page.addInitScript(adjustableClock, minutes * MINUTE); }

  /** The page looks at its clock again: the timer that it has set knows nothing of a clock put forward. */
  async putForward(minutes) {
    await this.page.evaluate((ms) => {
      globalThis.ahead += ms;
      dispatchEvent(new Event('resize'));
    }, minutes * MINUTE);
  }

  async opened() { await this.seesNode('button', say('brief.to_lesson')); }

  /** Where to touch the node of this role and name. */
  async place(role, name) {
    for (const until = Date.now() + PATIENCE; Date.now() < until;) {
      const at = await this.node(role, name).evaluate(settle).catch((error) => {
        if (/timeout|strict mode/i.test(error.message)) throw error;
        return null;
      });
      if (at) return at;
    }
    throw new Error(`${role} "${name}" does not come into view`);
  }

  async tap(role, name) {
    const { x, y } = await this.place(role, name);
    await this.page.touchscreen.tap(x, y);
  }

  /** Waits until a tap that leads on is not on the heels of the last one: the app takes that for a slip. */
  async unhurried() { await sleep(Math.max(0, 450 - (Date.now() - (this.ledOnAt ?? 0)))); }

  /** A tap on the button that leads on. */
  async leadOn(label) {
    await this.unhurried();
    await this.tap('button', label);
    this.ledOnAt = Date.now();
  }

  async tapButton(key, filled) { await this.tap('button', say(key, filled)); }

  async go(tab) {
    const name = say(`tab.${tab}`);
    await this.tap('tab', name);
    await this.mirror.getByRole('tab', { name, exact: true, selected: true }).waitFor({ state: 'attached' });
  }

  /** Ticks a box and waits for the tick. */
  async tick(name) {
    await this.tap('checkbox', name);
    await this.mirror.getByRole('checkbox', { name, exact: true, checked: true }).waitFor({ state: 'attached' });
  }

  /** Waits until the screen has drawn what was touched, stored and drawn again: four frames without a change. */
  async settled() {
    await this.page.evaluate(async () => {
      const mirror = document.getElementById('mirror');
      let still = 0;
      const watch = new MutationObserver((changes) => {
        if (changes.some(({ target }) => !target.parentElement?.closest('[role=timer]'))) still = 0;
      });
      watch.observe(mirror, { subtree: true, childList: true, characterData: true });
      for (; still < 4; ++still) await new Promise(requestAnimationFrame);
      watch.disconnect();
    });
  }

  /** The title of the step, or of the phase, on Lesson. */
  async title() { return this.node('heading').first().textContent(); }

  /** The step on Lesson; nothing once the lesson is over. Waits while another screen or panel is still there. */
  async step() {
    const titles = [...lesson.steps.map((step) => step.title.en), say('lesson.done')];
    const found = await this.page.waitForFunction((all) => {
      const at = all.indexOf(document.querySelector('#mirror :is(h1, h2)')?.textContent);
      return at < 0 ? false : { at };
    }, titles);
    return lesson.steps[(await found.jsonValue()).at];
  }

  /** The story page on screen, from 1: as the forward button describes it. */
  async storyPage() {
    const said = await this.node('button', say('story.turn')).getAttribute('aria-description');
    return Number(said.match(pattern('story.page')).groups.n);
  }

  async start() {
    await this.leadOn(say('lesson.start'));
    await this.gone('button', say('lesson.start'));
  }

  async turnPage() {
    const page = await this.storyPage();
    const { length } = story.pages;
    await this.leadOn(say('story.turn'));
    if (page + 1 < length) {
      await this.page.waitForFunction(([name, words]) => [...document.querySelectorAll('#mirror button')].some((button) =>
        button.textContent === name && button.getAttribute('aria-description') === words),
      [say('story.turn'), say('story.page', { n: page + 1, all: length })]);
    } else {
      await this.gone('button', say('story.turn'));
    }
  }

  /** Does the step on screen, with all its pages and its safety line, and goes on. Gives the step. */
  async doStep() {
    const step = await this.step();
    if (step.reading) {
      while (await this.node('button', say('story.turn')).count()) await this.turnPage();
    }
    if (step.safety && await this.node('button', say('lesson.safe')).count()) {
      await this.leadOn(say('lesson.safe'));
      await this.gone('button', say('lesson.safe'));
    }
    const last = step === lesson.steps.at(-1);
    const label = last ? say('lesson.finish') : await this.mirror.getByRole('button', { name: pattern('lesson.next') }).textContent();
    await this.leadOn(label);
    await this.gone('heading', step.title.en);
    return step;
  }

  /** Plays from the step on screen on, until `until` (a step's id) is there or the lesson is over. Gives the ids. */
  async play(until) {
    const done = [];
    for (let step; (step = await this.step()) && step.id !== until;) done.push((await this.doStep()).id);
    return done;
  }

  async places(is, numbers) {
    await this.tap('button', say(`room.is.${is}`));
    for (const n of numbers) {
      const name = new RegExp(`^${say('room.place', { n, is: '' })}`);
      await this.tap('button', await this.mirror.getByRole('button', { name }).textContent());
      await this.seesNode('button', say('room.place', { n, is: say(`room.is.${is}`) }));
    }
  }

  /** "+" of a pile of kits; `to` is what it then holds. */
  async moreKits(pile, to) {
    await this.tapButton('kits.more', { pile: say(`kits.${pile}`) });
    await this.sees(`${say(`kits.${pile}`)}: ${to}`);
  }

  async received(tag) { await this.sees(pattern('send.received', tag)); }

  /** A file that the page hands over when a button is tapped, saved beside the brief. */
  async saved(key) {
    const [download] = await Promise.all([this.page.waitForEvent('download'), this.tapButton(key)]);
    const path = join(this.made.folder, download.suggestedFilename());
    await download.saveAs(path);
    return path;
  }

  async stored(path = `/v1/visits/${this.made.brief.visit}/reports/latest`) {
    return fetch(this.collector.url + path, { headers: { Authorization: `Bearer ${this.collector.coordinatorKey}` } });
  }

  /** How many reports of the visit the collector has. */
  async reportCount() {
    const { visits } = await (await this.stored('/v1/visits')).json();
    return visits.find(({ visit }) => visit === this.made.brief.visit).reports;
  }
}
