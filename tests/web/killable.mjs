// Chromium in a group of processes of its own, to be killed at any moment.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { chromium } from 'playwright-core';
import { flags } from './browser.mjs';

const LONGEST_START_MS = 30000;
const LONGEST_END_MS = 2000;

// Whether a process of the group still runs; one that only waits to be buried does not.
function isThere(group) {
  return readdirSync('/proc').some((name) => {
    if (!/^\d+$/.test(name)) return false;
    try {
      const [state, , ofGroup] = readFileSync(`/proc/${name}/stat`, 'utf8').split(') ').at(-1).split(' ');
      return Number(ofGroup) === group && state !== 'Z';
    } catch {
      return false;  // gone meanwhile
    }
  });
}

/** {page, kill({alone})}: Chromium on the profile in that folder, with `more` flags. `kill` ends it by SIGKILL and waits until all its
 *  processes are gone: the whole tree at once, as when a battery is empty, or the browser's own process `alone`, as when
 *  a phone is short of memory, and the others find out by themselves. */
export async function openKillable(profile, ...more) {
  await rm(join(profile, 'DevToolsActivePort'), { force: true });
  const child = spawn(process.env.CHROMIUM ?? '/usr/bin/chromium', [
    ...flags, ...more, '--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank',
  ], { detached: true, stdio: 'ignore' });
  const gone = once(child, 'exit');
  const killAll = () => { if (isThere(child.pid)) process.kill(-child.pid, 'SIGKILL'); };
  for (const end = Date.now() + LONGEST_START_MS; Date.now() < end && child.exitCode === null; await sleep(20)) {
    const [devtools] = (await readFile(join(profile, 'DevToolsActivePort'), 'utf8').catch(() => '')).split('\n');
    if (!devtools) continue;
    const browser = await chromium.connectOverCDP(`http://127.0.0.1:${devtools}`);
    const [context] = browser.contexts();
    const kill = async ({ alone = false } = {}) => {
      if (alone) child.kill('SIGKILL');
      else killAll();
      await gone;
      for (const end = Date.now() + LONGEST_END_MS; Date.now() < end && isThere(child.pid);) await sleep(5);
      killAll();
      await browser.close().catch(() => {});
    };
    return { page: context.pages()[0] ?? await context.newPage(), kill };
  }
  killAll();
  throw new Error('Chromium did not start');
}
