// What the first frame needs beside the page's scripts: the code, compiled, and everything else in one file, for each
// request takes the page's thread and the service worker some time.

const CODE = 'trowelbell.wasm';
const PACK = 'pack.bin';

async function compile() {
  try {
    return await WebAssembly.compileStreaming(fetch(CODE));
  } catch {  // a server that does not call it application/wasm
    return WebAssembly.compile(await (await fetch(CODE)).arrayBuffer());
  }
}

async function fetchPack() {
  const response = await fetch(PACK);
  if (!response.ok) throw new Error(`${PACK}: ${response.status}`);
  return response.arrayBuffer();
}

/** {code: a WebAssembly.Module, pack: an ArrayBuffer}. */
export async function load() {
  const [code, pack] = await Promise.all([compile(), fetchPack()]);
  return { code, pack };
}

/** The files of a pack (wasm/staging.mjs makes it): path -> Uint8Array. */
export function unpack(pack) {
  const head = 4 + new DataView(pack).getUint32(0, true);
  const files = new Map();
  let at = head;
  for (const [path, size] of JSON.parse(new TextDecoder().decode(new Uint8Array(pack, 4, head - 4)))) {
    files.set(path, new Uint8Array(pack, at, size));
    at += size;
  }
  return files;
}
