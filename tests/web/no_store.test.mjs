// A phone that can keep nothing, from the beginning or from the middle of a visit on: that is told, the visit goes on in
// memory, and all that happened can be saved as a file.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { describe, it } from 'node:test';
import { setUp } from './visit.mjs';
import { lesson, say } from './words.mjs';

async function savedJournal(lead) {
  await lead.go('report');
  return readFile(await lead.saved('report.journal'), 'utf8');
}

describe('without a store', () => {
  async function visit(run) {
    const s = await setUp();
    try {
      await run(s, s.lead);
    } finally {
      await s.tearDown();
    }
  }
  const [, second, third] = lesson.steps.map(({ id }) => id);

  const stepsOf = (text) => JSON.parse(text).events.filter(({ kind }) => kind === 'step').map(({ data }) => data.step);

  it('storage denied: told at once, and the journal is whole in the file', () => visit(async (s, lead) => {
    await s.page.addInitScript(() => Object.defineProperty(window, 'indexedDB', { value: undefined }));
    await s.page.route('**/worker.js', (route) => route.abort());
    await lead.open();
    await lead.sees(say('notice.no_store'));
    await lead.tapButton('brief.to_lesson');
    await lead.start();
    await lead.play(third);
    assert.deepEqual(stepsOf(await savedJournal(lead)), [second, third]);
  }));

  // Both copies as on a full disk: the worker's answers (power_cut.test.mjs has its side of it) and the database's errors.
  it('storage full in the middle: told, and the journal is whole in the file', () => visit(async (s, lead) => {
    await s.page.addInitScript(() => {
      globalThis.full = false;
      const { add } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.add = function (...row) {
        if (full) throw new DOMException('no room', 'QuotaExceededError');
        return add.apply(this, row);
      };
      const { postMessage } = Worker.prototype;
      Worker.prototype.postMessage = function (message) {
        if (!full) return postMessage.call(this, message);
        setTimeout(() => this.onmessage({ data: { call: message.call, ok: false, why: 'the disk is full' } }));
      };
    });
    await lead.open();
    await lead.opened();
    await lead.tapButton('brief.to_lesson');
    await lead.start();
    await lead.doStep();
    await s.page.evaluate(() => { globalThis.full = true; });
    await lead.doStep();
    await lead.sees(say('notice.not_stored'));
    assert.deepEqual(stepsOf(await savedJournal(lead)), [second, third]);
  }));
});
