// Starts the page: has a worker fetch and read what the first frame needs, makes the graphics meanwhile, then hands over to
// C++.
import createTrowelbell from '../build/web-obj/page/trowelbell.js';
import { Ahead } from './ahead.js';
import { Helper } from './helper.js';
import { createHost } from './host.js';
import { load, unpack } from './load.js';
import { keepForOffline } from './offline.js';
import { listen, takeFragment } from './page-events.js';
import { Store } from './store.js';

const FACES = ['fonts/trowelbell-text-regular.ttf', 'fonts/trowelbell-text-bold.ttf'];
// Those that SDL2 will ask for (src/host/web/screen.cpp): it is given the context that is there.
const GRAPHICS = { alpha: false, antialias: false, depth: false, stencil: false };
const canvas = document.getElementById('canvas');

// One of the sentences of index.html, in place of the splash's.
function tell(id) {
  document.getElementById('splash').hidden = false;
  for (const words of document.querySelectorAll('#splash > *')) words.hidden = words.id !== id;
}

// The text fields of the mirror are set in the same faces.
function giveFacesToPage(faces) {
  faces.forEach((bytes, index) => {
    document.fonts.add(new FontFace('Trowelbell Text', bytes, { weight: index === 0 ? '400' : '700' }));
  });
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

// Before SDL2, while the worker works. In the size that it will have: making it another means making it anew.
function makeGraphics() {
  const { clientWidth, clientHeight } = canvas;  // both at once: a new width lays out the page anew
  canvas.width = Math.floor(clientWidth * devicePixelRatio);
  canvas.height = Math.floor(clientHeight * devicePixelRatio);
  canvas.getContext('webgl2', GRAPHICS);
}

// Not in index.html: a browser that has it makes its icons with the page's own thread, before the first frame.
function linkManifest() {
  document.head.append(Object.assign(document.createElement('link'), { rel: 'manifest', href: 'app.webmanifest' }));
}

async function start() {
  if (!globalThis.WebAssembly || !globalThis.WebGL2RenderingContext) return tell('too-old');
  const helper = new Helper();
  const store = new Store(helper);
  const loading = helper.call('load').catch(load);
  const ahead = new Ahead(store, !location.hash);
  await helper.begun;
  makeGraphics();
  const { code, pack } = await loading;
  const files = unpack(pack);
  const faces = FACES.map((path) => files.get(path));
  const page = createHost({ files, faces, ahead });
  const module = await createTrowelbell({
    canvas, host: page.host,
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(code, imports).then((instance) => done(instance, code));
      return {};
    },
    onAbort: () => tell('trouble'),
  });
  addEventListener('error', ({ error }) => { if (error instanceof WebAssembly.RuntimeError) tell('trouble'); });
  page.attach(module);
  page.drawn.then(() => {
    canvas.classList.remove('waits');
    document.getElementById('splash').hidden = true;
    setTimeout(() => {
      page.call('make_room');
      giveFacesToPage(faces);
      linkManifest();
      keepForOffline();
    });
  });
  reloadOnLostGraphics();
  listen(page);
  if (!page.call('open', takeFragment())) return tell('too-old');
}

document.getElementById('again').addEventListener('click', () => location.reload());
document.getElementById('again-es').addEventListener('click', () => location.reload());
start().catch((error) => {
  console.error(error);
  tell('trouble');
});
