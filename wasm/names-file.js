// First names of places: one small file, written whole each time, in a worker's hands like the store's. It is in no other
// copy and no database, so that wiping it wipes it.

const FOLDER = 'private';
const NAME = 'names.json';

const folder = async () => (await navigator.storage.getDirectory()).getDirectoryHandle(FOLDER, { create: true });

/** What was kept; '' for nothing. */
export async function readNames() {
  try {
    return await (await (await (await folder()).getFileHandle(NAME)).getFile()).text();
  } catch {
    return '';
  }
}

/** Keeps `text` in place of what was there; '' takes the file away. */
export async function keepNames(text) {
  const place = await folder();
  if (text === '') return place.removeEntry(NAME).catch(() => {});
  const file = await (await place.getFileHandle(NAME, { create: true })).createSyncAccessHandle();
  try {
    await file.truncate(0);
    file.write(new TextEncoder().encode(text), { at: 0 });
    await file.flush();
  } finally {
    await file.close();
  }
}
