// The page's second thread: reads what the page needs to begin (load.js) and keeps the files that only a worker may write
// (stream-files.js, names-file.js). helper.js is the page's side of it.
//
// Takes {call, kind: 'load'}, {call, kind: 'open', stream}, {call, kind: 'append', stream, records: [{seq, text}]},
// {call, kind: 'close', stream}, {call, kind: 'read_names'} and {call, kind: 'keep_names', text}. Answers {call, ok, answer};
// the first message, {begun: true}, says that it runs.
import { load } from './load.js';
import { keepNames, readNames } from './names-file.js';
import { append, close, open } from './stream-files.js';

const loading = load();  // before it is asked
loading.catch(() => {});  // who asks is told
const ANSWERS = {
  load: () => loading,
  open: ({ stream }) => open(stream),
  append: ({ stream, records }) => append(stream, records),
  close: ({ stream }) => close(stream),
  read_names: readNames,
  keep_names: ({ text }) => keepNames(text),
};

// Calls for one file wait for each other: its end belongs to one write.
const turns = new Map();  // stream -> the last call for it; names and loading have turns of their own

async function answer({ call, kind, ...data }) {
  try {
    const given = await ANSWERS[kind](data);
    postMessage({ call, ok: true, answer: given }, given?.pack ? [given.pack] : []);
  } catch (error) {
    postMessage({ call, ok: false, why: String(error) });
  }
}

addEventListener('message', ({ data }) => {
  const file = data.stream ?? (data.kind === 'load' ? 'load' : 'names');
  turns.set(file, Promise.resolve(turns.get(file)).then(() => answer(data)));
});
postMessage({ begun: true });
