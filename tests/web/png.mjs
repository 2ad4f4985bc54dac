// PNG (W3C Portable Network Graphics, third edition) as far as screenshots need it: 8 bits a channel, not interlaced, in;
// a palette, out.
import { deflateSync, inflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);

function crc32(bytes) {
  let sum = ~0;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; ++bit) sum = (sum >>> 1) ^ (sum & 1 && 0xEDB88320);
  }
  return ~sum >>> 0;
}

function* chunks(png) {
  for (let at = SIGNATURE.length; at < png.length;) {
    const length = png.readUInt32BE(at);
    yield { type: png.toString('latin1', at + 4, at + 8), data: png.subarray(at + 8, at + 8 + length) };
    at += 12 + length;
  }
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const around = Buffer.alloc(8);
  around.writeUInt32BE(data.length, 0);
  around.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([around.subarray(0, 4), body, around.subarray(4)]);
}

function paeth(left, up, corner) {
  const [a, b, c] = [left, up, corner].map((value) => Math.abs(left + up - corner - value));
  return a <= b && a <= c ? left : b <= c ? up : corner;
}

/** {width, height, pixels}: each pixel as 0xRRGGBB. */
export function readPng(png) {
  let header;
  const data = [];
  for (const { type, data: bytes } of chunks(png)) {
    if (type === 'IHDR') header = bytes;
    if (type === 'IDAT') data.push(bytes);
  }
  const [width, height] = [header.readUInt32BE(0), header.readUInt32BE(4)];
  const size = { 2: 3, 6: 4 }[header[9]];
  if (header[8] !== 8 || !size || header[12]) throw new Error('not a kind of PNG that is read here');
  const raw = inflateSync(Buffer.concat(data));
  const stride = width * size;
  const pixels = new Uint32Array(width * height);
  let above = Buffer.alloc(stride);
  for (let y = 0; y < height; ++y) {
    const filter = raw[y * (stride + 1)];
    const line = raw.subarray(y * (stride + 1) + 1, (y + 1) * (stride + 1));
    for (let i = 0; i < stride; ++i) {
      const left = i < size ? 0 : line[i - size];
      const corner = i < size ? 0 : above[i - size];
      const guess = [0, left, above[i], (left + above[i]) >> 1, filter === 4 ? paeth(left, above[i], corner) : 0][filter];
      line[i] = (line[i] + guess) & 255;
    }
    for (let x = 0; x < width; ++x) pixels[y * width + x] = line.readUIntBE(x * size, 3);
    above = line;
  }
  return { width, height, pixels };
}

const distance = (a, b) => [16, 8, 0].reduce((sum, shift) => sum + (((a >> shift) & 255) - ((b >> shift) & 255)) ** 2, 0);

/** A PNG of at most `most` (16 or 256) colours: the commonest, and for others the nearest of these. */
export function writePng({ width, height, pixels }, most) {
  const counts = new Map();
  for (const pixel of pixels) counts.set(pixel, (counts.get(pixel) ?? 0) + 1);
  // A colour close to one already chosen (the edges of letters) gives way to one that is new.
  const palette = [];
  const ranked = [...counts].sort((a, b) => b[1] - a[1]).map(([pixel]) => pixel);
  for (let apart = 2000; palette.length < Math.min(most, ranked.length); apart = apart > 60 ? apart >> 1 : 0) {
    for (const pixel of ranked) {
      if (palette.length === most) break;
      if (!palette.includes(pixel) && palette.every((chosen) => distance(chosen, pixel) >= apart)) palette.push(pixel);
    }
  }
  const index = new Map(ranked.map((pixel) => [pixel,
    palette.reduce((best, color, i) => (distance(color, pixel) < distance(palette[best], pixel) ? i : best), 0)]));
  const bits = most <= 16 ? 4 : 8;
  const stride = Math.ceil((width * bits) / 8);
  const raw = Buffer.alloc((stride + 1) * height);
  for (let y = 0; y < height; ++y) {
    for (let x = 0; x < width; ++x) {
      const at = y * (stride + 1) + 1 + ((x * bits) >> 3);
      raw[at] |= bits === 8 || x & 1 ? index.get(pixels[y * width + x]) : index.get(pixels[y * width + x]) << 4;
    }
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header[8] = bits;
  header[9] = 3;
  const colors = Buffer.from(palette.flatMap((color) => [color >> 16, (color >> 8) & 255, color & 255]));
  return Buffer.concat([SIGNATURE, chunk('IHDR', header), chunk('PLTE', colors),
    chunk('IDAT', deflateSync(raw, { level: 9, memLevel: 9 })), chunk('IEND', Buffer.alloc(0))]);
}
