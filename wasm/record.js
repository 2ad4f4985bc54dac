// How a record lies in a stream's file: a header of three little-endian numbers, then the text in UTF-8.
//
//   bytes 0..3   length of the text in bytes
//   bytes 4..7   sequence number, from 1
//   bytes 8..11  CRC-32 of the eight bytes before it and the text (the CRC of ISO 3309 and zip)
//
// A write that was cut off leaves a record whose CRC does not match: `scan` stops there.

const HEADER = 12;
// An outbox record holds a report of 64 KiB as text within text.
export const LONGEST_RECORD = 256 * 1024;

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  for (let bit = 0; bit < 8; ++bit) byte = byte & 1 ? 0xEDB88320 ^ (byte >>> 1) : byte >>> 1;
  return byte;
});

/** CRC-32 over the given pieces of bytes, one after the other. */
export function crc32(...pieces) {
  let crc = 0xFFFFFFFF;
  for (const bytes of pieces) for (const byte of bytes) crc = table[(crc ^ byte) & 0xFF] ^ (crc >>> 8);
  return (crc ^ 0xFFFFFFFF) >>> 0;
}

/** [{seq, text}] as bytes. */
export function encode(records) {
  const texts = records.map(({ text }) => new TextEncoder().encode(text));
  const bytes = new Uint8Array(texts.reduce((sum, text) => sum + HEADER + text.length, 0));
  const view = new DataView(bytes.buffer);
  let at = 0;
  texts.forEach((text, i) => {
    view.setUint32(at, text.length, true);
    view.setUint32(at + 4, records[i].seq, true);
    view.setUint32(at + 8, crc32(bytes.subarray(at, at + 8), text), true);
    bytes.set(text, at + HEADER);
    at += HEADER + text.length;
  });
  return bytes;
}

/** The good records at the beginning of `bytes`, and where they end. */
export function scan(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const records = [];
  let end = 0;
  while (end + HEADER <= bytes.length) {
    const length = view.getUint32(end, true);
    const seq = view.getUint32(end + 4, true);
    const next = end + HEADER + length;
    if (length > LONGEST_RECORD || seq === 0 || next > bytes.length) break;
    const text = bytes.subarray(end + HEADER, next);
    if (view.getUint32(end + 8, true) !== crc32(bytes.subarray(end, end + 8), text)) break;
    records.push({ seq, text: new TextDecoder().decode(text) });
    end = next;
  }
  return { records, end };
}
