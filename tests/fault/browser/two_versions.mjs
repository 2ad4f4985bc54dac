// build/web and a second version of it in which every file that a phone keeps is another, behind a server that can break
// any answer.
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join } from 'node:path';
import { filesUnder, insertPrecache } from '../../../wasm/staging.mjs';
import { root } from '../../web/browser.mjs';

const web = join(root, 'build/web');
const types = {
  '.bin': 'application/octet-stream', '.css': 'text/css', '.html': 'text/html; charset=utf-8', '.ico': 'image/x-icon',
  '.js': 'text/javascript', '.json': 'application/json', '.png': 'image/png', '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json',
};

// What can be added to a file of each kind without a change of what it does.
const additions = {
  '.bin': '2', '.css': '/* 2 */', '.html': '<!-- 2 -->', '.ico': '2', '.js': '\n// 2\n', '.png': '2', '.wasm': '\0\x02\x012',
  '.webmanifest': ' ',
};

/** The site, `second` or as it was built: {files: path -> bytes, kept: path -> SHA-256 in hex digits}. */
export function version(second) {
  const files = new Map(filesUnder(web).filter((path) => !/\.(br|gz)$/.test(path))
    .map((path) => [path, { bytes: readFileSync(join(web, path)), kept: false }]));
  const worker = files.get('sw.js');
  const list = worker.bytes.toString().match(/\{"revision":.*?\]\}/)[0];
  for (const { path } of JSON.parse(list).files) {
    const file = files.get(path);
    file.kept = true;
    if (second) file.bytes = Buffer.concat([file.bytes, Buffer.from(additions[extname(path)], 'latin1')]);
  }
  worker.bytes = Buffer.from(worker.bytes.toString().replace(list, '__PRECACHE__'));
  insertPrecache(files);
  return {
    files: new Map([...files].map(([path, { bytes }]) => [path, bytes])),
    kept: new Map([...files].filter(([, { kept }]) => kept)
      .map(([path, { bytes }]) => [path, createHash('sha256').update(bytes).digest('hex')])),
  };
}

// What may become of an answer. `old`: the file as the version before has it.
const faults = {
  cut: (response) => response.destroy(),
  gone: (response) => response.destroy(),  // and all that come after it
  half(response, { bytes, type }) {
    response.writeHead(200, { 'Content-Type': type, 'Content-Length': bytes.length });
    response.write(bytes.subarray(0, bytes.length >> 1), () => response.destroy());
  },
  short: (response, { bytes, type }) => response.writeHead(200, { 'Content-Type': type }).end(bytes.subarray(0, bytes.length >> 1)),
  error: (response) => response.writeHead(503, { 'Retry-After': '1' }).end(),
  stranger: (response) => response.writeHead(200, { 'Content-Type': 'text/html' }).end('<!doctype html><title>Sign in to this network</title>'),
  old: (response, { old, type }) => response.writeHead(200, { 'Content-Type': type }).end(old),
};
export const kinds = Object.keys(faults);

/** {url(name), serve(newer, older), fault(kind, n), well(), offline(), close()}: `newer` is served at every origin. `fault`
 *  breaks the answer for the n-th file asked for from now on, each time it is asked for; `well` ends that and tells whether
 *  it came to it. An empty page, which no fault touches, is at /empty. */
export async function serveVersions() {
  let newer, older, kind, at, asked, broke;
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url, 'http://x');
    const path = pathname === '/' ? 'index.html' : pathname.slice(1);
    if (path === 'empty') return response.writeHead(200, { 'Content-Type': 'text/html' }).end('<!doctype html><title>empty</title>');
    if (kind === 'offline') return response.destroy();
    const bytes = newer.files.get(path);
    if (!bytes) return response.writeHead(404).end();
    asked.add(path);
    const type = types[extname(path)] ?? 'application/octet-stream';
    const place = [...asked].indexOf(path) + 1;
    if (kind && (place === at || (kind === 'gone' && place > at))) {
      broke = true;
      return faults[kind](response, { bytes, type, old: older.files.get(path) });
    }
    response.writeHead(200, { 'Content-Type': type, 'Cache-Control': 'no-cache' }).end(bytes);
  }).listen(0, '127.0.0.1');
  server.keepAliveTimeout = 600000;  // no fault but those that are asked for
  await once(server, 'listening');
  const { port } = server.address();
  const set = (newKind, n) => { [kind, at, asked, broke] = [newKind, n, new Set(), false]; };
  set();
  return {
    url: (name) => `http://${name}.localhost:${port}/`,
    serve(newest, before) { [newer, older] = [newest, before]; },
    fault: set,
    well() {
      const did = broke;
      set();
      return did;
    },
    offline: () => set('offline'),
    close() {
      server.close();
      server.closeAllConnections();
    },
  };
}
