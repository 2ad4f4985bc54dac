// The browser killed while taps in the real app come as fast as it draws: what its screen had shown must be there again.
import assert from 'node:assert/strict';
import { setTimeout as sleep } from 'node:timers/promises';
import { startCollector } from '../../web/browser.mjs';
import { openKillable } from '../../web/killable.mjs';
import { makeBrief } from '../../web/visit.mjs';
import { luckOf } from './luck.mjs';

const LONGEST_TAPPING_MS = 1000;
const PATIENCE = 30000;
const MORE = '[data-node="kits.spoiled.more"]';

// In the page: the number of spoiled kits, as the screen shows it; each tap adds one.
const shown = () => Number(document.querySelector('[data-node="kits.spoiled"]')?.textContent.match(/\d+$/)[0] ?? NaN);

// In the page: taps at each frame, and says each number once it is shown, and how many taps there may be at most.
async function tap({ more, body }) {
  const shown = new Function(`return ${body}`)();
  let last = shown();
  for (let taps = 0; ; ++taps) {
    if (taps % 10 === 0) await mayTap(taps + 10);
    if (shown() > last) acknowledge(last = shown());
    document.querySelector(more).click();
    await new Promise(requestAnimationFrame);
  }
}

/** Kills `runs` times. `counts`: see kills.mjs. */
export async function killWhileTapping({ runs, seed, profile, counts }) {
  const luck = luckOf(seed);
  const made = await makeBrief();
  const collector = await startCollector({ briefs: [made.file] });
  let acknowledged = 0;
  let most = 0;  // with taps whose effect was not seen
  try {
    for (let run = 0; run <= runs; ++run) {
      const { page, kill } = await openKillable(profile);
      try {
        page.setDefaultTimeout(PATIENCE);
        await page.goto(`${collector.url}/${run === 0 ? made.fragment : ''}`);
        const room = page.locator('[data-node="tab.room"]');
        await room.waitFor({ state: 'attached' }).catch(async (error) => {
          throw new Error(`${error.message}\n${await page.locator('body').innerText()}`);
        });
        await room.dispatchEvent('click');
        await page.locator(MORE).waitFor({ state: 'attached' });
        const there = await page.evaluate(shown);
        assert.ok(there <= most, `${there} shown after ${most} taps`);
        const told = await page.locator('[data-node^="notice"]').count() > 0;
        counts.losses += Math.max(0, acknowledged - there);
        if (told) ++counts.told;
        if (there < acknowledged && !told) ++counts.silent;
        if (run === runs) break;
        acknowledged = most = there;
        await page.exposeFunction('acknowledge', (number) => { acknowledged = number; });
        await page.exposeFunction('mayTap', (taps) => { most = there + taps; });
        page.evaluate(tap, { more: MORE, body: String(shown) }).catch(() => {});
        for (const end = Date.now() + PATIENCE; acknowledged === there; await sleep(2)) {
          assert.ok(Date.now() < end, 'no tap was shown');
        }
        await sleep(luck(0, LONGEST_TAPPING_MS));
        await kill({ alone: luck(0, 1) === 1 });
        ++counts.kills;
        counts.acknowledged += acknowledged - there;
      } finally {
        await kill();
      }
    }
  } finally {
    await collector.stop();
    await made.remove();
  }
}
