// The network as the app sees it: one PUT at a time to the collector that the page came from.

const LONGEST_SEND_MS = 20000;
const LONGEST_ANSWER = 64 * 1024;

/** In hex digits. */
export async function sha256(bytes) {
  if (!globalThis.crypto?.subtle) return '';  // only on a page that was not opened over https
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

// The first 64 KiB of an answer; more would be no collector's.
async function readAnswer(response) {
  const reader = response.body?.getReader();
  if (!reader) return '';
  const decoder = new TextDecoder();
  let text = '';
  for (let size = 0; size < LONGEST_ANSWER;) {
    const { done, value } = await reader.read();
    if (done) return text + decoder.decode();
    const piece = value.subarray(0, LONGEST_ANSWER - size);
    size += piece.length;
    text += decoder.decode(piece, { stream: true });
  }
  reader.cancel().catch(() => {});
  return text;
}

// Retry-After (RFC 9110, 10.2.3): seconds or a date. -1: it says nothing.
function retryAfter(response) {
  const said = response.headers.get('Retry-After');
  if (!said) return -1;
  if (/^\d{1,9}$/.test(said)) return Number(said);
  const until = Date.parse(said);
  return Number.isNaN(until) ? -1 : Math.max(0, Math.ceil((until - Date.now()) / 1000));
}

/** PUTs `body` (JSON text). {status, body, digest, retryAfter}: status 0 means no whole answer came; digest is the
 *  SHA-256 of the bytes that were sent, in hex digits. */
export async function put(path, bearer, body) {
  const bytes = new TextEncoder().encode(body);
  const digest = await sha256(bytes).catch(() => '');
  const patience = new AbortController();
  const timer = setTimeout(() => patience.abort(), LONGEST_SEND_MS);
  try {
    const response = await fetch(path, {
      method: 'PUT', body: bytes, signal: patience.signal,
      headers: { Authorization: `Bearer ${bearer}`, 'Content-Type': 'application/json' },
      cache: 'no-store', credentials: 'omit', redirect: 'error', referrerPolicy: 'no-referrer',
    });
    return { status: response.status, body: await readAnswer(response), digest, retryAfter: retryAfter(response) };
  } catch {
    return { status: 0, body: '', digest, retryAfter: -1 };
  } finally {
    clearTimeout(timer);
  }
}
