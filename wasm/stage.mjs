// Fills build/web: what the collector serves, and nothing else. Writes only what changed, puts a .br
// and a .gz beside each file that gains from it, and removes what no longer belongs.
//
// In sw.js the text __PRECACHE__ becomes {"revision": id, "files": [{"path", "sha256"}, ...]}: what a
// phone keeps for use without a network. The id changes when any of those files does.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, extname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';

const root = fileURLToPath(new URL('..', import.meta.url));
const target = join(root, 'build/web');
const compressible = new Set(['.css', '.html', '.js', '.json', '.svg', '.ttf', '.txt', '.wasm', '.webmanifest']);

// [folder, files of it, where they go, whether the phone keeps them]
const sources = [
  ['wasm', /^[^/]*\.(html|js|css|webmanifest)$/, '', true],
  ['build/web-obj/page', /^trowelbell\.(js|wasm)$/, '', true],
  ['build/fonts', /\.ttf$/, 'fonts', true],
  ['assets/icons', /\.(svg|png)$/, 'icons', true],
  ['content', /^(?!schema\/|demo\/).*\.json$/, 'content', true],
  ['src/collector/pages', /\.(html|js|css)$/, '', false],
];

// Other people's work in the page, each with where its licence stands on the building machine.
const imgui = process.env.IMGUI_DIR ?? join(root, 'build/sources/imgui');
const sdl2 = process.env.SDL2_DIR ?? join(root, 'build/sources/sdl2');
const licences = [
  ['Dear ImGui', join(imgui, 'LICENSE.txt')],
  ['SDL2', join(sdl2, 'LICENSE.txt')],
  ['JSON for Modern C++', '/usr/share/doc/nlohmann-json3-dev/copyright'],
  ['Emscripten and its C library', '/usr/share/doc/emscripten/copyright'],
  ['Andika, the face that Trowelbell Text is cut from', '/usr/share/doc/fonts-sil-andika/copyright'],
];

function filesUnder(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name))).sort();
}

const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

function gather() {
  const files = new Map();  // path in build/web -> { bytes, kept }
  for (const [folder, pattern, into, kept] of sources) {
    for (const name of filesUnder(join(root, folder)).filter((path) => pattern.test(path))) {
      const path = join(into, name);
      if (files.has(path)) throw new Error(`two files want to be ${path} in build/web`);
      files.set(path, { bytes: readFileSync(join(root, folder, name)), kept });
    }
  }
  const texts = licences.filter(([, path]) => existsSync(path))
    .map(([name, path]) => `${name}\n${'='.repeat(name.length)}\n\n${readFileSync(path, 'utf8').trim()}\n`);
  files.set('licences.txt', { bytes: Buffer.from(texts.join('\n\n')), kept: false });
  return files;
}

function insertPrecache(files) {
  const worker = files.get('sw.js');
  if (!worker) return;
  worker.kept = false;  // the browser keeps the worker itself
  const kept = [...files].filter(([, file]) => file.kept)
    .map(([path, { bytes }]) => ({ path, sha256: sha256(bytes).slice(0, 16) }));
  const text = worker.bytes.toString();
  const revision = sha256(JSON.stringify(kept) + text).slice(0, 16);
  if (!text.includes('__PRECACHE__')) throw new Error('wasm/sw.js does not say where __PRECACHE__ goes');
  worker.bytes = Buffer.from(text.replace('__PRECACHE__', () => JSON.stringify({ revision, files: kept })));
}

// The short forms of a file that gains from them: [how its name ends, how it is made].
const shortForms = [
  ['.br', (bytes) => brotliCompressSync(bytes, { params: {
    [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } })],
  ['.gz', (bytes) => gzipSync(bytes, { level: 9 })],
];

// Writes `path` and its short forms, and returns all their paths, the shortest form first. The file
// itself comes last, so that a run cut off half-way is made good by the next.
function put(path, bytes) {
  const changed = !existsSync(path) || !readFileSync(path).equals(bytes);
  const paths = [];
  mkdirSync(dirname(path), { recursive: true });
  if (compressible.has(extname(path)) && bytes.length > 256) {
    for (const [ending, shorten] of shortForms) {
      if (changed || !existsSync(path + ending)) writeFileSync(path + ending, shorten(bytes));
      paths.push(path + ending);
    }
  }
  if (changed) writeFileSync(path, bytes);
  return [...paths, path];
}

const files = gather();
insertPrecache(files);
const belongs = new Set();
let wire = 0;
for (const [name, { bytes, kept }] of files) {
  const paths = put(join(target, name), bytes);
  for (const path of paths) belongs.add(path);
  if (kept) wire += statSync(paths[0]).size;
}
for (const name of filesUnder(target)) {
  if (!belongs.has(join(target, name))) rmSync(join(target, name));
}
console.log(`build/web: ${files.size} files; what a phone downloads: ${Math.round(wire / 1024)} KB`);
