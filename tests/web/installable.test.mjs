// The page on a home screen, as Chromium's own judgement of it and the icons' own sizes have it; when storage is asked for.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { root } from './browser.mjs';
import { setUp } from './visit.mjs';
import { say } from './words.mjs';

// Width and height stand in a PNG's first chunk (ISO/IEC 15948, 11.2.2).
async function sizeOf(path) {
  const bytes = await readFile(join(root, 'build/web', path));
  return `${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`;
}

describe('on a home screen', () => {
  let s, devtools;
  before(async () => {
    s = await setUp();
    devtools = await s.phone.context.newCDPSession(s.page);
    await s.page.addInitScript(() => {
      globalThis.asked = 0;
      navigator.storage.persist = async () => { ++asked; return true; };
    });
  });
  after(() => s.tearDown());

  it('storage is asked for once a visit is kept, and only once', async () => {
    await s.lead.open('');
    await s.lead.sees(say('opening.empty.words'));
    assert.equal(await s.page.evaluate(() => asked), 0);
    await s.page.goto('about:blank');
    await s.lead.open();
    await s.lead.opened();
    await s.page.waitForFunction(() => asked > 0);
    await s.lead.tapButton('brief.to_lesson');
    await s.lead.start();
    await s.lead.doStep();
    assert.equal(await s.page.evaluate(() => asked), 1);
  });

  it('can be installed', async () => {
    const { errors, data } = await devtools.send('Page.getAppManifest');
    assert.deepEqual(errors, []);
    const { installabilityErrors } = await devtools.send('Page.getInstallabilityErrors');
    // A context of a test's own counts as a private window.
    assert.deepEqual(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito'), []);
    const manifest = JSON.parse(data);
    assert.deepEqual([manifest.start_url, manifest.scope, manifest.display], ['./', './', 'standalone']);
    for (const { src, sizes, type } of manifest.icons) if (type === 'image/png') assert.equal(await sizeOf(src), sizes);
  });

  it('its shortcuts open their screens', async () => {
    const { shortcuts } = JSON.parse((await devtools.send('Page.getAppManifest')).data);
    assert.equal(shortcuts.length, 2);
    for (const [i, key] of ['care.title', 'report.title'].entries()) {
      await s.page.goto('about:blank');
      await s.page.goto(new URL(shortcuts[i].url, `${s.collector.url}/`).href);
      await s.lead.seesNode('heading', say(key));
    }
  });

  it('has the icon that iOS looks for, of the size it wants', async () => {
    const path = await s.page.locator('link[rel=apple-touch-icon]').getAttribute('href');
    assert.equal(await sizeOf(path), '180x180');  // common practice
  });
});
