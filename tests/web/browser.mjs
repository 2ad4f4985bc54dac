// What every browser test needs: Debian's Chromium as a phone, and a collector of its own.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const root = fileURLToPath(new URL('../..', import.meta.url));

/** No GPU, no network, no first-run pages. WebGL 2 is drawn by SwiftShader. */
export const flags = [
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

/** Starts a collector of its own on a free loopback port, serving `web`. Without `data` its data
 *  goes to a temporary folder that `stop()` removes. `briefs`: files or folders it takes in. */
export async function startCollector({ data, web = 'build/web', briefs = [], port = 0 } = {}) {
  const folder = data ?? await mkdtemp(join(tmpdir(), 'trowelbell-data-'));
  const child = spawn(join(root, 'build/native/trowelbell-collector'), [
    '--data', folder, '--web', join(root, web), '--port', String(port),
    ...(briefs.length ? ['--briefs', ...briefs] : []),
  ], { stdio: ['ignore', 'pipe', 'inherit'] });
  const said = {};  // first word of each line it prints -> the last
  for await (const line of createInterface({ input: child.stdout })) {
    said[line.split(' ')[0]] = line.split(' ').at(-1);
    if (said.coordinator) break;
  }
  if (!said.coordinator) throw new Error('the collector did not start; see its words above');
  return {
    url: said.listening, coordinatorUrl: said.coordinator, data: folder, child,
    coordinatorKey: said.coordinator.split('#key=')[1],
    async stop() {
      if (child.exitCode === null && child.signalCode === null) {
        child.kill('SIGTERM');
        await once(child, 'exit');
      }
      if (!data) await rm(folder, { recursive: true, force: true });
    },
  };
}
