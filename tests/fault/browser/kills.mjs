// The real browser killed at random moments of writing; what it had acknowledged must be there when it is opened again.
//
//   node tests/fault/browser/kills.mjs [RUNS [SEED]]   200 runs, seed 1; one in ten through the real app (build/web)
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { killWhileTapping } from './app_kills.mjs';
import { killWhileStoring } from './store_kills.mjs';

/** {kills; acknowledged events; losses among them; wiped: openings that found IndexedDB empty; noFile: openings without
 *  the file; told: openings at which a loss was told; silent: those with a loss that was not}. */
export async function killBrowsers({ runs, seed, inApp }) {
  const counts = { kills: 0, acknowledged: 0, losses: 0, wiped: 0, noFile: 0, told: 0, silent: 0 };
  for (const [campaign, share] of [[killWhileStoring, runs - inApp], [killWhileTapping, inApp]]) {
    const profile = await mkdtemp(join(tmpdir(), 'trowelbell-killed-'));
    try {
      await campaign({ runs: share, seed, profile, counts });
    } finally {
      await rm(profile, { recursive: true, force: true, maxRetries: 5 });
    }
  }
  return counts;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [runs = 200, seed = 1] = process.argv.slice(2).map(Number);
  const inApp = Math.round(runs / 10);
  const began = Date.now();
  const counts = await killBrowsers({ runs, seed, inApp });
  console.log(`${counts.kills} kills of the browser (${inApp} in the app) with ${counts.acknowledged} acknowledged events: `
    + `${counts.losses} lost; IndexedDB came back empty ${counts.wiped} times, the file was missing ${counts.noFile} times; `
    + `a loss was told ${counts.told} times. ${Math.round((Date.now() - began) / 1000)} s, seed ${seed}.`);
  process.exitCode = counts.losses > 0 || counts.told > 0 ? 1 : 0;
}
