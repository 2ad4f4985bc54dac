// The benchmarks that are programs (tests/bench/*.cpp). Each ends with its figures as one line of JSON.
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { row } from './table.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const LONGEST_MS = 10 * 60 * 1000;

function run(name) {
  const { stdout, status, signal } = spawnSync(join(root, 'build/bench/tests', name), [], {
    encoding: 'utf8', timeout: LONGEST_MS, stdio: ['ignore', 'pipe', 'inherit'],
  });
  const figures = stdout?.trimEnd().split('\n').at(-1);
  if (!figures?.startsWith('{')) throw new Error(`${name} gave no figures (${signal ?? status})`);
  process.stdout.write(stdout.slice(0, stdout.lastIndexOf(figures)));
  return JSON.parse(figures);
}

export function pacing() {
  const { replan_us: ours, general_us: general, reduced_us: reduced, differing } = run('pacing_bench');
  const rows = (what, baseline, of) => row({
    what, ours, unit: 'us', digits: 1, baseline, of, least: 100, by: 'times', and: differing === 0,
  });
  return [
    rows('replan of 20 steps', general, 'GLPK, as the rules are worded'),
    { ...rows('the same', reduced, 'GLPK, reduced by hand to knapsacks'), budget: 'equal answers', ok: differing === 0 },
  ];
}

export function nativeRehearsals() {
  const { rehearsals_ms: ms, anew_ms: anew, by_bell: byBell } = run('rehearse_bench');
  const what = '10,000 rehearsed visits, native';
  return { ms, byBell, rows: [row({ what, ours: ms, unit: 'ms', baseline: anew, of: 'every step paced anew', most: 50 })] };
}

export function collector() {
  const { collector_a_second: ours, bare_a_second: bare } = run('collector_reports_bench');
  const { slowest_view_ms: view } = run('collector_page_bench');
  return [
    row({ what: 'collector, durable reports a second', ours, unit: '', digits: 0, baseline: bare, of: 'bare SQLite', least: 0.5, by: 'ratio' }),
    row({ what: "coordinator's page over 1,000,000 reports", ours: view, unit: 'ms', most: 200 }),
  ];
}
