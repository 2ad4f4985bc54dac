// The first copy of the store: a file for each stream in the origin's private file system. Only a worker may write to
// such a file and wait until it is on disk. Each stream's file is for one call at a time (worker.js).
import { encode, scan } from './record.js';

// The process of a page that was just closed may hold its files for a moment.
const RETRIES_MS = [20, 50, 100, 200, 400, 800];
const files = new Map();  // stream -> { handle, end }

async function openFile(stream) {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle('streams', { create: true });
  const file = await folder.getFileHandle(`${stream}.log`, { create: true });
  for (const ms of [...RETRIES_MS, -1]) {
    try {
      return await file.createSyncAccessHandle();
    } catch (error) {
      if (ms < 0) throw error;
      await new Promise((resolve) => { setTimeout(resolve, ms); });
    }
  }
}

/** The records of a stream, {seq, text} in the order they were written. */
export async function open(stream) {
  const handle = files.get(stream)?.handle ?? await openFile(stream);
  // Older browsers answer getSize, truncate and flush with promises: hence every await here.
  const bytes = new Uint8Array(await handle.getSize());
  handle.read(bytes, { at: 0 });
  const { records, end } = scan(bytes);
  if (end < bytes.length) {
    await handle.truncate(end);
    await handle.flush();
  }
  files.set(stream, { handle, end });
  return records;
}

async function write(stream, bytes) {
  const file = files.get(stream);
  if (!file) throw new Error(`${stream} is not open`);
  try {
    if (file.handle.write(bytes, { at: file.end }) < bytes.length) throw new Error('the disk is full');
    await file.handle.flush();
    file.end += bytes.length;
  } catch (error) {
    // What was half written would hide what is written after it.
    await file.handle.truncate(file.end);
    throw error;
  }
}

/** Afterwards the records, [{seq, text}], are on disk. */
export async function append(stream, records) {
  const bytes = encode(records);
  try {
    await write(stream, bytes);
  } catch {
    // A phone may have taken the file away while the page was in the background.
    close(stream);
    await open(stream);
    await write(stream, bytes);
  }
}

/** Gives the file to another page. */
export function close(stream) {
  files.get(stream)?.handle.close();
  files.delete(stream);
}
