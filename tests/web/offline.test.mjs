// A visit with no network from before its first step to after its last, and one whose collector is down.
import assert from 'node:assert/strict';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { setTimeout as sleep } from 'node:timers/promises';
import { startCollector } from './browser.mjs';
import { setUp } from './visit.mjs';
import { lesson, pattern, say } from './words.mjs';

// Seconds left in the step, as Lesson says them.
async function secondsLeft(lead) {
  const said = await lead.mirror.getByRole('timer').filter({ hasText: pattern('lesson.left') }).textContent();
  const [minutes, seconds] = said.match(pattern('lesson.left')).groups.time.split(':').map(Number);
  return minutes * 60 + seconds;
}

describe('without a network', () => {
  const HALF = 'clean-hands';
  let s, lead;
  before(async () => {
    s = await setUp({ minutes: 75 });
    lead = s.lead;
  });
  after(() => s.tearDown());

  it('is kept on the phone at the first opening', async () => {
    await lead.open();
    await lead.opened();
    await s.page.evaluate(() => navigator.serviceWorker.ready);
    await s.page.waitForFunction(() => navigator.serviceWorker.controller);
    await s.phone.context.setOffline(true);
    assert.equal(await s.page.evaluate(() => fetch('/v1/health').then(() => 'reached', () => 'cut off')), 'cut off');
  });

  it('goes through the first half', async () => {
    await lead.tapButton('brief.to_lesson');
    await lead.start();
    const done = await lead.play(HALF);
    assert.equal(done.length, lesson.steps.findIndex(({ id }) => id === HALF));
  });

  // The moment when the time left reads differently, and what it reads then.
  async function nextTurn() {
    const before = await secondsLeft(lead);
    const until = Date.now() + 40000;
    for (;;) {
      const left = await secondsLeft(lead);
      if (left !== before) return { left, at: Date.now() / 1000 };
      assert.ok(Date.now() < until, `still ${before} s left`);
      await sleep(100);
    }
  }

  it('is where it was after a reload, its clock within two seconds', async () => {
    const before = await nextTurn();
    await s.page.reload();
    await lead.seesNode('heading', lesson.steps.find(({ id }) => id === HALF).title.en);
    const after = await nextTurn();
    const passed = after.at - before.at;
    assert.ok(Math.abs(before.left - after.left - passed) <= 2, `${before.left} s left, ${passed} s later ${after.left} s`);
  });

  it('goes through the other half', async () => {
    await lead.play();
    assert.equal(await lead.title(), say('lesson.done'));
  });

  it('keeps the report, and says that it waits', async () => {
    await lead.go('report');
    await lead.tapButton('report.send');
    await lead.sees(say('send.waiting'));
    await lead.sees(say('send.waiting.words'));
    assert.equal(await lead.reportCount(), 0);
  });

  it('sends it by itself when the network is back, once', async () => {
    await s.phone.context.setOffline(false);
    await lead.received();
    assert.equal(await lead.reportCount(), 1);
    const report = await (await lead.stored()).json();
    assert.deepEqual(report.steps.filter(({ outcome }) => outcome !== 'done'), []);
  });
});

describe('with the collector down', () => {
  let s, lead, data;
  before(async () => {
    data = await mkdtemp(join(tmpdir(), 'trowelbell-data-'));
    s = await setUp({ data });
    lead = s.lead;
  });
  after(async () => {
    await s.tearDown();
    await lead.collector.stop();
    await rm(data, { recursive: true, force: true });
  });

  it('keeps the report, and sends it by itself when the collector is back', async () => {
    await lead.open();
    await lead.opened();
    await lead.tapButton('brief.to_lesson');
    await lead.start();
    await lead.doStep();
    await s.collector.stop();
    await lead.go('report');
    await lead.tapButton('report.send');
    await lead.sees(say('send.waiting'));
    // At the same address, with what it knew: the briefs are not given again.
    lead.collector = await startCollector({ data, port: new URL(s.collector.url).port });
    await lead.received();
    assert.equal(await lead.reportCount(), 1);
    assert.equal((await (await lead.stored()).json()).steps[0].outcome, 'done');
  });
});
