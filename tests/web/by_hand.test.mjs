// A report whose phone never finds a network: QR codes photographed off its screen, the text of the codes, a saved file;
// each taken in on the coordinator's page, and each the very bytes that the phone would have sent.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after, before, describe, it } from 'node:test';
import axe from 'axe-core';
import { openPhone, startCollector } from './browser.mjs';
import { press } from './tour.mjs';
import { setUp } from './visit.mjs';
import { say } from './words.mjs';

const intake = (key, filled, tag) => say(`coordinator.intake.${key}`, filled, tag);

/** The coordinator's page of a collector, with the texts of parts that went over it. */
async function openOffice(collector) {
  const browser = await openPhone({
    viewport: { width: 1280, height: 900 }, isMobile: false, hasTouch: false, deviceScaleFactor: 1, locale: 'en-US',
  });
  const { page } = browser;
  page.setDefaultTimeout(20000);
  const texts = new Set();
  page.on('request', (request) => {
    assert.equal(new URL(request.url()).origin === collector.url || !request.url().startsWith('http'), true, request.url());
    if (request.url().endsWith('/v1/parts')) request.postData().split('\n').forEach((text) => texts.add(text));
  });
  await page.goto(collector.coordinatorUrl);
  await page.locator('#list').waitFor();
  if (!await page.locator('#intake').evaluate(({ open }) => open)) await page.locator('#intake summary').click();
  return {
    browser, page, texts,
    pick: (files) => page.getByLabel(intake('files')).setInputFiles(files),
    async paste(text) {
      await page.getByLabel(intake('text')).fill(text);
      await page.getByRole('button', { name: intake('take') }).click();
    },
    /** As dropping does: the event of a drop with a file in it. */
    async drop(name, type, bytes) {
      const data = await page.evaluateHandle(([file, kind, content]) => {
        const transfer = new DataTransfer();
        transfer.items.add(new File([content], file, { type: kind }));
        return transfer;
      }, [name, type, bytes]);
      await page.dispatchEvent('body', 'drop', { dataTransfer: data });
    },
    hears: (words) => page.locator('#intake-log').getByText(words, { exact: true }).waitFor(),
    close: () => browser.close(),
  };
}

