// Every screen and panel in a real browser, in English at the smallest letters and in Spanish at the largest: at four
// sizes of a screen, light and dark, everything lies within the page; and axe-core, a reader of the rules of WCAG, finds
// nothing. That no word is cut or broken, and that targets are apart, is tested natively, in every combination
// (tests/app/layout_test.cpp).
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import axe from 'axe-core';
import { setUp } from './visit.mjs';
import { tour } from './tour.mjs';
import { say } from './words.mjs';

const SIZES = [[320, 568], [390, 844], [844, 390], [1024, 1366]];
const WAYS = [{ language: 'en', locale: 'en-US', text: 0 }, { language: 'es', locale: 'es-MX', text: 3 }];

// In the page: what is not where it should be.
function misplaced() {
  const faults = [];
  const { scrollWidth, scrollHeight } = document.scrollingElement;
  if (scrollWidth > innerWidth || scrollHeight > innerHeight) faults.push(`the page is ${scrollWidth} x ${scrollHeight}`);
  const canvas = document.getElementById('canvas').getBoundingClientRect();
  if (canvas.width !== innerWidth || canvas.height !== innerHeight) faults.push(`the canvas is ${canvas.width} x ${canvas.height}`);
  for (const element of document.querySelectorAll('#mirror [data-node]:not([role=group], [role=tablist])')) {
    const { left, right, width, height } = element.getBoundingClientRect();
    const what = `${element.dataset.node} (${Math.round(left)} to ${Math.round(right)}, ${width} x ${height})`;
    if (left < -1 || right > innerWidth + 1) faults.push(`${what} lies outside`);
    if (element.matches('button, input, textarea') && (width < 48 || height < 48)) faults.push(`${what} is small`);
  }
  return faults;
}

async function violations(page) {
  if (!await page.evaluate(() => 'axe' in globalThis)) await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { violations: found, incomplete } = await axe.run(document);
    return [...found, ...incomplete.filter(({ impact }) => impact === 'critical')]
      .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
  });
}

for (const { language, locale, text } of WAYS) {
  describe(`every screen in ${language}, text size ${text}`, () => {
    let s;
    before(async () => { s = await setUp({ phone: { locale, reducedMotion: 'reduce' } }); });
    after(() => s.tearDown());

    async function lookAt(name) {
      assert.deepEqual(await violations(s.page), [], `${name}: axe-core`);
      for (const [i, [width, height]] of SIZES.entries()) {
        // Each size in each theme, in turns over the languages.
        const dark = (i + text) % 2 === 1;
        await s.page.emulateMedia({ colorScheme: dark ? 'dark' : 'light' });
        await s.page.setViewportSize({ width, height });
        await s.lead.settled();
        assert.deepEqual(await s.page.evaluate(misplaced), [], `${name} at ${width} x ${height}`);
      }
      await s.page.setViewportSize({ width: 390, height: 844 });
    }

    it('is in place', async () => {
      let seen = 0;
      for await (const name of tour(s, { language, text })) {
        await lookAt(name);
        ++seen;
      }
      assert.ok(seen > 20);
      assert.deepEqual(s.phone.errors, []);
    });

    it('so is the coordinator’s page', async () => {
      const office = await s.phone.context.newPage();
      await office.goto(s.collector.coordinatorUrl);
      await office.getByText(s.brief.school).first().waitFor();
      await office.getByRole('button', { name: say('coordinator.report.open', {}, language) }).first().click();
      await office.getByText(say('coordinator.report.save', {}, language)).first().waitFor();
      assert.deepEqual(await violations(office), []);
      await office.close();
    });
  });
}

describe('when the app cannot start', () => {
  let s;
  before(async () => {
    s = await setUp();
    await s.page.route('**/trowelbell.wasm', (route) => route.abort());
    await s.lead.open();
    await s.page.locator('#trouble').waitFor();
  });
  after(() => s.tearDown());

  it('axe-core finds nothing', async () => assert.deepEqual(await violations(s.page), []));
});

describe('on screens of every density', () => {
  for (const deviceScaleFactor of [1, 2.625, 3, 4]) {
    it(`${deviceScaleFactor}: one pixel of the canvas a pixel of the screen`, async () => {
      const s = await setUp({ phone: { deviceScaleFactor, viewport: { width: 320, height: 568 } } });
      try {
        await s.lead.open();
        await s.lead.opened();
        const found = await s.page.evaluate(() => {
          const { width, height } = document.getElementById('canvas');
          return { width, height, density: devicePixelRatio };
        });
        assert.deepEqual(found, { width: Math.floor(320 * deviceScaleFactor), height: Math.floor(568 * deviceScaleFactor), density: deviceScaleFactor });
      } finally {
        await s.tearDown();
      }
    });
  }
});
