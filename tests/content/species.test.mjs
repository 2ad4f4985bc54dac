// The seed tables equal the published ones, typed in here anew.
import assert from 'node:assert/strict';
import { test } from 'node:test';

import { species } from './tools.mjs';

// Days to emergence, seed 1/2 inch deep: Harrington and Minges, Vegetable Seed Germination, California Agricultural
// Extension leaflet, 1954; as in "Teaching Organic Farming and Gardening", Unit 1.3, Appendix 4 (which cites Knott's, 1997).
// Percent normal seedlings: the same experiment, at highanddryfarm.com/germination-versus-temperature.
const published = {
  'garden-bean': { fahrenheit: [59, 68, 77, 86], days: [16, 11, 8, 6], percent: [97, 90, 97, 47] },
  'garden-pea': { fahrenheit: [41, 50, 59, 68, 77, 86], days: [36, 14, 9, 8, 6, 6], percent: [89, 94, 93, 93, 94, 86] },
};

for (const [id, table] of Object.entries(published)) {
  test(`${id}: days and percent at each temperature are the published ones`, () => {
    const columns = species[id].emergence;
    assert.deepEqual(columns.map((column) => column.celsius), table.fahrenheit.map((degrees) => (degrees - 32) * 5 / 9));
    assert.deepEqual(columns.map((column) => column.days), table.days);
    assert.deepEqual(columns.map((column) => column.percent), table.percent);
  });
}

test('the bean has no column at 95 F, where the reprints disagree, and says so', () => {
  assert.ok(species['garden-bean'].emergence.every((column) => column.celsius <= 30));
  assert.match(species['garden-bean'].sources.join('\n'), /95 F .*reprints disagree/);
});

test('least germination is the law’s: bean 70, pea 80', () => {
  // 7 CFR 201.31 (59 FR 64491, 14 December 1994), read at law.lawstack.com and webgrower.com.
  assert.equal(species['garden-bean'].legal_minimum_percent, 70);
  assert.equal(species['garden-pea'].legal_minimum_percent, 80);
});

test('first root: pea by thermal time, bean within the classroom range', () => {
  // PubMed 40596089 (2025), spring food type: 55.9 degree-days over -0.98 C, not valid above the optimum of 27.5 C.
  const { base_celsius: base, degree_days: sum, warmest_celsius: warmest } = species['garden-pea'].root;
  assert.deepEqual([base, sum, warmest], [-0.98, 55.9, 27.5]);
  assert.equal((sum / (20 - base)).toFixed(2), '2.66');
  // Sheet on seeds in wet cotton, grades 3 to 4, read at studylib.net/doc/8855954: germinate in 3 to 5 days.
  assert.deepEqual(species['garden-bean'].root, { least_days: 3, most_days: 5 });
});

test('bean seed leaves rise, pea seed leaves stay', () => {
  assert.equal(species['garden-bean'].seed_leaves_rise, true);  // 7 CFR 201.56-6(a)
  assert.equal(species['garden-pea'].seed_leaves_rise, false);  // from memory
});

test('every table names its sources', () => {
  for (const each of Object.values(species)) {
    const sources = each.sources.join('\n');
    for (const wanted of [/Harrington and Minges/, /1954/, /7 CFR 201\.31/]) assert.match(sources, wanted);
  }
});
