// The invented county of the demo: whole, plausible, and on days when there is school.
import assert from 'node:assert/strict';
import { test } from 'node:test';

import { addDays, county as written, index, lesson, lookedUp, weekday } from './tools.mjs';

const county = { ...written, schools: written.schools.map((school) => lookedUp(school, '2026-06-26', 800)) };
const school = (id) => county.schools.find((each) => each.id === id);
const isClosed = (id, date) => school(id).closed.some(({ from, to }) => from <= date && date <= to);

test('four schools, two sponsors, six visits', () => {
  assert.equal(county.schools.length, 4);
  assert.equal(county.sponsors.length, 2);
  assert.equal(county.visits.length, 6);
});

test('visits name a school, a sponsor and a lesson that exist', () => {
  for (const visit of county.visits) {
    assert.ok(school(visit.school), visit.id);
    assert.ok(county.sponsors.some((sponsor) => sponsor.id === visit.sponsor), visit.id);
    assert.ok(index.lessons[visit.lesson], visit.id);
  }
});

test('the demo visit is the one that the guides show', () => {
  const [demo] = county.visits;
  assert.deepEqual({ ...demo, school: school(demo.school).name, sponsor: undefined, date: undefined }, {
    id: 'fern-hollow-room-4', school: 'Fern Hollow School', sponsor: undefined, room: 'Room 4', lesson: 'window-garden',
    children: 24, adults: 4, tables: 4, kits: 27, date: undefined, start: '09:05', bell: '09:50',
  });
});

test('visits are on school days, in time before the bell', () => {
  for (const visit of county.visits) {
    assert.ok(weekday(visit.date) >= 1 && weekday(visit.date) <= 5, visit.id);
    assert.ok(!isClosed(visit.school, visit.date), visit.id);
    assert.ok(!school(visit.school).half_days.includes(visit.date), visit.id);
    assert.ok(visit.start < visit.bell, visit.id);
  }
});

test('enough adults and a few spare kits (common practice)', () => {
  for (const visit of county.visits) {
    assert.ok(visit.adults >= lesson.least_adults, visit.id);
    assert.ok(visit.kits - visit.children >= 2 && visit.kits - visit.children <= 5, visit.id);
  }
});

test('days without school run forward, do not overlap, and cover two school years', () => {
  for (const { id, closed, half_days: halves } of county.schools) {
    const edges = closed.flatMap(({ from, to }) => [from, to]);
    assert.deepEqual(edges, [...edges].sort(), id);
    for (let i = 1; i < closed.length; ++i) assert.ok(closed[i - 1].to < closed[i].from, id);
    for (const year of [2026, 2027]) assert.ok(closed.some(({ from, to }) => from <= `${year}-12-25` && `${year}-12-25` <= to), id);
    for (const day of halves) assert.ok(!isClosed(id, day) && weekday(day) % 6 !== 0, `${id} ${day}`);
  }
});

test('one visit meets a break, one a room too cold for beans, one a sheet in Spanish: the cases the sheet must tell', () => {
  assert.ok(county.visits.some((visit) => [8, 9, 10, 11].every((count) => isClosed(visit.school, addDays(visit.date, count)) || weekday(addDays(visit.date, count)) % 6 === 0)));
  assert.ok(county.schools.some(({ warmth }) => warmth.night < 15));  // below the bean's published table
  assert.ok(county.schools.some((each) => each.sheet_language === 'es'));
});

test('rules of the schools fit a line and name no child', () => {
  for (const { id, school_asks: asks } of county.schools) {
    assert.ok(asks.length >= 1, id);
    for (const line of asks) assert.ok(Buffer.byteLength(line) <= 200, line);
  }
});
