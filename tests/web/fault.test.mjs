// The short run of tests/fault/browser: the browser killed while the page writes, and updates of the page broken off.
import assert from 'node:assert/strict';
import { it } from 'node:test';
import { killBrowsers } from '../fault/browser/kills.mjs';
import { breakUpdates } from '../fault/browser/updates.mjs';

it('a killed browser has all that was acknowledged', async (t) => {
  const counts = await killBrowsers({ runs: 8, seed: 4, inApp: 2 });
  t.diagnostic(JSON.stringify(counts));
  assert.equal(counts.kills, 8);
  assert.ok(counts.acknowledged > 100);
  assert.deepEqual([counts.losses, counts.noFile, counts.told, counts.silent], [0, 0, 0, 0]);
});

it('an update or first installation that breaks off leaves what was there, whole', async (t) => {
  const counts = await breakUpdates({ kinds: ['gone', 'short'], appEvery: 10 });
  t.diagnostic(JSON.stringify(counts));
  assert.equal(counts.updates, 2);
  // Two kinds of fault at every file that a phone keeps.
  assert.ok(counts.cutInstalls >= 20 && counts.cutUpdates >= 20 && counts.openings > 4);
});
