// The browser killed while a page writes to the phone's store back to back, which no visit does: the store alone.
import assert from 'node:assert/strict';
import { setTimeout as sleep } from 'node:timers/promises';
import { serveGlue } from '../../web/glue-server.mjs';
import { openKillable } from '../../web/killable.mjs';
import { luckOf } from './luck.mjs';

const RUNS_AN_ORIGIN = 20;  // each has all its records read again
const LONGEST_WRITING_MS = 400;
const STREAM = 'visit-a';

// A record tells what must be in it: its run, its number there, and as many letters as these two ask for.
const recordOf = (run, n) => `${run} ${n} ${'ñ'.repeat((run * 31 + n * 17) % 400)}`;

// In the page: writes without end, `writers` records under way at any time, and says which were acknowledged.
async function write({ stream, run, writers, body }) {
  const recordOf = new Function(`return ${body}`)();
  let n = 0;
  const writer = async () => {
    for (;;) {
      const mine = ++n;
      if (await store.append(stream, recordOf(run, mine))) acknowledge(run, mine);
    }
  };
  for (let i = 0; i < writers; ++i) writer();
}

async function open(stream) {
  const { Store } = await import('/store.js');
  globalThis.store = new Store();
  return store.open(stream);
}

/** Fails if what is stored is not what was written, whole, once and in its order. Gives [run, number] of each. */
function check(records) {
  let before = [0, 0];
  return records.map((text) => {
    const [run, n] = text.split(' ').map(Number);
    assert.equal(text, recordOf(run, n), 'a record is not as it was written');
    assert.ok(run > before[0] || (run === before[0] && n > before[1]), `${run} ${n} after ${before.join(' ')}`);
    return (before = [run, n]);
  });
}

/** Kills `runs` times. Each time all that was ever acknowledged at that origin is looked for. `counts`: see kills.mjs. */
export async function killWhileStoring({ runs, seed, profile, counts }) {
  const luck = luckOf(seed);
  const glue = await serveGlue();
  let acknowledged = [];
  // Opens the store, and holds what is there against what was acknowledged.
  async function look(page, address) {
    await page.goto(address);
    const opened = await page.evaluate(open, STREAM);
    const there = new Set(check(opened.records).map(String));
    const lost = acknowledged.filter((each) => !there.has(String(each)));
    counts.losses += lost.length;
    if (opened.wiped) ++counts.wiped;
    if (!opened.file) ++counts.noFile;
    if (opened.lost > 0) ++counts.told;
    if (lost.length > 0 && opened.lost === 0) ++counts.silent;
  }
  for (let run = 1; run <= runs + 1; ++run) {
    const { page, kill } = await openKillable(profile, '--disable-gpu');
    try {
      const origin = Math.ceil(run / RUNS_AN_ORIGIN);
      if (run > 1) await look(page, glue.url(`kills-${Math.ceil((run - 1) / RUNS_AN_ORIGIN)}`));
      if (run > runs) break;
      if (run % RUNS_AN_ORIGIN === 1) {
        acknowledged = [];
        await look(page, glue.url(`kills-${origin}`));
      }
      const before = acknowledged.length;
      await page.exposeFunction('acknowledge', (...each) => { acknowledged.push(each); });
      page.evaluate(write, { stream: STREAM, run, writers: luck(1, 4), body: String(recordOf) }).catch(() => {});
      for (const end = Date.now() + 10000; acknowledged.length === before; await sleep(1)) {
        assert.ok(Date.now() < end, 'nothing was acknowledged');
      }
      await sleep(luck(0, LONGEST_WRITING_MS));
      await kill({ alone: luck(0, 1) === 1 });
      ++counts.kills;
      counts.acknowledged += acknowledged.length - before;
    } finally {
      await kill();
    }
  }
  glue.close();
}
