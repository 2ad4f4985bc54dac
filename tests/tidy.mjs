// clang-tidy over our own sources: node tests/tidy.mjs BUILD_FOLDER JOBS
// A file is looked at again only when it, a header of ours that it includes, its compile command or
// .clang-tidy has changed since it was last found clean.
import { execFile, execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const [folder, jobs] = [resolve(process.argv[2]), Number(process.argv[3])];
const stamps = join(root, 'build/tidy');
const isOurs = (path) => /^(src|tests)\//.test(relative(root, path));

// Object file -> our own files that it was made from, as Ninja remembers them.
function dependencies() {
  const found = new Map();
  let list = [];
  for (const line of execFileSync('ninja', ['-C', folder, '-t', 'deps'], { maxBuffer: 2 ** 28 }).toString().split('\n')) {
    const object = /^(\S.*): #deps /.exec(line);
    if (object) found.set(object[1], list = []);
    else if (line.startsWith('    ')) list.push(resolve(folder, line.trim()));
  }
  return found;
}

function fingerprint(entry, inputs) {
  const hash = createHash('sha256').update(entry.command).update(readFileSync(join(root, '.clang-tidy')));
  for (const path of inputs) hash.update(path).update(readFileSync(path));
  return hash.digest('hex');
}

// What only g++ understands: its precompiled header, and the names of its own warnings.
const plain = (command) => command
  .replace(/ -Winvalid-pch -include \S+/g, '')
  .replace(/ -Wno-(restrict|stringop-overflow|maybe-uninitialized|array-bounds)\b/g, '');

mkdirSync(stamps, { recursive: true });
const entries = JSON.parse(readFileSync(join(folder, 'compile_commands.json')))
  .filter(({ file }) => isOurs(file))
  .map((entry) => ({ ...entry, command: plain(entry.command) }));
writeFileSync(join(stamps, 'compile_commands.json'), JSON.stringify(entries));

const madeFrom = dependencies();
const todo = [];
let known = 0;
for (const entry of entries) {
  const inputs = (madeFrom.get(entry.output) ?? [entry.file]).filter(isOurs).sort();
  const stamp = join(stamps, fingerprint(entry, inputs));
  if (existsSync(stamp)) ++known;
  else todo.push({ file: entry.file, stamp });
}
console.log(`clang-tidy: ${todo.length} files to look at, ${known} known to be clean`);

let unclean = 0;
async function worker() {
  for (let next; (next = todo.shift());) {
    const { file, stamp } = next;
    await new Promise((done) => {
      execFile('clang-tidy', ['-p', stamps, '--quiet', file], { maxBuffer: 2 ** 26 }, (error, out) => {
        if (error) {
          ++unclean;
          console.log(out);
        } else writeFileSync(stamp, '');
        done();
      });
    });
  }
}
await Promise.all(Array.from({ length: jobs }, worker));
process.exit(unclean ? 1 : 0);
