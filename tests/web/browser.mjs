// What every browser test needs: Debian's Chromium as a phone, and a collector of its own.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const root = fileURLToPath(new URL('../..', import.meta.url));

// No GPU, no network, no first-run pages. WebGL 2 is drawn by SwiftShader.
const flags = [
  '--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync',
];
const phone = {
  viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true,
};

/** Starts Chromium as a phone with a fresh profile, or the one at `profile`. Close it with
 *  `close()`. Page errors and console errors are collected in `errors`. */
export async function openPhone({ profile, ...options } = {}) {
  const folder = profile ?? await mkdtemp(join(tmpdir(), 'trowelbell-profile-'));
  const context = await chromium.launchPersistentContext(folder, {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: flags, ...phone, ...options,
  });
  const errors = [];
  context.on('weberror', (e) => errors.push(String(e.error())));
  context.on('console', (m) => { if (m.type() === 'error') errors.push(m.text()); });
  return {
    context, errors, profile: folder, page: context.pages()[0] ?? await context.newPage(),
    async close() {
      await context.close();
      if (!profile) await rm(folder, { recursive: true, force: true });
    },
  };
}

/** A loopback port that was free a moment ago. */
export async function freePort() {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address();
  server.close();
  await once(server, 'close');
  return port;
}

/** Waits until `url` answers at all; throws after `seconds`, or at once when `child` has ended. */
export async function untilAnswers(url, child, seconds = 15) {
  for (const end = Date.now() + seconds * 1000; Date.now() < end; await sleep(50)) {
    if (child.exitCode !== null) throw new Error(`it ended with status ${child.exitCode}`);
    try {
      await fetch(url);
      return;
    } catch { /* not listening yet */ }
  }
  throw new Error(`${url} did not answer within ${seconds} s`);
}
