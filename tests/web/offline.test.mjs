// The service worker (wasm/sw.js) and its place in the page's life (wasm/offline.js), on a page of two small files.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { after, before, describe, it } from 'node:test';
import { openPhone, root } from './browser.mjs';
import { serveGlue } from './glue-server.mjs';

const types = { html: 'text/html', js: 'text/javascript' };
let glue, phone, page, address;
let site = {};     // path -> text, as served
let listed = {};   // path -> text, as the worker's list has it
let origins = 0;

const sha256 = (text) => createHash('sha256').update(text).digest('hex').slice(0, 16);

// A version of the page: its files, and the list that wasm/stage.mjs would make of them.
function publish(version, { torn = false } = {}) {
  listed = {
    'index.html': '<!doctype html><title>page</title><script type="module" src="/start.js"></script>',
    'start.js': `import { keepForOffline, startNewestVersion } from '/offline.js';
      await startNewestVersion();
      document.title = '${version}';
      keepForOffline();`,
  };
  site = torn ? { ...listed, 'start.js': 'document.title = "of another version";' } : listed;
}

async function answer(request, response) {
  const path = new URL(request.url, 'http://x').pathname.slice(1) || 'index.html';
  if (path === 'sw.js') {
    const files = Object.entries(listed).map(([name, text]) => ({ path: name, sha256: sha256(text) }));
    files.push({ path: 'offline.js', sha256: sha256(await readFile(`${root}/wasm/offline.js`)) });
    const text = await readFile(`${root}/wasm/sw.js`, 'utf8');
    response.writeHead(200, { 'Content-Type': types.js });
    response.end(text.replace('__PRECACHE__', JSON.stringify({ revision: sha256(JSON.stringify(files)), files })));
    return true;
  }
  if (path in site) {
    response.writeHead(200, { 'Content-Type': types[path.split('.')[1]] });
    response.end(site[path]);
    return true;
  }
  return false;
}

const untilTitle = (title) => page.waitForFunction((t) => document.title === t, title);
const state = () => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  return { waiting: !!registration.waiting, caches: (await caches.keys()).length };
});
const settled = () => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  await registration.update().catch(() => {});
  const worker = registration.installing;
  if (worker) await new Promise((resolve) => { worker.onstatechange = () => { if (worker.state !== 'installing') resolve(); }; });
});

before(async () => {
  glue = await serveGlue(answer);
  phone = await openPhone();
});
after(async () => {
  await phone.close();
  glue.close();
});

describe('without a network', () => {
  const test = (name, run) => it(name, async () => {
    publish('one');
    address = glue.url(`offline-${++origins}`);
    page = await phone.context.newPage();
    await page.goto(address);
    await untilTitle('one');
    await page.waitForFunction(() => navigator.serviceWorker.controller);
    try {
      await run();
    } finally {
      await phone.context.setOffline(false);
      await page.close();
    }
  });

  test('the page opens right after its first opening, by any query and fragment', async () => {
    await phone.context.setOffline(true);
    await page.reload();
    await untilTitle('one');
    await page.goto(`${address}?from=icon#b=x`);
    await untilTitle('one');
    assert.ok((await page.goto(address)).fromServiceWorker());
  });

  test('other addresses are of the network: they fail, and are not the page', async () => {
    assert.equal((await page.goto(`${address}coordinator`)).fromServiceWorker(), false);
    await phone.context.setOffline(true);
    await assert.rejects(page.goto(`${address}coordinator`), /ERR_INTERNET_DISCONNECTED/);
    await assert.rejects(page.goto(`${address}v1/health`), /ERR_INTERNET_DISCONNECTED/);
  });

  test('a new version waits while the page is open and begins whole with the next opening', async () => {
    publish('two');
    await settled();
    assert.deepEqual(await state(), { waiting: true, caches: 2 });
    assert.equal(await page.title(), 'one');
    await page.reload();
    await untilTitle('two');
    await page.waitForFunction(async () => (await caches.keys()).length === 1);
    await phone.context.setOffline(true);
    await page.reload();
    await untilTitle('two');
  });

  test('a version whose files do not belong together is not taken', async () => {
    publish('three', { torn: true });
    await settled();
    assert.deepEqual(await state(), { waiting: false, caches: 1 });
    await page.reload();
    await untilTitle('one');
  });
});
