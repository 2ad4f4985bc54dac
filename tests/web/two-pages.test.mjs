// The app open twice on one phone, in real tabs: one writes, the other follows and can take over.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { Lead, setUp } from './visit.mjs';
import { say } from './words.mjs';

const place = (n, is) => say('room.place', { n, is: say(`room.is.${is}`) });

describe('two tabs', () => {
  let s, first, second;
  before(async () => {
    s = await setUp({ minutes: 75 });
    first = s.lead;
    await first.open();
    await first.opened();
    await first.tapButton('brief.to_lesson');
    await first.go('room');
    await first.tap('button', place(4, 'unknown'));
    await first.seesNode('button', place(4, 'absent'));
    second = new Lead(await s.phone.context.newPage(), s.collector, s);
    await second.open('');
  });
  after(() => s.tearDown());

  it('the second shows the same visit and says that it only looks', async () => {
    await second.sees(say('elsewhere.now'));
    await second.opened();
    await second.tapButton('brief.to_lesson');
    await second.go('room');
    await second.seesNode('button', place(4, 'absent'));
  });

  it('it follows the first', async () => {
    await first.page.bringToFront();
    await first.tap('button', place(5, 'unknown'));
    await first.seesNode('button', place(5, 'absent'));
    await second.page.bringToFront();
    await second.seesNode('button', place(5, 'absent'));
  });

  it('a tap that would record asks first; taken over, it records and the first only looks', async () => {
    await second.tap('button', place(6, 'unknown'));
    await second.seesNode('heading', say('elsewhere.title'));
    await second.tapButton('elsewhere.here');
    await second.gone('heading', say('elsewhere.title'));
    await second.tap('button', place(6, 'unknown'));
    await second.seesNode('button', place(6, 'absent'));
    await first.page.bringToFront();
    await first.sees(say('elsewhere.now'));
    await first.seesNode('button', place(6, 'absent'));
  });

  it('closed, it leaves the visit to the first by itself, in both copies of the store', async () => {
    await second.page.close();
    await first.page.waitForFunction((words) => !document.getElementById('mirror').textContent.includes(words), say('elsewhere.now'));
    await first.tap('button', place(7, 'unknown'));
    await first.seesNode('button', place(7, 'absent'));
    const copies = await first.page.evaluate(async (stream) => {
      const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('streams');
      const file = await (await (await folder.getFileHandle(`${stream}.log`)).getFile()).text();
      const database = await new Promise((resolve) => { indexedDB.open('trowelbell').onsuccess = ({ target }) => resolve(target.result); });
      const rows = await new Promise((resolve) => {
        database.transaction('records').objectStore('records').getAll().onsuccess = ({ target }) => resolve(target.result);
      });
      database.close();
      return { file, database: JSON.stringify(rows.filter((row) => row.stream === stream)) };
    }, `visit-${s.brief.visit}`);
    for (const text of Object.values(copies)) {
      for (const n of [4, 5, 6, 7]) assert.match(text, new RegExp(`\\\\?"place\\\\?":${n}\\b`));
    }
    await first.page.reload();
    await first.opened();
    await first.tapButton('brief.to_lesson');
    await first.go('room');
    for (const n of [4, 5, 6, 7]) await first.seesNode('button', place(n, 'absent'));
    assert.deepEqual(s.phone.errors, []);
  });
});
