// The coordinator's page in a real browser: the key, the list, one report, and what it says when something is wrong.
import assert from 'node:assert/strict';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { openPhone, startCollector } from './browser.mjs';
import { cards, say } from './words.mjs';

const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const DEVICE = '00112233445566ff';
const keyOf = (visit) => `key-of-the-visit-${visit}`;
const dayFromNow = (days) => {
  const day = new Date();
  day.setDate(day.getDate() + days);
  return [day.getFullYear(), day.getMonth() + 1, day.getDate()].map((n) => String(n).padStart(2, '0')).join('-');
};

const brief = (visit, days, room) => ({
  format: 'trowelbell.brief', version: 1, visit, key: keyOf(visit), lesson: 'window-garden', school: 'Fern Hollow School', room,
  sponsor: 'Quiet Kettle Tea Company', sheet_language: 'en', date: dayFromNow(days), start: '09:00', bell: '09:45',
  utc_offset_minutes: 0, children: 20, adults: 4, tables: 4, kits: 24, warmth: { day: 21, night: 18, closed: 17 },
  closed: [], half_days: [], school_asks: [],
});

const report = (visit) => ({
  format: 'trowelbell.report', version: 1, visit, device: DEVICE, revision: 1, lesson: 'window-garden',
  school: 'Fern Hollow School', room: 'K1', sponsor: 'Quiet Kettle Tea Company', date: dayFromNow(-3),
  began_at: Date.now() - 2_600_000, ended_at: Date.now(), bell_at: Date.now(),
  steps: [{ id: 'hello', planned_seconds: 60, actual_seconds: 70, outcome: 'done' }],
  children: { places: 20, present: 15, late: 2, absent: 2, left_early: 1, unknown: 0 }, adults: 4, adult_minutes: 180,
  kits: { brought: 24, given: 18, spoiled: 1, with_teacher: 2, spare: 3, unaccounted: 0 }, mishaps: { spill: 2 },
  holds: [], pages: [30], handover: { sheet: true, bags: false }, ready: {}, taken_by: 'teacher',
  note: 'Warm sill <img src=x onerror=alert(1)>', events: 40,
});

