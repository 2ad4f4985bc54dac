// The second copy of the store, in IndexedDB: one row a record, keyed by stream and sequence number.

// Databases that neither open nor fail have been seen.
const LONGEST_MS = 5000;

function within(ms, promise) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new DOMException('the database does not answer', 'TimeoutError')), ms);
  });
  return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}

export class DatabaseCopy {
  /** The database was made by this page: there was none, or none any more. */
  isNew = false;

  /** The records of a stream, {seq, text} by sequence number. Rejects where there is no database. */
  async open(stream) {
    const rows = await this.again('readonly', (store) => store.getAll(IDBKeyRange.bound([stream, 0], [stream, Infinity])));
    return rows.map(({ seq, text }) => ({ seq, text }));
  }

  /** Resolves when the records are on disk. Rejects, and changes nothing, if the place of one is taken. */
  async append(stream, records) {
    await this.again('readwrite', (store) => records.forEach(({ seq, text }) => store.add({ stream, seq, text })));
  }

  /** The same, but what lies at their places gives way. */
  async repair(stream, records) {
    await this.again('readwrite', (store) => records.forEach(({ seq, text }) => store.put({ stream, seq, text })));
  }

  async close() {
    (await this.connection?.catch(() => undefined))?.close();
    this.connection = undefined;
  }

  // Safari drops the connection while a page is in the background: open it again and try once more.
  async again(mode, ask) {
    try {
      return await within(LONGEST_MS, this.transact(mode, ask));
    } catch (error) {
      if (['ConstraintError', 'TimeoutError'].includes(error?.name)) throw error;
      this.connection = undefined;
      return await within(LONGEST_MS, this.transact(mode, ask));
    }
  }

  async transact(mode, ask) {
    this.connection ??= this.connect();
    const database = await this.connection;
    return await new Promise((resolve, reject) => {
      const transaction = database.transaction('records', mode, { durability: 'strict' });
      const request = ask(transaction.objectStore('records'));
      transaction.oncomplete = () => resolve(request?.result);
      transaction.onabort = () => reject(transaction.error ?? new Error('the browser took the transaction back'));
      transaction.commit?.();
    });
  }

  connect() {
    return new Promise((resolve, reject) => {
      const request = indexedDB.open('trowelbell', 1);
      request.onupgradeneeded = () => {
        // A browser that lost it makes it anew, without an error: only this tells.
        this.isNew = true;
        request.result.createObjectStore('records', { keyPath: ['stream', 'seq'] });
      };
      request.onerror = () => reject(request.error);
      request.onblocked = () => reject(new Error('another page holds an older database'));
      request.onsuccess = () => {
        const database = request.result;
        const forget = () => { database.close(); this.connection = undefined; };
        database.onversionchange = forget;
        database.onclose = forget;
        resolve(database);
      };
    });
  }
}
