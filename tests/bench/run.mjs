// Runs the benchmarks of one part, or of all, and prints the budgets: node tests/bench/run.mjs PART [--readme]
// tests/bench/run.sh builds what this needs first.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { collector, pacing, nativeRehearsals } from './native.mjs';
import { page, webRehearsals } from './pages.mjs';
import { size } from './size.mjs';
import { forPeople, forReadme } from './table.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const [part, readme] = process.argv.slice(2);

// Each gives rows of the table (table.mjs).
const parts = {
  size,
  page,
  pacing,
  rehearsals: async () => {
    const native = nativeRehearsals();
    return [...native.rows, ...await webRehearsals(native)];
  },
  collector,
};

const rows = [];
for (const [name, run] of Object.entries(parts)) {
  if (part !== 'all' && part !== name) continue;
  console.log(`-- ${name}`);
  rows.push(...await run());
}
console.log(`\n${forPeople(rows)}`);

if (readme) {
  const path = join(root, 'README.md');
  const marks = ['<!-- budgets: made by bash tests/bench/run.sh --readme -->\n', '<!-- end of budgets -->\n'];
  const text = readFileSync(path, 'utf8');
  const [begin, end] = [text.indexOf(marks[0]) + marks[0].length, text.indexOf(marks[1])];
  if (begin < marks[0].length || end < begin) throw new Error('README.md has no place for the budgets');
  writeFileSync(path, text.slice(0, begin) + forReadme(rows) + text.slice(end));
}
process.exit(rows.every(({ ok }) => ok) ? 0 : 1);
