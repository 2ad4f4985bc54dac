// Breaks the page's store and its service worker on purpose, one fault at a time, in a copy of the sources
// (build/mutants-page), and shows which tests notice. Status 1 if one goes unnoticed. Wants build/web.
//
//   node tests/fault/browser/mutants.mjs [PATTERN]   only those whose name matches
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { shortScript } from '../../../wasm/staging.mjs';
import { root } from '../../web/browser.mjs';

const tree = join(root, 'build/mutants-page');
const LONGEST_MS = 300000;

const store = 'tests/web/store.test.mjs';
const kills = ['tests/web/fault.test.mjs', 'killed'];
const updates = ['tests/web/fault.test.mjs', 'update'];
// [name, file, what is there, what is put in its place, where it should be noticed: [file of tests, pattern of names]]
const mutants = [
  ['the flush left out', 'wasm/stream-files.js', '    await file.handle.flush();\n    file.end', '    file.end', ['tests/web/power_cut.test.mjs'], [store]],
  ['the second copy left out', 'wasm/store.js', 'state.copy ? this.copy.append', 'false ? this.copy.append', [store]],
  ['the witness left out', 'wasm/store.js', 'localStorage.setItem(this.key(stream), `${last} ${count}`);', '', [store]],
  ['acknowledged before the file answers', 'wasm/store.js', 'if (!await filed) {', 'if (filed === false) {', kills, [store]],
  ['an emptied database not noticed', 'wasm/store-copy.js', 'this.isNew = true;', '', ['tests/web/store_engines.test.mjs', 'Chromium']],
  ['a file taken without a look at its digest', 'wasm/sw.js', ' || !(await sha256(bytes)).startsWith(expected)', '', updates],
  ['what is there of a broken update kept', 'wasm/sw.js', 'await caches.delete(CACHE);\n    throw error;', 'throw error;', updates],
  ['a broken update taken', 'wasm/sw.js', 'await caches.delete(CACHE);\n    throw error;', '', updates],
  ['a newer version taken at once', 'wasm/sw.js', 'event.waitUntil(install())', 'event.waitUntil(install().then(() => skipWaiting()))', updates],
];

function makeTree() {
  rmSync(tree, { recursive: true, force: true });
  mkdirSync(join(tree, 'build'), { recursive: true });
  const files = execFileSync('git', ['ls-files', 'wasm', 'tests/web', 'tests/fault/browser'], { cwd: root, encoding: 'utf8' });
  for (const file of files.trim().split('\n')) cpSync(join(root, file), join(tree, file));
  cpSync(join(root, 'build/web'), join(tree, 'build/web'), { recursive: true });
  for (const same of ['build/native', 'content', 'tests/web/node_modules']) symlinkSync(join(root, same), join(tree, same));
}

// The worker of build/web made anew from its source, with the list that it has.
function makeWorker() {
  const path = join(tree, 'build/web/sw.js');
  const list = readFileSync(path, 'utf8').match(/\{"revision":.*?\]\}/)[0];
  const made = shortScript(join(tree, 'wasm/sw.js'), '--format=iife').toString();
  writeFileSync(path, made.replace('__PRECACHE__', () => list));
}

/** The names of the tests that are red. */
function redOf([file, pattern]) {
  const words = ['--test', '--test-reporter=tap', ...(pattern ? [`--test-name-pattern=${pattern}`] : []), join(tree, file)];
  const { stdout } = spawnSync(process.execPath, words, { cwd: tree, encoding: 'utf8', timeout: LONGEST_MS });
  const names = [...stdout.matchAll(/^ *not ok \d+ - (.*)$/gm)].map(([, name]) => name.replace(/ # .*/, ''));
  return names.filter((name) => !name.startsWith('the store') && !name.startsWith(tree));
}

const pattern = new RegExp(process.argv[2] ?? '.');
let unnoticed = 0;
for (const [name, file, from, to, ...places] of mutants) {
  if (!pattern.test(name)) continue;
  makeTree();
  const path = join(tree, file);
  const text = readFileSync(path, 'utf8');
  console.log(`\n${name}`);
  if (!text.includes(from)) {
    console.log('  the source has changed: mend this mutant');
    ++unnoticed;
    continue;
  }
  writeFileSync(path, text.replace(from, () => to));
  makeWorker();
  const red = places.map(redOf);
  places.forEach(([where], i) => {
    for (const test of red[i]) console.log(`  red: ${test}`);
    if (red[i].length === 0) console.log(`  ${where} does not notice it`);
  });
  if (red[0].length === 0) ++unnoticed;
}
console.log(`\n${unnoticed} unnoticed`);
process.exitCode = unnoticed > 0 ? 1 : 0;
