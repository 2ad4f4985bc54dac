// Keeps the page on the phone, so that it opens without a network. All its files are one revision, listed when the page
// is built (wasm/stage.mjs): {revision, files: [{path, sha256: the first digits}]}. They are fetched all or not at all.
import { sha256 } from './net.js';
import { sendOutbox } from './sync.js';

const { revision, files } = __PRECACHE__;

const PREFIX = 'trowelbell-';
const CACHE = PREFIX + revision;
const home = new URL('./', registration.scope);
const kept = new Set(files.map(({ path }) => new URL(path, home).href));

// Past the browser's own cache, which may hold the file of another revision.
async function keep(cache, { path, sha256: expected }) {
  const response = await fetch(new URL(path, home), { cache: 'reload', credentials: 'omit' });
  const bytes = await response.arrayBuffer();
  if (!response.ok || !(await sha256(bytes)).startsWith(expected)) {
    throw new Error(`${path} is not of this revision (${response.status})`);
  }
  // Made anew, because a page may not begin with an answer that was redirected.
  await cache.put(new URL(path, home), new Response(bytes, { headers: response.headers }));
}

async function install() {
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(files.map((file) => keep(cache, file)));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
  await clients.claim();  // so that the first opening already has it
}

async function answer(request, url) {
  const cache = await caches.open(CACHE);
  return await cache.match(url, { ignoreSearch: true }) ?? fetch(request);
}

// A newer version waits until no page is left that has this one (the browser's own rule), so that nothing changes in the
// middle of a visit.
addEventListener('install', (event) => event.waitUntil(install()));
addEventListener('activate', (event) => event.waitUntil(activate()));

// A page that is seen sends by itself and keeps to its pauses. One in the background may be frozen: it hears of what was
// sent, sends the same again and records the answer.
async function sendWhatWaits() {
  const pages = await clients.matchAll({ type: 'window' });
  if (pages.some(({ visibilityState }) => visibilityState === 'visible')) return;
  await sendOutbox();
  for (const page of pages) page.postMessage('send');
}

addEventListener('sync', (event) => {
  if (event.tag === 'trowelbell-outbox') event.waitUntil(sendWhatWaits());
});

addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== home.origin) return;
  url.search = '';
  url.hash = '';
  // Only the page itself: the collector's pages and its interface are of the network.
  if (url.href === home.href) url.pathname += 'index.html';
  if (kept.has(url.href)) event.respondWith(answer(request, url));
});
