// School days of the command line's briefs, which libical expands, against ical.js, another reader of RFC 5545
// written apart from it: the demo's calendar, and seeded random ones.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';

import { addDays, calendarEvents, copy, county, offsetAt, root, weekday } from './tools.mjs';

const program = join(root, 'build/native/trowelbell');

// The only school of a county, with this calendar, visited on this day: its brief, or null where it has more half days
// than a brief carries (60).
function briefWith(school, calendar, date) {
  const folder = mkdtempSync(join(tmpdir(), 'trowelbell-calendar-'));
  try {
    const visit = { ...county.visits[0], school: school.id, date };
    writeFileSync(join(folder, 'county.json'), JSON.stringify({ ...county, schools: [school], visits: [visit] }));
    writeFileSync(join(folder, school.calendar.file), calendar);
    const { status, stdout, stderr } = spawnSync(program, ['brief', join(folder, 'county.json'), '--json'], { encoding: 'utf8' });
    if (status !== 0) assert.match(stderr, /\/half_days: must .* 60 /);
    return status === 0 ? JSON.parse(stdout).briefs[0].brief : null;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const inside = (from, to, first = from, last = to) => {
  const days = [];
  for (let day = from < first ? first : from; day <= (to > last ? last : to); day = addDays(day, 1)) days.push(day);
  return days;
};

// Days of one kind as the other reader has them, from 14 days before the visit to 120 after it.
function expected(events, kind, date) {
  const wanted = events.filter((event) => event.kind === kind).flatMap(({ days: [from, to] }) => inside(from, to, addDays(date, -14), addDays(date, 120)));
  return [...new Set(wanted)].sort().filter((day) => kind === 'closed' || weekday(day) % 6 !== 0);
}

function agrees(school, calendar, date) {
  const brief = briefWith(school, calendar, date);
  const events = calendarEvents(calendar, addDays(date, -14), addDays(date, 120));
  assert.equal(brief === null, expected(events, 'half_day', date).length > 60, date);
  if (!brief) return { closed: [], half_days: [] };
  assert.deepEqual(brief.closed.flatMap(({ from, to }) => inside(from, to)), expected(events, 'closed', date), date);
  assert.deepEqual(brief.half_days, expected(events, 'half_day', date), date);
  return brief;
}

test('the demo school’s days, through two school years', () => {
  const school = county.schools.find((each) => each.calendar);
  const calendar = readFileSync(join(root, 'content/demo', school.calendar.file), 'utf8');
  let days = 0;
  for (let date = '2026-09-01'; date < '2028-06-01'; date = addDays(date, 17)) {
    const brief = agrees(school, calendar, date);
    days += brief.closed.length + brief.half_days.length;
  }
  assert.ok(days > 100);
});

test('offsets of the brief are those of the JavaScript engine’s own zones', () => {
  const calendar = 'BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//example//test//EN\r\nEND:VCALENDAR\r\n';
  for (const zone of ['America/Denver', 'America/New_York', 'America/Phoenix', 'Europe/Madrid', 'Asia/Kolkata']) {
    for (const date of ['2027-01-11', '2027-03-12', '2027-03-15', '2027-03-30', '2027-07-01', '2027-11-05', '2027-11-08']) {
      const school = { ...copy(county.schools.find((each) => each.calendar)), time_zone: zone };
      assert.equal(briefWith(school, calendar, date).utc_offset_minutes, offsetAt(zone, date), `${zone} ${date}`);
    }
  }
});

// mulberry32, the common small generator of 32 bits.
function randomOf(seed) {
  return (below) => {
    seed = (seed + 0x6d2b79f5) | 0;
    let mixed = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) % below;
  };
}

function randomEvent(random, number, year) {
  const pick = (list) => list[random(list.length)];
  const plain = (date) => date.replaceAll('-', '');
  const start = addDays(`${year}-08-01`, random(300));
  const name = ['SU', 'MO', 'TU', 'WE', 'TH', 'FR', 'SA'][weekday(start)];
  const nth = Math.ceil(+start.slice(8) / 7);
  // Rules that the start fits, as the standard asks.
  const rule = pick(['', '', 'FREQ=DAILY', 'FREQ=WEEKLY', `FREQ=WEEKLY;BYDAY=${[...new Set([name, 'WE'])].join(',')}`, 'FREQ=MONTHLY',
    ...(nth < 5 ? [`FREQ=MONTHLY;BYDAY=${nth}${name}`, `FREQ=YEARLY;BYMONTH=${+start.slice(5, 7)};BYDAY=${nth}${name}`] : []), 'FREQ=YEARLY']);
  const end = pick([';COUNT=' + (1 + random(9)), `;UNTIL=${plain(addDays(start, random(200)))}`]);
  const lines = ['BEGIN:VEVENT', `UID:event-${number}`, 'DTSTAMP:20260601T000000Z', `SUMMARY:${pick(['No school today', 'Early release', 'Assembly', 'Autumn break'])}`];
  lines.push(`DTSTART;VALUE=DATE:${plain(start)}`);
  if (random(2)) lines.push(`DTEND;VALUE=DATE:${plain(addDays(start, 1 + random(5)))}`);
  if (rule) lines.push(`RRULE:${rule}${pick([';INTERVAL=2', ''])}${end}`);
  if (random(3) === 0) lines.push(`EXDATE;VALUE=DATE:${plain(addDays(start, 7 * random(4)))}`);
  if (random(4) === 0) lines.push(`RDATE;VALUE=DATE:${plain(addDays(start, 1 + random(60)))}`);
  return [...lines, 'END:VEVENT'];
}

test('two hundred random calendars', () => {
  const random = randomOf(20270309);
  const school = { ...copy(county.schools.find((each) => each.calendar)) };
  let closed = 0, halves = 0;
  for (let round = 0; round < 200; ++round) {
    const year = 2026 + random(3);
    const events = Array.from({ length: 1 + random(6) }, (_, number) => randomEvent(random, number, year));
    const lines = ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//example//test//EN', ...events.flat(), 'END:VCALENDAR'];
    const brief = agrees(school, lines.join('\r\n') + '\r\n', addDays(`${year}-09-01`, random(200)));
    closed += brief.closed.length;
    halves += brief.half_days.length;
  }
  assert.ok(closed > 100 && halves > 100, `${closed} ${halves}`);
});
