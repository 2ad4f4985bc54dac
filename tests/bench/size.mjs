// What a phone downloads, in brotli, beside the hello page's.
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { filesUnder, shortScript, stage } from '../../wasm/staging.mjs';
import { row } from './table.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const app = join(root, 'build/web');
const made = join(root, 'build/web-obj/bench');

/** Where the collector finds the pages that benchmarks stand beside the app's. */
export const benchPages = 'build/bench-web';

/** Fills that folder, as wasm/stage.mjs fills build/web. */
export function stageBenchPages() {
  const here = (name) => readFileSync(join(root, 'tests/bench/pages', name));
  const files = new Map();
  const add = (path, bytes, kept = true) => files.set(path, { bytes, kept });
  add('index.html', here('hello.html'));
  add('hello.css', here('hello.css'));
  add('favicon.ico', readFileSync(join(root, 'assets/icons/favicon.ico')));
  add('boot.js', shortScript(join(root, 'tests/bench/pages/hello.js'), '--format=esm'));
  add('hello.wasm', readFileSync(join(made, 'hello.wasm')));
  add('fonts/trowelbell-text-regular.ttf', readFileSync(join(root, 'build/fonts/trowelbell-text-regular.ttf')));
  add('sw.js', shortScript(join(root, 'wasm/sw.js'), '--format=iife'));
  add('rehearsals.js', shortScript(join(made, 'rehearsals.js'), '--format=esm'), false);
  add('rehearsals.wasm', readFileSync(join(made, 'rehearsals.wasm')), false);
  stage(join(root, benchPages), files);
}

function wire(folder, path) {
  try {
    return statSync(join(folder, `${path}.br`)).size;
  } catch {
    return statSync(join(folder, path)).size;
  }
}
const wires = (folder, paths) => paths.reduce((sum, path) => sum + wire(folder, path), 0);

export function size() {
  stageBenchPages();
  // The list that the service worker keeps is what a phone downloads, and the worker itself.
  const kept = JSON.parse(readFileSync(join(app, 'sw.js'), 'utf8').match(/"files":(\[.*?\])/)[1]).map(({ path }) => path).concat('sw.js');
  const groups = {
    'page': /\.(html|css|webmanifest|ico|png)$/, 'JS': /\.js$/, 'WASM': /\.wasm$/, 'faces and content': /\.bin$/,
  };
  for (const [name, pattern] of Object.entries(groups)) {
    console.log(`${name.padEnd(18)} ${wires(app, kept.filter((path) => pattern.test(path))).toLocaleString('en-US').padStart(8)} bytes`);
  }
  const code = wires(app, kept.filter((path) => /\.(js|wasm)$/.test(path)));
  const hello = wires(join(root, benchPages), ['boot.js', 'hello.wasm']);
  const kb = (bytes) => bytes / 1024;
  return [
    row({ what: 'download: page, code, fonts, all content in both languages', ours: kb(wires(app, kept)), unit: 'KB', most: 400 }),
    row({ what: 'of it code', ours: kb(code), unit: 'KB', baseline: kb(hello), of: 'hello page', most: 1.5, by: 'ratio' }),
  ];
}
