// Starts the page: fetches what the first frame needs, all at once, then hands over to C++.
import { Ahead } from './ahead.js';
import { createHost } from './host.js';
import { keepForOffline } from './offline.js';
import { listen, takeFragment } from './page-events.js';
import { Store } from './store.js';

const FACES = ['fonts/trowelbell-text-regular.ttf', 'fonts/trowelbell-text-bold.ttf'];
const canvas = document.getElementById('canvas');

// One of the sentences of index.html, in place of the splash's.
function tell(id) {
  document.getElementById('splash').hidden = false;
  for (const words of document.querySelectorAll('#splash > *')) words.hidden = words.id !== id;
}

async function fetchFace(path) {
  const response = await fetch(path);
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return new Uint8Array(await response.arrayBuffer());
}

// The text fields of the mirror are set in the same faces.
function giveFacesToPage(faces) {
  faces.forEach((bytes, index) => {
    document.fonts.add(new FontFace('Trowelbell Text', bytes, { weight: index === 0 ? '400' : '700' }));
  });
}

async function compile() {
  const response = fetch('trowelbell.wasm');
  try {
    return await WebAssembly.compileStreaming(response);
  } catch {  // a server that does not call it application/wasm
    return WebAssembly.compile(await (await fetch('trowelbell.wasm')).arrayBuffer());
  }
}

// A phone takes the graphics away from pages in the background. What happened is in the journal: begin again.
function reloadOnLostGraphics() {
  const KEY = 'trowelbell.reloaded';
  const SHORTEST_LIFE_MS = 20000;
  canvas.addEventListener('webglcontextlost', (event) => {
    event.preventDefault();
    tell('graphics-lost');
    if (Date.now() - Number(sessionStorage.getItem(KEY)) < SHORTEST_LIFE_MS) return;  // the person decides
    const reload = () => {
      if (document.hidden) return;
      sessionStorage.setItem(KEY, Date.now());
      location.reload();
    };
    document.addEventListener('visibilitychange', reload);
    setTimeout(reload, 500);
  });
}

async function start() {
  if (!globalThis.WebAssembly || !globalThis.WebGL2RenderingContext) return tell('too-old');
  const store = new Store();
  const ahead = new Ahead(store, !location.hash);
  const [fonts, compiled, { default: createTrowelbell }] = await Promise.all([
    Promise.all(FACES.map(fetchFace)), compile(), import('./trowelbell.js'),
  ]);
  const firstFrame = () => {
    document.getElementById('splash').hidden = true;
    setTimeout(giveFacesToPage, 0, fonts);
  };
  const page = createHost({ fonts, store, ahead, firstFrame });
  const module = await createTrowelbell({
    canvas, host: page.host,
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(compiled, imports).then((instance) => done(instance, compiled));
      return {};
    },
    onAbort: () => tell('trouble'),
  });
  addEventListener('error', ({ error }) => { if (error instanceof WebAssembly.RuntimeError) tell('trouble'); });
  page.attach(module);
  reloadOnLostGraphics();
  await ahead.answered();  // the graphics were made meanwhile
  listen(page);
  if (!page.call('open', takeFragment())) return tell('too-old');
  keepForOffline();
}

document.getElementById('again').addEventListener('click', () => location.reload());
document.getElementById('again-es').addEventListener('click', () => location.reload());
start().catch((error) => {
  console.error(error);
  tell('trouble');
});
