// Of all pages of this phone one writes to the store; the others may look. Web Locks decide which. Where there are none,
// each page takes itself for the one.

const NAME = 'trowelbell.store';
const PATIENCE_MS = 2000;  // the page before this one may be slow to close

export class OneWriter {
  /** `changed(here)`: this page has become the one that writes, or is it no longer. Not called for the first answer. */
  constructor(changed) {
    this.changed = changed;
    this.here = !navigator.locks;
    this.known = this.here;  // whether anyone was told
    this.first = new Promise((resolve) => { this.tell = resolve; });  // resolves once it is known
    if (this.here) return void this.tell();
    this.wait();
    setTimeout(() => this.become(this.here), PATIENCE_MS);
  }

  become(here) {
    const news = this.known && here !== this.here;
    this.here = here;
    this.known = true;
    this.tell();
    if (news) this.changed(here);
  }

  // In the queue: when the page that writes goes away, this one goes on by itself.
  wait() {
    this.patience = new AbortController();
    this.hold({ signal: this.patience.signal });
  }

  /** Does not wait for the other page, which may be asleep. */
  take() {
    if (this.here) return;
    this.patience?.abort();
    this.hold({ steal: true });
  }

  hold(how) {
    navigator.locks.request(NAME, how, () => {
      this.become(true);
      return new Promise(() => {});
    }).catch(() => {
      if (how.signal?.aborted) return;  // taken, not waited for
      this.become(false);
      // Not at once: a page that is going away is refused again and again, and would never be gone.
      setTimeout(() => this.wait(), 100);
    });
  }
}
