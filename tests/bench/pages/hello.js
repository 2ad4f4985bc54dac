// Starts hello.cpp the way boot.js starts the app: all it needs at once, and kept for use without a network.
import createHello from '../../../build/web-obj/bench/hello.js';

const font = async () => new Uint8Array(await (await fetch('fonts/trowelbell-text-regular.ttf')).arrayBuffer());
const [bytes, compiled] = await Promise.all([font(), WebAssembly.compileStreaming(fetch('hello.wasm'))]);
await createHello({
  canvas: document.getElementById('canvas'),
  font: bytes,
  drawn: () => globalThis.drawn?.(),
  instantiateWasm(imports, done) {
    WebAssembly.instantiate(compiled, imports).then((instance) => done(instance, compiled));
    return {};
  },
});
navigator.serviceWorker?.register('sw.js', { updateViaCache: 'none' });
