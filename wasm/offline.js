// The service worker's place in the page's life.

/** A newer version that waits takes over now, before anything is open here or in another page, and the page begins
 *  again with it. Its files are one revision and must not mix with those of the version before. */
export async function startNewestVersion() {
  const workers = navigator.serviceWorker;
  const waiting = (await workers?.getRegistration().catch(() => undefined))?.waiting;
  if (!waiting || !workers.controller) return;
  const tookOver = await new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    workers.addEventListener('controllerchange', () => resolve(true), { once: true });
    port1.onmessage = () => resolve(false);
    setTimeout(resolve, 2000, false);
    waiting.postMessage('take over', [port2]);
  });
  if (!tookOver) return;
  location.reload();
  await new Promise(() => {});  // nothing more of this version
}

/** Keeps the page for use without a network. */
export function keepForOffline() {
  navigator.serviceWorker?.register('sw.js', { updateViaCache: 'none' }).catch((error) => {
    console.warn(`The page cannot be kept for use without a network: ${error}`);
  });
}
