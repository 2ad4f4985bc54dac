// Fills build/web: what the collector serves, and nothing else.
import { existsSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { filesUnder, packed, shortScript, stage } from './staging.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));

// The page's scripts: [file, how esbuild is to make it short]. What they import is put into them.
const scripts = [
  ['wasm/boot.js', '--format=esm'],
  ['wasm/worker.js', '--format=esm'],
  ['wasm/sw.js', '--format=iife'],
];
const IN_PACK = 'in the pack';  // kept, too, but all in one file
// [folder, files of it, where they go, whether the phone keeps them]
const sources = [
  ['wasm', /^[^/]*\.(html|css|webmanifest)$|^too-old\.js$/, '', true],
  ['build/web-obj/page', /^trowelbell\.wasm$/, '', true],
  ['build/fonts', /\.ttf$/, 'fonts', IN_PACK],
  ['assets/icons', /\.ico$/, '', true],
  ['assets/icons', /^icon-180\.png$/, 'icons', true],  // browsers ask for it each time
  ['assets/icons', /512\.png$/, 'icons', false],  // for home screens, which keep them themselves
  ['content', /^(?!schema\/|demo\/).*\.json$/, 'content', IN_PACK],
  ['src/collector/pages', /\.(html|js|css)$/, '', false],
];

// Other people's work in the page, each with where its licence stands on the building machine.
const imgui = process.env.IMGUI_DIR ?? join(root, 'build/sources/imgui');
const sdl2 = process.env.SDL2_DIR ?? join(root, 'build/sources/sdl2');
const qrcodegen = process.env.QRCODEGEN_DIR ?? join(root, 'build/sources/qrcodegen');
const licences = [
  ['Dear ImGui', join(imgui, 'LICENSE.txt')],
  ['SDL2', join(sdl2, 'LICENSE.txt')],
  ['QR Code generator', join(qrcodegen, 'Readme.markdown')],
  ['JSON for Modern C++', '/usr/share/doc/nlohmann-json3-dev/copyright'],
  ['Emscripten and its C library', '/usr/share/doc/emscripten/copyright'],
  ['Andika, the face that Trowelbell Text is cut from', '/usr/share/doc/fonts-sil-andika/copyright'],
];

// White space between the parts of a document is for those who write it.
const shortened = (name, bytes) => (extname(name) === '.json' ? Buffer.from(JSON.stringify(JSON.parse(bytes))) : bytes);

function gather() {
  const files = new Map();
  const pack = new Map();
  const add = (path, bytes, kept) => {
    if (files.has(path)) throw new Error(`two files want to be ${path} in build/web`);
    files.set(path, { bytes, kept });
  };
  for (const [file, ...options] of scripts) add(file.split('/').at(-1), shortScript(join(root, file), ...options), true);
  for (const [folder, pattern, into, kept] of sources) {
    for (const name of filesUnder(join(root, folder)).filter((path) => pattern.test(path))) {
      const [path, bytes] = [join(into, name), shortened(name, readFileSync(join(root, folder, name)))];
      add(path, bytes, kept === true);
      if (kept === IN_PACK) pack.set(path, bytes);
    }
  }
  add('pack.bin', packed(pack), true);
  const texts = licences.filter(([, path]) => existsSync(path))
    .map(([name, path]) => `${name}\n${'='.repeat(name.length)}\n\n${readFileSync(path, 'utf8').trim()}\n`);
  add('licences.txt', Buffer.from(texts.join('\n\n')), false);
  return files;
}

const files = gather();
const wire = stage(join(root, 'build/web'), files);
console.log(`build/web: ${files.size} files; what a phone downloads: ${Math.round(wire / 1024)} KB`);
