// How files get into a folder that a collector serves: scripts short, a list of what a phone keeps in sw.js, a .br and a
// .gz beside each file that gains from it. Writes only what changed and removes what no longer belongs.
//
// In sw.js the text __PRECACHE__ becomes {"revision": id, "files": [{"path", "sha256"}, ...]}: what a
// phone keeps for use without a network. The id changes when any of those files does.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, extname, join, relative } from 'node:path';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';

const compressible = new Set(['.bin', '.css', '.html', '.js', '.json', '.ttf', '.txt', '.wasm', '.webmanifest']);

const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

export function filesUnder(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name))).sort();
}

/** The script in `file` with all that it imports, in short names and without white space. `options`: esbuild's. */
export function shortScript(file, ...options) {
  return execFileSync('esbuild', [file, '--bundle', '--minify', '--charset=utf8', '--legal-comments=none', '--log-level=error', ...options]);
}

/** `files` (path -> bytes) in one file, as wasm/load.js reads it: the length of the head in four bytes, little-endian; the
 *  head, [[path, size], ...] in JSON; then the files, one after the other. */
export function packed(files) {
  const head = Buffer.from(JSON.stringify([...files].map(([path, bytes]) => [path, bytes.length])));
  const length = Buffer.alloc(4);
  length.writeUInt32LE(head.length);
  return Buffer.concat([length, head, ...files.values()]);
}

/** Puts the list of the kept `files` into their sw.js. */
export function insertPrecache(files) {
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

/** Fills `target` with `files`, path -> {bytes, kept: whether a phone keeps it}. Returns the bytes that a phone that
 *  understands brotli downloads to keep them. */
export function stage(target, files) {
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
  return wire;
}
