// Each copy of the phone's store missing, full, torn, wiped or blocked, in all three engines: what the other copy has
// counts, a loss is told, and the visit goes on.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { openPhone } from './browser.mjs';
import { missing, openFirefox, openWebKit } from './engines.mjs';
import { serveGlue } from './glue-server.mjs';

async function openChromium() {
  const { page, close } = await openPhone();
  return { evaluate: (script, ...values) => page.evaluate(([body, given]) => new Function(`return (${body})(...arguments)`)(...given), [String(script), values]), goto: (url) => page.goto(url), close };
}

// Workers that the page gets at an address in place of the file of that name, or instead of none.
const workers = {
  'worker.js': {
    missing: null,
    // As a full disk does it: some of the bytes, and no error.
    full: `import './worker.js?whole';
      const { write } = FileSystemSyncAccessHandle.prototype;
      FileSystemSyncAccessHandle.prototype.write = function (bytes, ...more) { return write.call(this, bytes.subarray(0, 3), ...more); };`,
  },
  'damage.js': {
    as: `onmessage = async ({ data }) => {
      const root = await navigator.storage.getDirectory();
      if (data === 'wipe') await root.removeEntry('streams', { recursive: true });
      else {
        const file = await (await root.getDirectoryHandle('streams')).getFileHandle('visit-a.log');
        const handle = await file.createSyncAccessHandle();
        const size = await handle.getSize();
        if (data === 'tear') await handle.truncate(size - 5);
        else handle.write(new Uint8Array(40).fill(0xA5), { at: size >> 1 });
        await handle.flush();
        await handle.close();
      }
      postMessage('done');
    };`,
  },
};

// In the page: what is stored, after a fault was put into the database's interface, and `count` more appends.
async function openAndAppend(count, fault) {
  if (fault === 'missing') Object.defineProperty(window, 'indexedDB', { value: undefined });
  if (fault === 'full') {
    IDBObjectStore.prototype.add = IDBObjectStore.prototype.put = () => { throw new DOMException('no room', 'QuotaExceededError'); };
  }
  if (fault === 'blocked') {  // as by a page that holds it while another one deletes it
    await new Promise((resolve) => { indexedDB.open('trowelbell', 1).onsuccess = ({ target }) => { globalThis.held = target.result; resolve(); }; });
    indexedDB.deleteDatabase('trowelbell');
  }
  const { Store } = await import(`${location.origin}/store.js`);
  const store = new Store();
  const { records, file, copy, lost, wiped } = await store.open('visit-a');
  const answers = [];
  for (let i = 0; i < count; ++i) answers.push(await store.append('visit-a', `record ${records.length + i + 1}`));
  await store.streams.get('visit-a').writing;  // the second copy, too, which no answer waits for
  return { records, file, copy, lost, wiped, answers };
}

function wipeDatabase() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.deleteDatabase('trowelbell');
    request.onsuccess = () => resolve(true);
    request.onerror = request.onblocked = () => reject(new Error('not deleted'));
  });
}

// Tries again: the page before may not have let go of the file.
async function damageFile(how) {
  for (let tries = 0; ; ++tries) {
    const worker = new Worker('/damage.js');
    try {
      return await new Promise((resolve, reject) => {
        worker.onmessage = () => resolve(true);
        worker.onerror = () => reject(new Error('no worker'));
        worker.postMessage(how);
        setTimeout(() => reject(new Error('the file was not damaged')), 1000);
      });
    } catch (error) {
      if (tries > 5) throw error;
    } finally {
      worker.terminate();
    }
  }
}

const texts = (count) => Array.from({ length: count }, (_, i) => `record ${i + 1}`);
const yes = (count) => Array(count).fill(true);

