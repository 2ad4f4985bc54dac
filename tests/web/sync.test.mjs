// A report that could not be sent goes out although no page is open any more, and exactly once. Background Sync: of the
// three engines only Chromium has it; its event is dispatched by hand, as the browser's own moment cannot be foreseen.
import assert from 'node:assert/strict';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { setTimeout as sleep } from 'node:timers/promises';
import { startCollector } from './browser.mjs';
import { setUp } from './visit.mjs';
import { say } from './words.mjs';

const TAG = 'trowelbell-outbox';

describe('the outbox without a page', () => {
  let s, lead, data, port, devtools, registrationId;
  before(async () => {
    data = await mkdtemp(join(tmpdir(), 'trowelbell-data-'));
    s = await setUp({ data });
    lead = s.lead;
    port = new URL(s.collector.url).port;
    await lead.open();
    await lead.opened();
    await s.page.waitForFunction(() => navigator.serviceWorker.controller);
    devtools = await s.phone.context.newCDPSession(s.page);
    devtools.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => { registrationId = registrations[0]?.registrationId; });
    await devtools.send('ServiceWorker.enable');
  });
  after(async () => {
    await s.tearDown();
    await lead.collector.stop();
    await rm(data, { recursive: true, force: true });
  });
  const wake = () => devtools.send('ServiceWorker.dispatchSyncEvent',
    { origin: s.collector.url, registrationId, tag: TAG, lastChance: false });

  it('asks the browser to be woken when sending has failed', async () => {
    await s.collector.stop();
    await lead.tapButton('brief.to_lesson');
    await lead.start();
    await lead.doStep();
    await s.page.evaluate(() => {
      globalThis.asked = [];
      SyncManager.prototype.register = async (tag) => { asked.push(tag); };
    });
    await lead.go('report');
    await lead.tapButton('report.send');
    await lead.sees(say('send.waiting'));
    await s.page.waitForFunction(() => asked.length > 0);
    assert.deepEqual([...new Set(await s.page.evaluate(() => asked))], [TAG]);
  });

  it('sends from the worker once no page is open', async () => {
    await s.page.goto('about:blank');
    lead.collector = await startCollector({ data, port });
    assert.equal(await lead.reportCount(), 0);
    await wake();
    for (const end = Date.now() + 20000; Date.now() < end && await lead.reportCount() === 0;) await sleep(50);
    assert.equal(await lead.reportCount(), 1);
    assert.equal((await (await lead.stored()).json()).steps[0].outcome, 'done');
  });

  it('is received to the page that opens later, and is there once', async () => {
    await lead.open('');
    await lead.go('report');
    await lead.received();
    assert.equal(await lead.reportCount(), 1);
  });

  it('sends nothing more once the report is received', async () => {
    await s.page.goto('about:blank');
    await lead.collector.stop();
    const asked = [];
    const stranger = createServer((request, response) => {
      if (request.url !== '/sw.js') asked.push(request.url);  // the browser's own look for a newer version
      response.writeHead(503).end();
    }).listen(port, '127.0.0.1');
    await once(stranger, 'listening');
    await wake();
    await sleep(1500);
    stranger.close();
    assert.deepEqual(asked, []);
  });
});