describe('a report without any network', () => {
  let s, office, name, saved;
  const shots = { light: [], dark: [] };

  before(async () => {
    s = await setUp({ phone: { viewport: { width: 320, height: 568 }, deviceScaleFactor: 2, reducedMotion: 'reduce' } });
    name = [s.brief.room, s.brief.school, s.brief.date].join(', ');
    await s.lead.open();
    await s.lead.opened();
    await s.phone.context.setOffline(true);
    await press(s.page, 'brief.go', 'lesson.start');
    await press(s.page, 'lesson.start', 'lesson.plan');
    await press(s.page, 'tab.room', 'room.title');
    await press(s.page, 'room.place.3');
    await press(s.page, 'tab.report', 'report.title');
    office = await openOffice(s.collector);
  });
  after(async () => {
    await office?.close();
    await s.tearDown();
  });

  it('is shown as codes, one after the other, light and dark', async () => {
    await press(s.page, 'report.codes', 'codes.code');
    const title = () => s.page.locator('#mirror [data-node="panel.title"]').textContent();
    const all = Number((await title()).match(/\d+$/)[0]);
    assert.ok(all >= 2, await title());
    for (let n = 1; n <= all; ++n) {
      assert.equal(await title(), say('codes.part', { n, all }));
      for (const colorScheme of ['light', 'dark']) {
        await s.page.emulateMedia({ colorScheme });
        await s.lead.settled();
        shots[colorScheme].push({ name: `${n}-${colorScheme}.png`, mimeType: 'image/png', buffer: await s.page.screenshot() });
      }
      await press(s.page, 'codes.next');
      await s.page.waitForFunction(([id, before]) => document.querySelector(id).textContent !== before,
        ['#mirror [data-node="panel.title"]', say('codes.part', { n, all })]);
    }
    await press(s.page, 'panel.back', 'report.save');
  });

  it('is saved as a file, the same report', async () => {
    const [download] = await Promise.all([s.page.waitForEvent('download'), press(s.page, 'report.save')]);
    saved = await readFile(await download.path(), 'utf8');
    assert.equal(JSON.parse(saved).visit, s.brief.visit);
  });

  it('comes in from pictures, in any order, and what is missing is told', async () => {
    const [first, ...others] = shots.dark;
    await office.pick([...others.reverse(), others[0]]);
    const missing = office.page.locator('#intake-log').getByText(new RegExp(`${shots.dark.length} parts.*still missing 1\\.$`));
    await missing.waitFor();
    assert.equal(await missing.count(), 1);
    assert.equal(await s.lead.reportCount(), 0);
    await office.pick([{ name: 'blank.png', mimeType: 'image/png', buffer: await office.page.screenshot() }]);
    await office.hears(intake('no_code', { name: 'blank.png' }));
    await office.pick([first]);
    await office.hears(intake('stored', { visit: name }));
    assert.equal(await (await s.stored()).text(), saved);
    await office.page.getByRole('row').filter({ hasText: say('coordinator.state.in') }).first().waitFor();
  });

  it('comes in once, whatever is taken in again', async () => {
    await office.pick(shots.light);
    await office.hears(intake('already', { visit: name }));
    await office.drop('report.json', 'application/json', saved);
    await office.hears(intake('already', { visit: name }));
    assert.equal(await s.lead.reportCount(), 1);
  });

  it('says what it cannot read, and forgets parts when asked', async () => {
    await office.pick([{ name: 'notes.pdf', mimeType: 'application/pdf', buffer: Buffer.from('%PDF-1.4') }]);
    await office.hears(intake('no_picture', { name: 'notes.pdf' }));
    await office.paste('Hello');
    await office.hears(intake('no_report', { name: intake('pasted') }));
    const [part] = office.texts;
    await office.paste(part.slice(0, -3));
    await office.hears(intake('unread', { n: 1 }));
    await office.pick(shots.light.slice(0, 1));
    await office.page.getByText(/still missing/).waitFor();
    await office.page.getByRole('button', { name: intake('clear') }).click();
    assert.equal(await office.page.locator('#intake-log').textContent(), '');
    assert.deepEqual(office.browser.errors, []);
  });

  it('comes in from the text of the codes, with words around it, and from a changed file not at all', async () => {
    const elsewhere = await startCollector({ briefs: [s.file] });
    const desk = await openOffice(elsewhere);
    try {
      await desk.paste(`Hello,\nhere they are:\n${[...office.texts].reverse().join('\n> ').replace(/(.{70})/g, '$1\n')}\nYours`);
      await desk.hears(intake('stored', { visit: name }));
      const { authorization } = { authorization: `Bearer ${elsewhere.coordinatorKey}` };
      const latest = await fetch(`${elsewhere.url}/v1/visits/${s.brief.visit}/reports/latest`, { headers: { authorization } });
      assert.equal(await latest.text(), saved);
      await desk.drop('report.json', 'application/json', JSON.stringify({ ...JSON.parse(saved), note: 'Changed.' }));
      await desk.hears(intake('refused', { visit: name, why: intake('refused.conflict') }));
    } finally {
      await desk.close();
      await elsewhere.stop();
    }
  });

  it('is refused with the reason where its visit is unknown', async () => {
    const elsewhere = await startCollector();
    const desk = await openOffice(elsewhere);
    try {
      await desk.pick([{ name: 'report.json', mimeType: 'application/json', buffer: Buffer.from(saved) }]);
      await desk.hears(intake('refused', { visit: name, why: intake('refused.unknown') }));
    } finally {
      await desk.close();
      await elsewhere.stop();
    }
  });

  it('axe-core finds nothing on the page, narrow, dark and in Spanish', async () => {
    const { page } = office;
    await page.getByRole('combobox', { name: say('coordinator.language'), exact: true }).selectOption('es');
    await page.setViewportSize({ width: 320, height: 800 });
    await page.emulateMedia({ colorScheme: 'dark' });
    await office.page.getByText(intake('help', {}, 'es')).waitFor();
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
    await page.evaluate(axe.source);
    const { violations } = await page.evaluate(() => globalThis.axe.run());
    assert.deepEqual(violations.map(({ id, nodes }) => [id, nodes[0].html]), []);
  });
});
