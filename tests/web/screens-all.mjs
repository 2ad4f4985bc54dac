// Makes the contact sheets of assets/screens/review, for people to look at: node tests/web/screens-all.mjs
// Every screen and panel (tour.mjs) at four sizes, light and dark, in both languages: a sheet for each of these, the
// screens in the order of a visit.
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { root } from './browser.mjs';
import { readPng, writePng } from './png.mjs';
import { tour } from './tour.mjs';
import { setUp } from './visit.mjs';

const SIZES = [[320, 568], [390, 844], [844, 390], [1024, 1366]];
const LOCALES = { en: 'en-US', es: 'es-MX' };
const THEMES = ['light', 'dark'];
const AREA = 60000;   // pixels of one screen on a sheet
const WIDEST = 1700;  // of a sheet
const GAP = 6;
const GAP_COLOR = 0x808080;
const COLORS = 16;
const MOST_BYTES = 1.5 * 1024 * 1024;  // of all sheets
const folder = join(root, 'assets/screens/review');

// Each pixel the mean of those it stands for.
function shrink({ width, height, pixels }) {
  const by = Math.sqrt((width * height) / AREA);
  const small = { width: Math.round(width / by), height: Math.round(height / by) };
  small.pixels = new Uint32Array(small.width * small.height);
  for (let y = 0; y < small.height; ++y) {
    const [top, bottom] = [y, y + 1].map((edge) => Math.floor((edge * height) / small.height));
    for (let x = 0; x < small.width; ++x) {
      const [left, right] = [x, x + 1].map((edge) => Math.floor((edge * width) / small.width));
      const sum = [0, 0, 0];
      for (let row = top; row < bottom; ++row) {
        for (let column = left; column < right; ++column) {
          const pixel = pixels[row * width + column];
          sum[0] += pixel >> 16;
          sum[1] += (pixel >> 8) & 255;
          sum[2] += pixel & 255;
        }
      }
      const [red, green, blue] = sum.map((part) => Math.round(part / ((bottom - top) * (right - left))));
      small.pixels[y * small.width + x] = (red << 16) | (green << 8) | blue;
    }
  }
  return small;
}

function sheetOf(images) {
  const [{ width, height }] = images;
  const columns = Math.floor((WIDEST - GAP) / (width + GAP));
  const sheet = { width: columns * (width + GAP) + GAP, height: Math.ceil(images.length / columns) * (height + GAP) + GAP };
  sheet.pixels = new Uint32Array(sheet.width * sheet.height).fill(GAP_COLOR);
  for (const [i, { pixels }] of images.entries()) {
    const left = GAP + (i % columns) * (width + GAP);
    const top = GAP + Math.floor(i / columns) * (height + GAP);
    for (let y = 0; y < height; ++y) sheet.pixels.set(pixels.subarray(y * width, (y + 1) * width), (top + y) * sheet.width + left);
  }
  return sheet;
}

await mkdir(folder, { recursive: true });
let bytes = 0;
for (const [language, locale] of Object.entries(LOCALES)) {
  const sheets = new Map();  // file name -> its screens
  const s = await setUp({ minutesAgo: -2, phone: { locale, reducedMotion: 'reduce' } });
  try {
    for await (const name of tour(s, { language })) {
      for (const colorScheme of THEMES) {
        await s.page.emulateMedia({ colorScheme });
        for (const [width, height] of SIZES) {
          await s.page.setViewportSize({ width, height });
          await s.lead.settled();
          const file = `${width}x${height}-${language}-${colorScheme}.png`;
          sheets.set(file, [...sheets.get(file) ?? [], shrink(readPng(await s.page.screenshot()))]);
        }
      }
      console.log(language, name);
    }
  } finally {
    await s.tearDown();
  }
  for (const [file, images] of sheets) {
    const png = writePng(sheetOf(images), COLORS);
    bytes += png.length;
    await writeFile(join(folder, file), png);
  }
}
console.log(`${Math.round(bytes / 1024)} KB`);
if (bytes > MOST_BYTES) throw new Error('that is more than there should be');
