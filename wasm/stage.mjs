// Fills build/web: what the collector serves, and nothing else.
import { existsSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { filesUnder, shortScript, stage } from './staging.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));

// The page's scripts: [file, how esbuild is to make it short]. What they import is put into them.
const scripts = [
  ['wasm/boot.js', '--format=esm', '--external:./trowelbell.js'],
  ['build/web-obj/page/trowelbell.js', '--format=esm'],
  ['wasm/store-worker.js', '--format=esm'],
  ['wasm/sw.js', '--format=iife'],
];
// [folder, files of it, where they go, whether the phone keeps them]
const sources = [
  ['wasm', /^[^/]*\.(html|css|webmanifest)$|^too-old\.js$/, '', true],
  ['build/web-obj/page', /^trowelbell\.wasm$/, '', true],
  ['build/fonts', /\.ttf$/, 'fonts', true],
  ['assets/icons', /^icon\.svg$/, 'icons', true],
  ['assets/icons', /^(?!icon\.svg$).*\.(svg|png)$/, 'icons', false],  // for home screens, which keep them themselves
  ['content', /^(?!schema\/|demo\/).*\.json$/, 'content', false],  // kept together, below
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
  const add = (path, bytes, kept) => {
    if (files.has(path)) throw new Error(`two files want to be ${path} in build/web`);
    files.set(path, { bytes, kept });
  };
  for (const [file, ...options] of scripts) add(file.split('/').at(-1), shortScript(join(root, file), ...options), true);
  for (const [folder, pattern, into, kept] of sources) {
    for (const name of filesUnder(join(root, folder)).filter((path) => pattern.test(path))) {
      add(join(into, name), shortened(name, readFileSync(join(root, folder, name))), kept);
    }
  }
  const content = [...files].filter(([path]) => path.startsWith('content/')).map(([path, { bytes }]) => [path, bytes.toString()]);
  add('content.json', Buffer.from(JSON.stringify(Object.fromEntries(content))), true);
  const texts = licences.filter(([, path]) => existsSync(path))
    .map(([name, path]) => `${name}\n${'='.repeat(name.length)}\n\n${readFileSync(path, 'utf8').trim()}\n`);
  add('licences.txt', Buffer.from(texts.join('\n\n')), false);
  return files;
}

const files = gather();
const wire = stage(join(root, 'build/web'), files);
console.log(`build/web: ${files.size} files; what a phone downloads: ${Math.round(wire / 1024)} KB`);
