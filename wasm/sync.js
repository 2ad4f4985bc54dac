// Sends what waits in the outbox while no page is open: the browser wakes the service worker when there is a network
// again (Background Sync, where it exists). Reads the second copy of the store and writes nothing: the next page sends the
// same bytes again, gets the same answer and records it.
import { put } from './net.js';
import { DatabaseCopy } from './store-copy.js';

/** The outbox's reports that are not settled, {path, key, body}: a fold of the records of src/core/outbox.h. */
export function waiting(records) {
  const reports = new Map();
  for (const { text } of records) {
    const [[kind, report]] = Object.entries(JSON.parse(text));  // as this app wrote it
    const path = `/v1/visits/${report.visit}/reports/${report.device}/${report.revision}`;
    if (kind !== 'queued') reports.delete(path);
    else if (!reports.has(path)) reports.set(path, { path, key: report.key, body: report.body });
  }
  return [...reports.values()];
}

/** Rejects where one could not be brought: the browser then asks again later. A refusal is the page's to tell. */
export async function sendOutbox() {
  const database = new DatabaseCopy();
  try {
    for (const { path, key, body } of waiting(await database.open('outbox'))) {
      const { status } = await put(path, key, body);
      if (status === 0 || status === 408 || status === 425 || status === 429 || status >= 500) {
        throw new Error(`${path} is not sent yet (${status})`);
      }
    }
  } finally {
    await database.close();
  }
}