describe('the coordinator\'s page', () => {
  let folder, collector, browser, page;

  before(async () => {
    folder = await mkdtemp(join(tmpdir(), 'trowelbell-briefs-'));
    for (const made of [brief('fern-in', -3, 'K1'), brief('fern-missing', -2, 'K2'), brief('fern-waiting', 5, 'K3')]) {
      await writeFile(join(folder, `${made.visit}.brief.json`), JSON.stringify(made));
    }
    collector = await startCollector({ briefs: [folder] });
    const sent = await fetch(`${collector.url}/v1/visits/fern-in/reports/${DEVICE}/1`, {
      method: 'PUT', headers: { Authorization: `Bearer ${keyOf('fern-in')}`, 'Content-Type': 'application/json' },
      body: JSON.stringify(report('fern-in')),
    });
    assert.equal(sent.status, 201);
    browser = await openPhone({ viewport: { width: 1280, height: 900 }, isMobile: false, hasTouch: false, deviceScaleFactor: 1, locale: 'en-US' });
    page = browser.page;
    await page.route((url) => url.origin !== collector.url, (route) => assert.fail(`asked ${route.request().url()}`));
  });

  after(async () => {
    await browser?.close();
    await collector?.stop();
    await rm(folder, { recursive: true, force: true });
  });

  const rowOf = (room) => page.getByRole('row').filter({ hasText: room });

  async function accessible() {
    await page.evaluate(axe);
    const { violations } = await page.evaluate(() => globalThis.axe.run());
    assert.deepEqual(violations.map(({ id, nodes }) => [id, nodes[0].html]), []);
  }

  it('asks for the key, and says when it is wrong', async () => {
    await page.goto(`${collector.url}/coordinator`);
    const key = page.getByLabel(say('coordinator.key.label'));
    await key.fill('a-wrong-key-of-nobody');
    await page.getByRole('button', { name: say('coordinator.key.open') }).click();
    await page.getByRole('alert').filter({ hasText: say('coordinator.error.key') }).waitFor();
    await accessible();
    browser.errors.length = 0;  // the browser itself notes the 401
  });

  it('takes the key from the link and out of the address', async () => {
    await page.goto(collector.coordinatorUrl);
    await page.reload();  // the link differs from the page only in its fragment
    await rowOf('K1').waitFor();
    assert.equal(page.url(), `${collector.url}/coordinator`);
    assert.ok(!(await page.content()).includes(collector.coordinatorKey));
  });

  it('shows what is in, what is missing and what is awaited, with the totals', async () => {
    assert.match(await rowOf('K1').first().innerText(), new RegExp(say('coordinator.state.in')));
    assert.match(await rowOf('K2').innerText(), new RegExp(say('coordinator.state.missing')));
    assert.match(await rowOf('K3').innerText(), new RegExp(say('coordinator.state.waiting')));
    const totals = await page.locator('#totals > div').allInnerTexts();
    const shown = Object.fromEntries(totals.map((text) => text.split('\n').filter(Boolean)).map((parts) => [parts.find((p) => /\D/.test(p)), parts.find((p) => /^\d+$/.test(p))]));
    assert.equal(shown[say('coordinator.totals.visits')], '3');
    assert.equal(shown[say('coordinator.totals.reported')], '1');
    assert.equal(shown[say('coordinator.totals.came')], '18');
    assert.equal(shown[say('coordinator.totals.adult_hours')], '3');
    await accessible();
  });

  it('opens the report; what the team wrote stays text', async () => {
    await rowOf('K1').first().getByRole('button').click();
    const details = page.locator('tr.details');
    await details.getByText('Warm sill <img src=x onerror=alert(1)>').waitFor();
    assert.equal(await details.locator('img').count(), 0);
    const spill = cards.find(({ id }) => id === 'spill');
    await details.getByText(`${(spill.mishap ?? spill.title).en}: 2`).waitFor();
    const download = page.waitForEvent('download');
    await details.getByRole('button', { name: say('coordinator.report.save') }).click();
    const saved = await download;
    assert.equal(saved.suggestedFilename(), 'fern-in.report.json');
    assert.equal(JSON.parse(await readFile(await saved.path(), 'utf8')).visit, 'fern-in');
    await accessible();
  });

  it('shows only what is not in yet', async () => {
    await page.getByRole('combobox', { name: say('coordinator.show'), exact: true }).selectOption('waiting');
    await rowOf('K1').waitFor({ state: 'detached' });
    assert.equal(await rowOf('Fern Hollow').count(), 2);
    await page.getByRole('combobox', { name: say('coordinator.show'), exact: true }).selectOption('all');
    await rowOf('K1').waitFor();
  });

  it('speaks Spanish, on a narrow screen and in the dark too', async () => {
    await page.getByRole('combobox', { name: say('coordinator.language'), exact: true }).selectOption('es');
    await page.getByRole('heading', { name: say('coordinator.title', {}, 'es') }).waitFor();
    await page.setViewportSize({ width: 320, height: 800 });
    await page.emulateMedia({ colorScheme: 'dark' });
    // WCAG 2.2, 1.4.10: 320 px wide without scrolling sideways.
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
    await accessible();
  });

  it('says what to do when the collector does not answer, and works again afterwards', async () => {
    assert.deepEqual(browser.errors, []);
    await page.context().setOffline(true);
    await page.getByRole('button', { name: say('coordinator.refresh', {}, 'es') }).click();
    await page.getByRole('alert').filter({ hasText: say('coordinator.error.unreachable', {}, 'es') }).waitFor();
    await page.context().setOffline(false);
    await page.getByRole('button', { name: say('coordinator.refresh', {}, 'es') }).click();
    await page.getByRole('alert').waitFor({ state: 'hidden' });
    await rowOf('K2').waitFor();
  });
});
