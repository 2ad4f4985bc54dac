// The page's side of the files that the worker keeps (stream-files.js, names-file.js): the first copy of the store, and the
// first names.

const LONGEST_OPENING_MS = 6000;
const LONGEST_WRITE_MS = 10000;

export class FileCopy {
  /** `helper`: a Helper of helper.js. */
  constructor(helper) { this.helper = helper; }

  /** The records of a stream, {seq, text} in the order they were written. Rejects where files cannot be had. */
  open(stream) { return this.helper.call('open', { stream }, LONGEST_OPENING_MS); }

  /** Resolves when the records are on disk. */
  append(stream, records) { return this.helper.call('append', { stream, records }, LONGEST_WRITE_MS); }

  /** Gives the file to another page. */
  close(stream) { return this.helper.call('close', { stream }, LONGEST_WRITE_MS); }

  readNames() { return this.helper.call('read_names', {}, LONGEST_OPENING_MS); }

  keepNames(text) { return this.helper.call('keep_names', { text }, LONGEST_WRITE_MS); }
}
