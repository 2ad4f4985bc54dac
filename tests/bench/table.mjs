// The budgets as a table. A row: {what, ours, baseline, ratio, budget: texts, ok}.

const columns = ['what', 'ours', 'baseline', 'ratio', 'budget', 'holds'];

/** A row whose figure must be at most `most` or at least `least`. `by`: what of it is judged: "ours" itself, its "ratio"
 *  to the baseline, the same as a "share" in percent, or how many "times" smaller it is. `of`: what the baseline is;
 *  `and`: what must hold besides. */
export function row({ what, ours, unit, digits = 1, baseline, of = '', most, least, by = 'ours', and = true }) {
  const text = (value, its) => `${value.toLocaleString('en-US', { maximumFractionDigits: digits, minimumFractionDigits: digits })} ${its}`.trim();
  const ratio = baseline === undefined ? undefined : ours / baseline;
  const judged = by === 'ratio' ? ratio : by === 'share' ? ratio * 100 : by === 'times' ? baseline / ours : ours;
  const limit = most ?? least;
  const limitText = { ratio: `${limit} x`, share: `${limit} %`, times: `${limit} x faster`, ours: text(limit, unit).replace(/\.0+ /, ' ') }[by];
  const shownRatio = { share: (r) => `${(r * 100).toFixed(2)} %`, times: (r) => `${Math.round(1 / r)} x faster` }[by]
    ?? ((r) => `${r.toFixed(2)} x`);
  return {
    what, ours: text(ours, unit),
    baseline: baseline === undefined ? '' : `${text(baseline, unit)}${of && `, ${of}`}`,
    ratio: ratio === undefined ? '' : shownRatio(ratio),
    budget: `at ${most === undefined ? 'least' : 'most'} ${limitText}`,
    ok: and && (most === undefined ? judged >= limit : judged <= limit),
  };
}

const cells = (rows) => rows.map((one) => columns.map((name) => (name === 'holds' ? (one.ok ? 'ok' : 'MISSED') : one[name])));

export function forPeople(rows) {
  const all = [columns, ...cells(rows)];
  const widths = columns.map((_, i) => Math.max(...all.map((line) => line[i].length)));
  return all.map((line) => line.map((text, i) => text.padEnd(widths[i])).join('  ').trimEnd()).join('\n');
}

export function forReadme(rows) {
  return [['what', 'ours', 'baseline of the same run', 'ratio', 'budget', ''], columns.map(() => '---'), ...cells(rows)]
    .map((line) => `| ${line.join(' | ')} |\n`).join('');
}
