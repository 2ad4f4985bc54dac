// First names go when promised: planted ones are searched for in everything that a browser or a collector keeps.
import assert from 'node:assert/strict';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { setUp } from './visit.mjs';
import { say } from './words.mjs';

const PLANTED = ['Quizzlewick', 'Brambelina'];  // found nowhere else
const found = (text) => PLANTED.filter((name) => String(text).includes(name));

// Everything that the page's origin keeps, as text: databases, caches, storages, private files, history.
async function keptByPage() {
  const kept = {};
  for (const { name } of await indexedDB.databases()) {
    const database = await new Promise((resolve) => { indexedDB.open(name).onsuccess = ({ target }) => resolve(target.result); });
    for (const store of database.objectStoreNames) {
      const rows = await new Promise((resolve) => {
        database.transaction(store).objectStore(store).getAll().onsuccess = ({ target }) => resolve(target.result);
      });
      kept[`database ${name} ${store}`] = JSON.stringify(rows);
    }
    database.close();
  }
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) kept[`cache ${request.url}`] = request.url + await (await cache.match(request)).text();
  }
  kept.localStorage = JSON.stringify(localStorage);
  kept.sessionStorage = JSON.stringify(sessionStorage);
  kept.address = location.href + JSON.stringify(history.state) + document.cookie;
  const walk = async (folder, path) => {
    for await (const [name, entry] of folder.entries()) {
      if (entry.kind === 'directory') await walk(entry, `${path}${name}/`);
      else kept[`file ${path}${name}`] = await (await entry.getFile()).text();
    }
  };
  await walk(await navigator.storage.getDirectory(), '');
  return kept;
}

describe('first names', () => {
  let s;
  const requests = [], logs = [];
  const plant = async () => {
    await s.lead.tapButton('room.names');
    await s.lead.tap('checkbox', say('names.allowed'));
    for (const [i, name] of PLANTED.entries()) {
      const field = s.lead.node('textbox', say('names.place', { n: i + 1 }));
      await field.waitFor({ state: 'attached' });
      await field.fill(name);
    }
    await s.lead.tapButton('panel.back');
    for (const [i, name] of PLANTED.entries()) {
      await s.lead.seesNode('button', say('room.place.named', { n: i + 1, name, is: say('room.is.unknown') }));
    }
  };
  const where = async () => Object.entries(await s.page.evaluate(keptByPage)).filter(([, text]) => found(text).length).map(([place]) => place);

  before(async () => {
    s = await setUp({ minutes: 75 });
    s.phone.context.on('request', (request) => requests.push(`${request.url()} ${request.postData() ?? ''} ${JSON.stringify(request.headers())}`));
    s.phone.context.on('console', (message) => logs.push(message.text()));
    await s.lead.open();
    await s.lead.opened();
    await s.lead.tapButton('brief.to_lesson');
    await s.lead.go('room');
    await plant();
  });
  after(() => s.tearDown());

  it('until then they are in one private file and nowhere else, also after a reload', async () => {
    for (let tries = 0; tries < 100 && (await where()).length === 0; ++tries) await s.page.waitForTimeout(50);
    assert.deepEqual(await where(), ['file private/names.json']);
    await s.page.reload();
    await s.lead.opened();
    await s.lead.tapButton('brief.to_lesson');
    await s.lead.go('room');
    await s.lead.seesNode('button', say('room.place.named', { n: 1, name: PLANTED[0], is: say('room.is.unknown') }));
  });

  it('a received report wipes them: they are in no database, cache, request, log or file', async () => {
    await s.lead.go('lesson');
    await s.lead.start();
    await s.lead.go('report');
    await s.lead.tapButton('report.send');
    await s.lead.received();
    await s.lead.go('room');
    await s.lead.seesNode('button', say('room.place', { n: 1, is: say('room.is.unknown') }));
    assert.deepEqual(await where(), []);
    assert.ok(requests.some((request) => request.includes('/reports/')), 'the report was among the requests');
    for (const request of requests) assert.deepEqual(found(request), []);
    for (const line of logs) assert.deepEqual(found(line), []);
    for (const name of await readdir(s.collector.data, { recursive: true })) {
      const bytes = await readFile(join(s.collector.data, name)).catch(() => '');  // a folder
      assert.deepEqual(found(bytes), [], name);
    }
  });
});