for (const [name, lacking, openEngine] of [
  ['Chromium', false, openChromium], ['Firefox', missing.firefox, openFirefox], ['WebKit', missing.webkit, openWebKit],
]) {
  describe(`the store in ${name}`, { skip: lacking || false }, () => {
    let engine, glue, address, workerFault;
    let file;  // whether this engine has files for pages; the WebKit of Debian has none, that of phones does
    before(async () => {
      engine = await openEngine();
      glue = await serveGlue();
      await engine.goto(glue.url('x').replace('x.localhost', '127.0.0.1'));
      file = await engine.evaluate(() => Boolean(navigator.storage?.getDirectory));
      glue.close();
    });
    after(() => engine?.close());

    async function answer(request, response) {
      const url = new URL(request.url, 'http://x');
      const kinds = workers[url.pathname.slice(1)];
      const script = kinds?.[url.pathname === '/damage.js' ? 'as' : workerFault];
      if (url.search || script === undefined) return false;
      if (script === null) response.writeHead(404).end();
      else response.writeHead(200, { 'Content-Type': 'text/javascript' }).end(script);
      return true;
    }
    const test = (what, run, { needsFile = false } = {}) => it(what, async (t) => {
      if (needsFile && !file) return t.skip('this engine has no files for pages');
      workerFault = '';
      glue = await serveGlue(answer);
      address = `http://127.0.0.1:${new URL(glue.url('x')).port}/`;  // an origin of its own by its port
      try {
        await run();
      } finally {
        await engine.goto('about:blank');
        glue.close();
      }
    });
    async function opened(count = 0, { file = '', database = '' } = {}) {
      workerFault = file;
      await engine.goto(address);
      return engine.evaluate(openAndAppend, count, database);
    }
    async function damage(script, how) {
      await engine.goto(address);
      await engine.evaluate(script, how);
    }

    test('both copies whole', async () => {
      assert.deepEqual(await opened(6), { records: [], file, copy: true, lost: 0, wiped: false, answers: yes(6) });
      assert.deepEqual(await opened(), { records: texts(6), file, copy: true, lost: 0, wiped: false, answers: [] });
    });

    for (const [what, fault] of [
      ['the file missing', { file: 'missing' }], ['the file full', { file: 'full' }],
      ['the database missing', { database: 'missing' }], ['the database full', { database: 'full' }],
      ['the database blocked by another page', { database: 'blocked' }],
    ]) {
      test(`${what}: the other copy serves, and what was lacking is made good later`, async () => {
        await opened(3);
        const without = await opened(3, fault);
        assert.deepEqual([without.records, without.lost, without.answers], [texts(3), 0, yes(3)]);
        const later = await opened();
        assert.deepEqual(later, { records: texts(6), file: true, copy: true, lost: 0, wiped: fault.database === 'blocked', answers: [] });
        await damage(...(fault.file ? [wipeDatabase] : [damageFile, 'wipe']));
        const alone = await opened(1);
        assert.deepEqual([alone.records, alone.lost, alone.answers], [texts(6), 0, [true]]);
      }, { needsFile: true });
    }

    test('both full: an append says so, what was there stays', async () => {
      await opened(3);
      const full = await opened(2, { file: 'full', database: 'full' });
      assert.deepEqual([full.records, full.lost, full.answers], [texts(3), 0, [false, false]]);
      assert.deepEqual((await opened()).records, texts(3));
    });

    test('both missing: nothing can be kept, and it says so', async () => {
      const none = await opened(1, { file: 'missing', database: 'missing' });
      assert.deepEqual(none, { records: [], file: false, copy: false, lost: 0, wiped: false, answers: [false] });
    });

    for (const how of ['tear', 'garbage']) {
      test(`a torn file (${how}) is made whole from the database; alone, the loss is told`, async () => {
        await opened(6);
        await damage(damageFile, how);
        const united = await opened();
        assert.deepEqual([united.records, united.lost], [texts(6), 0]);
        await damage(damageFile, how);
        await damage(wipeDatabase);
        const left = await opened(1);
        const kept = left.records.length;
        assert.ok(kept < 6, `${kept} kept`);
        assert.deepEqual([left.lost, left.wiped, left.answers], [6 - kept, true, [true]]);
        assert.deepEqual((await opened()).records.length, kept + 1);
      }, { needsFile: true });
    }

    test('the file wiped, then the database: each time the other has it', async () => {
      await opened(4);
      await damage(damageFile, 'wipe');
      const first = await opened(1);
      assert.deepEqual([first.records, first.lost, first.wiped], [texts(4), 0, false]);
      await damage(wipeDatabase);
      const second = await opened();
      assert.deepEqual([second.records, second.lost, second.wiped], [texts(5), 0, true]);
    }, { needsFile: true });

    test('all that is there wiped: the loss is told, and the visit goes on', async () => {
      await opened(4);
      if (file) await damage(damageFile, 'wipe');
      await damage(wipeDatabase);
      const lost = await opened(2);
      assert.deepEqual(lost, { records: [], file, copy: true, lost: 4, wiped: true, answers: yes(2) });
      assert.deepEqual((await opened()).records.length, 2);
    });
  });
}
