// The outlook before a visit: what the phone works out is what the command line works out, to the last rehearsed visit.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { root } from './browser.mjs';
import { setUp, trowelbell } from './visit.mjs';
import { pattern } from './words.mjs';

const known = JSON.parse(await readFile(join(root, 'tests/core/rehearsal_counts.json'), 'utf8'));

describe('the outlook', () => {
  let s, lead;
  before(async () => {
    s = await setUp({ minutesAgo: -30, minutes: known.minutes });
    lead = s.lead;
    await lead.open();
    await lead.opened();
    await lead.tapButton('outlook.open');
    await lead.sees(pattern('outlook.table'));  // all of it is rehearsed
  });
  after(() => s.tearDown());

  // How many rehearsed visits ended by the bell, as the phone tells it.
  async function byBell(adults, late) {
    const told = await s.page.locator(`[data-node="outlook.${adults}.${late}"]`).getAttribute('aria-description');
    return Number(told.match(pattern('outlook.counted')).groups.by_bell);
  }

  it('has the written-down counts of the demo’s first visit', async () => {
    assert.equal(s.brief.children, known.children);
    for (const [row, counts] of known.by_bell.entries()) {
      for (const [column, count] of counts.entries()) {
        assert.equal(await byBell(row + 1, known.minutes_late[column]), count);
      }
    }
  });

  it('agrees with the command line in all forty cells', async () => {
    const { rows } = JSON.parse(await trowelbell('rehearse', '--brief', s.file, '--json'));
    assert.equal(rows.length, 8);
    for (const { adults, starts } of rows) {
      assert.equal(starts.length, 5);
      for (const start of starts) assert.equal(await byBell(adults, start.minutes_late), start.by_bell);
    }
  });
});
