// The phone's store (wasm/store.js) in a real browser: what was acknowledged is there again, whichever copy is lost.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { openPhone } from './browser.mjs';
import { serveGlue } from './glue-server.mjs';

const glue = await serveGlue();
let phone, page, address;
let origins = 0;

// Runs in the page: what is stored in `visit-a` after `count` more appends, and how those were answered.
async function openAndAppend(count) {
  const { Store } = await import('/store.js');
  globalThis.store = new Store();
  const opened = await store.open('visit-a');
  const answers = [];
  for (let i = 0; i < count; ++i) answers.push(store.append('visit-a', `record ${opened.records.length + i + 1} ñ`));
  const answered = await Promise.all(answers);
  await store.streams.get('visit-a').writing;  // the second copy, too, which no answer waits for
  return { ...opened, answers: answered };
}

const texts = (count) => Array.from({ length: count }, (_, i) => `record ${i + 1} ñ`);

// A fresh page, so that no handle of the one before is open.
async function reopened(count = 0, target = page, there = address) {
  await target.goto(there);
  return target.evaluate(openAndAppend, count);
}

// Faults, done to the disk while no page has the store open.
const fault = {
  async wipeDatabase() {
    await page.goto(address);
    await page.evaluate(() => new Promise((resolve, reject) => {
      const request = indexedDB.deleteDatabase('trowelbell');
      request.onsuccess = resolve;
      request.onerror = reject;
      request.onblocked = reject;
    }));
  },
  async wipeFile() {
    await page.goto(address);
    await page.evaluate(async () => {
      await (await navigator.storage.getDirectory()).removeEntry('streams', { recursive: true });
    });
  },
  // Writes the file anew as `change` (a function body of bytes) makes it.
  async changeFile(change) {
    await page.goto(address);
    await page.evaluate(async (body) => {
      const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('streams');
      const handle = await folder.getFileHandle('visit-a.log');
      const bytes = new Uint8Array(await (await handle.getFile()).arrayBuffer());
      const changes = { tear: (b) => b.subarray(0, b.length - 5), flip: (b) => { b[b.length >> 1] ^= 1; return b; } };
      const writable = await handle.createWritable();
      await writable.write(changes[body](bytes));
      await writable.close();
    }, change);
  },
};

