// A valid event of every kind, and a valid report.
import { briefOf, county, lesson, story } from './tools.mjs';

const device = '00a1b2c3d4e5f607';
const at = 1804608300000;

export const brief = briefOf(county.visits[0]);

export const eventData = {
  start: {}, finish: {}, resume: {}, report: {},
  step: { step: 'story' },
  page: { page: 0 },
  hold: { reason: 'drill' },
  choose: { step: 'hang', choice: 'drop' },
  place: { place: 24, is: 'late' },
  others: { is: 'present' },
  children: { count: 24 },
  adults: { count: 4 },
  bell: { at },
  kit: { pile: 'given', by: 24 },
  lacking: { item: 'tray', count: 2 },
  readers: { count: 2 },
  tick: { list: 'ready', item: 'gloves', done: true },
  mishap: { card: 'spill' },
  taken: { by: 'teacher' },
  sheet: { language: 'es' },
  note: { text: 'Two trays were short.\nBring more.' },
  undo: { device, seq: 3 },
};
export const event = (kind, data = eventData[kind]) => ({ device, seq: 1, at, kind, data });

export const report = {
  format: 'trowelbell.report', version: 1, visit: brief.visit, device, revision: 41, lesson: lesson.id,
  school: brief.school, room: brief.room, sponsor: brief.sponsor, date: brief.date,
  began_at: at, ended_at: at + 2400000, bell_at: at + 2700000,
  steps: lesson.steps.map((step) => ({ id: step.id, planned_seconds: 60, actual_seconds: 71, outcome: 'done' })),
  children: { places: 24, present: 20, late: 1, absent: 2, left_early: 1, unknown: 0 },
  adults: 4, adult_minutes: 160,
  kits: { brought: 27, given: 22, spoiled: 1, with_teacher: 2, spare: 2, unaccounted: 0 },
  lacking: { tray: 2 }, mishaps: { spill: 2 }, holds: [{ reason: 'drill', seconds: 90 }], pages: story.pages.map(() => 30),
  handover: { sheet: true }, ready: { gloves: true }, taken_by: 'teacher', note: '', events: 77,
};
