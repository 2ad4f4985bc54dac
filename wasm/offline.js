// The service worker's place in the page's life.

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