describe('the store', () => {
  before(async () => { phone = await openPhone(); });
  after(async () => {
    await phone.close();
    glue.close();
  });
  const test = (name, run) => it(name, async (t) => {
    address = glue.url(`test-${++origins}`);
    page = await phone.context.newPage();
    await run(t);
    await page.close();
  });

  // Source of the value: the check value of CRC-32 ("CRC-32/ISO-HDLC") in the published catalogues of CRC algorithms.
  test('sums as CRC-32 does', async () => {
    await page.goto(address);
    const crc = await page.evaluate(async () => {
      const { crc32 } = await import('/record.js');
      const bytes = new TextEncoder().encode('123456789');
      return [crc32(bytes), crc32(bytes.subarray(0, 4), bytes.subarray(4)), crc32()];
    });
    assert.deepEqual(crc, [0xcbf43926, 0xcbf43926, 0]);
  });

  test('reads back what encode wrote, up to any cut', async () => {
    await page.goto(address);
    const counts = await page.evaluate(async () => {
      const { encode, scan } = await import('/record.js');
      const sizes = [1, 2, 3].map((n) => encode([{ seq: n, text: 'é'.repeat(n) }]).length);
      const bytes = encode([1, 2, 3].map((n) => ({ seq: n, text: 'é'.repeat(n) })));
      const wrong = [];
      for (let cut = 0; cut <= bytes.length; ++cut) {
        let whole = 0;
        while (whole < 3 && sizes.slice(0, whole + 1).reduce((a, b) => a + b) <= cut) ++whole;
        if (scan(bytes.subarray(0, cut)).records.length !== whole) wrong.push(cut);
      }
      // A changed bit anywhere must cost its record, and no record before it.
      for (let bit = 0; bit < bytes.length * 8; ++bit) {
        const changed = bytes.slice();
        changed[bit >> 3] ^= 1 << (bit & 7);
        const at = [sizes[0], sizes[0] + sizes[1], bytes.length].findIndex((end) => bit >> 3 < end);
        if (scan(changed).records.length !== at) wrong.push(`bit ${bit}`);
      }
      return wrong;
    });
    assert.deepEqual(counts, []);
  });

  test('has every record again, in order, with both copies in use', async () => {
    const first = await reopened(20);
    assert.deepEqual(first.answers, Array(20).fill(true));
    assert.deepEqual(first.records, []);
    const second = await reopened();
    assert.deepEqual(second, { records: texts(20), file: true, copy: true, lost: 0, wiped: false, answers: [] });
  });

  for (const [wiped, kept] of [['wipeFile', 'wipeDatabase'], ['wipeDatabase', 'wipeFile']]) {
    test(`${wiped}: the other copy serves, and is copied back`, async () => {
      await reopened(7);
      await fault[wiped]();
      const healed = await reopened(1);
      assert.deepEqual(healed.records, texts(7));
      assert.equal(healed.lost, 0);
      await fault[kept]();  // now only the copy that had been wiped is left
      const again = await reopened();
      assert.deepEqual(again.records, texts(8));
      assert.equal(again.lost, 0);
    });
  }

  test('both copies wiped: the loss is told, and new records are kept', async () => {
    await reopened(7);
    await fault.wipeFile();
    await fault.wipeDatabase();
    const after = await reopened(2);
    assert.deepEqual(after.records, []);
    assert.equal(after.lost, 7);
    assert.deepEqual(after.answers, [true, true]);
    assert.equal((await reopened()).records.length, 2);
  });

  for (const change of ['tear', 'flip']) {
    test(`a file with a record that is bad (${change}) is made whole from the database`, async () => {
      await reopened(9);
      await fault.changeFile(change);
      assert.deepEqual((await reopened()).records, texts(9));
      await fault.wipeDatabase();
      const fileAlone = await reopened();
      assert.deepEqual(fileAlone.records.sort(), texts(9).sort());
      assert.equal(fileAlone.lost, 0);
    });
    test(`a file with a record that is bad (${change}) alone: what is before it is kept, the rest is told`, async () => {
      await reopened(9);
      await fault.changeFile(change);
      await fault.wipeDatabase();
      const left = await reopened(1);
      const kept = left.records.length;
      assert.ok(kept > 0 && kept < 9, `${kept} kept`);
      assert.deepEqual(left.records, texts(kept));
      assert.equal(left.lost, 9 - kept);
      assert.deepEqual((await reopened()).records, [...texts(kept), `record ${kept + 1} ñ`]);
    });
  }

  test('no worker: the database alone serves, and the file is made whole later', async () => {
    await page.route('**/worker.js', (route) => route.abort());
    const without = await reopened(4);
    assert.deepEqual([without.file, without.copy, without.answers], [false, true, [true, true, true, true]]);
    await page.unroute('**/worker.js');
    const later = await reopened();
    assert.deepEqual([later.file, later.records], [true, texts(4)]);
    await fault.wipeDatabase();
    assert.deepEqual((await reopened()).records, texts(4));
  });

  test('no database: the file alone serves', async () => {
    await page.addInitScript(() => Object.defineProperty(window, 'indexedDB', { value: undefined }));
    const without = await reopened(4);
    assert.deepEqual([without.file, without.copy, without.answers], [true, false, [true, true, true, true]]);
    assert.deepEqual((await reopened()).records, texts(4));
  });

  test('neither: an append says that it failed', async () => {
    await page.addInitScript(() => Object.defineProperty(window, 'indexedDB', { value: undefined }));
    await page.route('**/worker.js', (route) => route.abort());
    const without = await reopened(1);
    assert.deepEqual(without, { records: [], file: false, copy: false, lost: 0, wiped: false, answers: [false] });
  });

  test('a second page may read and not write, and harms nothing', async () => {
    await reopened(3);
    const second = await phone.context.newPage();
    const reading = await reopened(1, second);
    assert.deepEqual(reading, { records: texts(3), file: false, copy: false, lost: 0, wiped: false, answers: [false] });
    assert.deepEqual(await page.evaluate(() => store.append('visit-a', 'record 4 ñ')), true);
    await page.close();
    page = second;
    const alone = await reopened(1);
    assert.deepEqual([alone.records, alone.file, alone.answers], [texts(4), true, [true]]);
  });

  test('opened again in the same page it has what was appended meanwhile', async () => {
    await reopened(3);
    const again = await page.evaluate(async () => {
      const writing = [store.append('visit-a', 'record 4 ñ'), store.append('visit-a', 'record 5 ñ')];
      const opened = await store.open('visit-a');
      await Promise.all(writing);
      await store.append('visit-a', 'record 6 ñ');
      return opened;
    });
    assert.deepEqual(again, { records: texts(5), file: true, copy: true, lost: 0, wiped: false });
    assert.deepEqual((await reopened()).records, texts(6));
  });

  test('streams are apart, and what is no stream or no record is refused', async () => {
    await reopened(2);
    const answers = await page.evaluate(async () => {
      await store.open('visit-ab');
      await store.append('visit-ab', 'elsewhere');
      const bad = [];
      for (const name of ['', '../x', 'A', 'a/b', 'a'.repeat(101)]) {
        await store.open(name);
        bad.push(await store.append(name, 'x'));
      }
      bad.push(await store.append('visit-a', 'two\nlines'));
      bad.push(await store.append('visit-a', 'ñ'.repeat(140000)));
      bad.push(await store.append('never-opened', 'x'));
      return bad;
    });
    assert.deepEqual(answers, Array(8).fill(false));
    assert.deepEqual((await reopened()).records, texts(2));
  });

  test('copies that differ at one place lose neither record', async () => {
    await page.goto(address);
    const united = await page.evaluate(async () => {
      const { unite } = await import('/store.js');
      const file = [{ seq: 1, text: 'a' }, { seq: 2, text: 'b' }];
      const copy = [{ seq: 1, text: 'a' }, { seq: 2, text: 'x' }, { seq: 3, text: 'c' }];
      const once = unite(file, copy);
      return [once, unite([...file, ...once.fileLacks], copy.filter(({ seq }) => seq !== 2).concat(once.copyLacks.slice(0, 1)))];
    });
    assert.deepEqual(united[0].records.map(({ text }) => text), ['a', 'b', 'c', 'x']);
    assert.deepEqual(united[0].copyLacks, [{ seq: 2, text: 'b' }, { seq: 4, text: 'x' }]);
    assert.deepEqual(united[1].records, united[0].records);
  });

  test('appends are answered soon (figures only)', async (t) => {
    await reopened();
    const times = await page.evaluate(async () => {
      const each = [];
      for (let i = 0; i < 300; ++i) {
        const from = performance.now();
        await store.append('visit-a', `{"event":{"pad":"${'x'.repeat(200)}"}}`);
        each.push(performance.now() - from);
      }
      return each.sort((a, b) => a - b);
    });
    const at = (share) => times[Math.floor(times.length * share)].toFixed(1);
    t.diagnostic(`append to acknowledgement, 300 of 220 bytes: median ${at(0.5)} ms, p90 ${at(0.9)}, p99 ${at(0.99)}`);
  });
});
