// A power cut while the store's worker writes: what it had answered is in the file. kill -9 cannot show this, because the
// system still has what was written without a flush; so this disk is a made-up one. It loses what was done after the last
// flush, but for some of it, by chance.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { before, it } from 'node:test';
import { createContext, runInContext } from 'node:vm';
import { luckOf } from '../fault/browser/luck.mjs';
import { root } from './browser.mjs';

let script;
before(() => {
  script = execFileSync('esbuild', [join(root, 'wasm/worker.js'), '--bundle', '--format=iife', '--log-level=error'], { encoding: 'utf8' });
});

class Disk {
  since = [];  // what was done after the last flush

  constructor(bytes = new Uint8Array()) {
    this.safe = this.now = bytes;
  }

  change(step) {
    this.now = step(this.now);
    this.since.push(step);
  }

  /** The disk after a power cut. What a worker still does goes to this one, which nobody reads any more. */
  afterCut(luck) {
    return new Disk(this.since.reduce((file, step) => (luck(0, 1) === 1 ? step(file) : file), this.safe));
  }

  // The promises of older browsers, and a disk that takes only so many bytes.
  handle(most) {
    return {
      getSize: async () => this.now.length,
      read: (into, { at }) => { into.set(this.now.subarray(at, at + into.length)); },
      write: (bytes, { at }) => {
        const taken = bytes.slice(0, Math.max(0, Math.min(bytes.length, most() - at)));
        this.change((file) => {
          const longer = new Uint8Array(Math.max(file.length, at + taken.length));
          longer.set(file);
          longer.set(taken, at);
          return longer;
        });
        return taken.length;
      },
      truncate: async (size) => this.change((file) => file.slice(0, size)),
      flush: async () => { [this.safe, this.since] = [this.now, []]; },
      close: () => {},
    };
  }
}

/** The worker on that disk: ask({kind, ...}) gives its answer. */
function startWorker(disk, most = () => Infinity) {
  let listener;
  let call = 0;
  const calls = new Map();
  const file = { createSyncAccessHandle: async () => disk.handle(most) };
  const folder = { getFileHandle: async () => file };
  runInContext(script, createContext({
    navigator: { storage: { getDirectory: async () => ({ getDirectoryHandle: async () => folder }) } },
    addEventListener: (_, added) => { listener = added; },
    postMessage: (answer) => calls.get(answer.call)?.(answer),
    setTimeout, TextEncoder, TextDecoder,
  }));
  return {
    ask: (message) => new Promise((resolve) => {
      calls.set(++call, resolve);
      listener({ data: { ...message, stream: 'visit-a', call } });
    }),
  };
}

const opened = async (worker) => {
  const { ok, answer } = await worker.ask({ kind: 'open' });
  assert.ok(ok);
  return Array.from(answer, ({ seq, text }) => ({ seq, text }));
};

it('what was answered is there after a power cut', async (t) => {
  const CUTS = 300;
  const luck = luckOf(11);
  let disk = new Disk();
  let known = [];
  let total = 0;
  for (let cut = 0; cut < CUTS; ++cut) {
    const worker = startWorker(disk);
    const there = await opened(worker);
    assert.deepEqual(there.slice(0, known.length), known, `after cut ${cut}`);
    const answered = [...there];
    const writes = luck(1, 8);
    for (let i = 1; i <= writes; ++i) {
      const record = { seq: there.length + i, text: `${cut} ${i} ${'ñ'.repeat(luck(0, 60))}` };
      worker.ask({ kind: 'append', records: [record] }).then(({ ok }) => { if (ok) answered.push(record); });
    }
    // The cut comes between two of the worker's steps, wherever that is.
    for (let steps = luck(0, 8 * writes); steps > 0; --steps) await null;
    known = [...answered];
    disk = disk.afterCut(luck);
    total += known.length - there.length;
  }
  assert.ok(total > CUTS, `only ${total} records were answered`);
  t.diagnostic(`${CUTS} power cuts, ${total} answered records`);
});

it('a full disk is told, hides nothing that was there, and serves again when there is room', async () => {
  const disk = new Disk();
  let room = 100;
  const worker = startWorker(disk, () => room);
  await opened(worker);
  const append = async (seq, letters) => (await worker.ask({ kind: 'append', records: [{ seq, text: 'x'.repeat(letters) }] })).ok;
  assert.deepEqual([await append(1, 50), await append(2, 50), await append(3, 10)], [true, false, true]);
  room = 1000;
  assert.ok(await append(4, 50));
  assert.deepEqual((await opened(startWorker(disk))).map(({ seq }) => seq), [1, 3, 4]);
});
