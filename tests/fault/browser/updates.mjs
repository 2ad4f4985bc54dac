// First installations and updates of the page, broken at every file they ask for. The app that was there goes on whole;
// where there was none, there is none.
//
//   node tests/fault/browser/updates.mjs   (build/web)
import assert from 'node:assert/strict';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { openPhone } from '../../web/browser.mjs';
import { makeBrief } from '../../web/visit.mjs';
import { kinds as allKinds, serveVersions, version } from './two_versions.mjs';

const PATIENCE = 30000;

// In the page: asks for an update, or for the first installation, and waits for its end.
async function update() {
  const registration = await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' }).catch(() => null);
  await registration?.update().catch(() => {});
  while (registration?.installing) await new Promise((resolve) => { setTimeout(resolve, 5); });
  return {
    caches: (await caches.keys()).length,
    waiting: Boolean(registration?.waiting),
    there: Boolean(await navigator.serviceWorker.getRegistration()),
  };
}

// In the page: the SHA-256 of each of these files as the page gets them; null for none.
async function digests(paths) {
  return Promise.all(paths.map(async (path) => {
    const response = await fetch(`/${path}`).catch(() => null);
    if (!response?.ok) return null;
    const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', await response.arrayBuffer()));
    return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
  }));
}

/** {cutInstalls, cutUpdates, updates, openings: of the app without a network}. `kinds`: of faults; each `appEvery`-th cut
 *  update is followed by an opening of the app itself. */
export async function breakUpdates({ kinds = allKinds, appEvery = 5 } = {}) {
  const counts = { cutInstalls: 0, cutUpdates: 0, updates: 0, openings: 0 };
  const site = await serveVersions();
  const made = await makeBrief();
  const phone = await openPhone({ deviceScaleFactor: 1 });
  const { context, page } = phone;
  page.setDefaultTimeout(PATIENCE);
  let [now, next] = [version(false), version(true)];
  const paths = [...now.kept.keys()];

  // Every file, and the page at the origin itself, without a network, is that version's.
  async function isWhole(target, { kept }, when) {
    const [home, ...rest] = await target.evaluate(digests, ['', ...paths]);
    assert.deepEqual(paths.filter((path, i) => rest[i] !== kept.get(path)), [], `${when}: not of this version`);
    assert.equal(home, kept.get('index.html'), when);
  }
  async function appOpens(target, address, { kept }, when) {
    await target.goto(address);
    await target.locator('[data-node="brief.title"]').waitFor({ state: 'attached' })
      .catch(async (error) => { throw new Error(`${when}: ${error.message}\n${await target.locator('body').innerText()}`); });
    await isWhole(target, { kept }, when);
    ++counts.openings;
  }

  // A whole update waits. Who is in a visit stays in the old version, and so does who opens a second page; the new one
  // comes when no page is left.
  async function takesOver(address, when) {
    const visit = await context.newPage();
    await appOpens(visit, address, now, `${when}: the visit, beside an empty page`);
    await appOpens(page, address, now, `${when}: a second page`);
    await isWhole(visit, now, `${when}: the visit, beside a second page`);
    await visit.reload();
    await visit.locator('[data-node="brief.title"]').waitFor({ state: 'attached' });
    await isWhole(visit, now, `${when}: the visit opened again beside a second page`);
    await visit.close();
    await page.goto('about:blank');
    // The browser waits until the old worker has nothing to do, too; until then an opening is still whole and old.
    for (let tries = 0; ; ++tries) {
      assert.ok(tries < 30, `${when}: no page was left, and still the old version`);
      await sleep(500);
      await page.goto(`${address}empty`);
      if ((await page.evaluate(() => caches.keys())).length === 1) break;
      await isWhole(page, now, `${when}: no page was left, but the old worker had something to do`);
      await page.goto('about:blank');
    }
    await appOpens(page, address, next, `${when}: the new version`);
    ++counts.updates;
    [now, next] = [next, now];
  }

  try {
    // The first installation. Without a network in between, so that the browser's own tries do not count.
    site.serve(now, next);
    for (const kind of kinds) {
      for (let n = 1, broke = true; broke; ++n) {
        const address = site.url(`first-${kind}-${n}`);
        const when = `first installation, ${kind} at ${n}`;
        await page.goto(`${address}empty`);
        site.fault(kind, n);
        const { caches, there } = await page.evaluate(update);
        broke = site.well();
        site.offline();
        if (broke) {
          ++counts.cutInstalls;
          assert.deepEqual({ caches, there }, { caches: 0, there: false }, when);
          assert.deepEqual(await page.evaluate(digests, paths), paths.map(() => null), when);
        } else {
          await page.evaluate(() => navigator.serviceWorker.ready);
          await isWhole(page, now, when);
        }
      }
    }

    // Updates of the app as a phone has it, with its visit.
    const address = site.url('updates');
    site.well();
    await page.goto(address + made.fragment);
    await page.locator('[data-node="brief.title"]').waitFor({ state: 'attached' });
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      while (!navigator.serviceWorker.controller) await new Promise((resolve) => { setTimeout(resolve, 20); });
    });
    for (const kind of kinds) {
      site.serve(next, now);
      for (let n = 1, broke = true; broke; ++n) {
        const when = `update, ${kind} at ${n}`;
        await page.goto(`${address}empty`);
        site.fault(kind, n);
        const { caches, waiting } = await page.evaluate(update);
        broke = site.well();
        site.offline();
        if (broke) {
          ++counts.cutUpdates;
          assert.deepEqual({ caches, waiting }, { caches: 1, waiting: false }, when);
          await isWhole(page, now, when);
          if (counts.cutUpdates % appEvery === 0) await appOpens(page, address, now, when);
        } else {
          assert.deepEqual({ caches, waiting }, { caches: 2, waiting: true }, when);
          await takesOver(address, when);
        }
      }
    }
  } finally {
    site.close();
    await phone.close();
    await made.remove();
  }
  return counts;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const began = Date.now();
  const counts = await breakUpdates();
  console.log(`${counts.cutInstalls} first installations and ${counts.cutUpdates} updates of the page broken at each of their files, `
    + `${counts.updates} updates whole, ${counts.openings} openings without a network: never half of one version and half of another. `
    + `${Math.round((Date.now() - began) / 1000)} s.`);
}
