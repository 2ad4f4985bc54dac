// What must not wait: a tap on its way to the store, and what the first frame needs.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { setUp } from './visit.mjs';
import { lesson } from './words.mjs';

const [{ text: { en: first } }] = lesson.ready;

// In the page: counts the pages of letters that are made.
function countLetterPages() {
  globalThis.letterPages = 0;
  const { texImage2D } = WebGL2RenderingContext.prototype;
  WebGL2RenderingContext.prototype.texImage2D = function make(...how) {
    ++letterPages;
    return texImage2D.apply(this, how);
  };
}

describe('at once', () => {
  let s;
  const asked = [];
  before(async () => {
    s = await setUp({ minutes: 75 });
    await s.page.addInitScript(countLetterPages);
    s.page.on('request', (request) => asked.push(new URL(request.url()).pathname));
  });
  after(() => s.tearDown());

  it('what does not come is told, and opening again helps', async () => {
    await s.page.route('**/pack.bin', (route) => route.abort());
    await s.lead.open();
    await s.page.getByRole('heading', { name: 'Trowelbell' }).filter({ visible: true }).waitFor();
    await s.page.unroute('**/pack.bin');
    await s.page.getByRole('button', { name: 'Open again' }).click();
    await s.lead.opened();
  });

  it('content and faces come in one file', async () => {
    asked.length = 0;
    await s.page.reload();
    await s.lead.opened();
    assert.deepEqual(asked.filter((path) => /^\/(content|fonts|pack)/.test(path)), ['/pack.bin']);
  });

  it('a tap is in the store before anything is drawn', async () => {
    const { x, y } = await s.lead.place('checkbox', first);
    await s.lead.settled();
    await s.page.evaluate(() => {
      globalThis.drawLater = globalThis.requestAnimationFrame;
      globalThis.requestAnimationFrame = () => 0;
    });
    await s.page.touchscreen.tap(x, y);
    const kept = await s.page.evaluate(async (stream) => {
      const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('streams');
      const file = await folder.getFileHandle(`${stream}.log`);
      for (let tries = 0; tries < 50; ++tries) {
        if ((await (await file.getFile()).text()).includes('"kind":"tick"')) return true;
        await new Promise((resolve) => { setTimeout(resolve, 50); });
      }
      return false;
    }, `visit-${s.brief.visit}`);
    assert.ok(kept);
    assert.equal(await s.lead.node('checkbox', first).isChecked(), false, 'nothing was drawn meanwhile');
    await s.page.evaluate(() => {
      globalThis.requestAnimationFrame = globalThis.drawLater;
      dispatchEvent(new Event('resize'));
    });
    assert.deepEqual(s.phone.errors.filter((text) => !/ERR_FAILED|Failed to fetch/.test(text)), []);
  });

  it('no frame of a visit waits for a new page of letters', async () => {
    await s.page.reload();
    await s.lead.opened();
    await s.page.waitForFunction(() => letterPages >= 2);  // the second has room for the rest
    const before = await s.page.evaluate(() => letterPages);
    await s.lead.tapButton('brief.to_lesson');
    await s.lead.start();
    for (const tab of ['room', 'care', 'handover', 'report', 'lesson']) await s.lead.go(tab);
    for (const step of lesson.steps.slice(0, 5)) {
      assert.equal(await s.lead.title(), step.title.en);
      await s.lead.doStep();
    }
    assert.equal(await s.page.evaluate(() => letterPages), before);
  });
});
