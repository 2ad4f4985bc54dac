// The service worker's place in the page's life.

const LONGEST_WAKING_MS = 2000;
const LONGEST_CHANGE_MS = 10000;

// Whether this is the only page; not, too, where the worker takes too long to say.
function isOnlyPage(worker) {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => resolve(data);
    setTimeout(resolve, LONGEST_WAKING_MS, false);
    worker.postMessage('only page?', [port2]);
  });
}

/** A newer version that waits takes over now, before anything is open here or in another page, and the page begins
 *  again with it. Its files are one revision and must not mix with those of the version before: it is told to take over
 *  only once it is awake, so that it never does later. */
export async function startNewestVersion() {
  const workers = navigator.serviceWorker;
  const waiting = (await workers?.getRegistration().catch(() => undefined))?.waiting;
  if (!waiting || !workers.controller || !await isOnlyPage(waiting)) return;
  await new Promise((resolve) => {
    workers.addEventListener('controllerchange', resolve, { once: true });
    setTimeout(resolve, LONGEST_CHANGE_MS);
    waiting.postMessage('take over');
  });
  location.reload();
  await new Promise(() => {});  // nothing more of this version
}

/** Keeps the page for use without a network. */
export function keepForOffline() {
  navigator.serviceWorker?.register('sw.js', { updateViaCache: 'none' }).catch((error) => {
    console.warn(`The page cannot be kept for use without a network: ${error}`);
  });
}

/** Asks the browser to wake the service worker when there is a network again (sync.js), where it can. */
export async function sendWhenBack() {
  const registration = await navigator.serviceWorker?.getRegistration();
  await registration?.sync?.register('trowelbell-outbox');
}

/** `send` is called when the service worker has sent what waited while this page was in the background. */
export function onSendAsked(send) {
  navigator.serviceWorker?.addEventListener('message', ({ data }) => { if (data === 'send') send(); });
}
