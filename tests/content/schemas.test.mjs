// Every shipped file is valid by its schema, and every schema refuses what the program must not meet.
import assert from 'node:assert/strict';
import { test } from 'node:test';

import { brief, event, eventData, report } from './samples.mjs';
import { briefOf, care, copy, county, index, languages, lesson, problems, schemas, species, story } from './tools.mjs';

const valid = (name, document) => assert.deepEqual(problems(name, document), []);

test('every shipped file is valid by its schema', () => {
  valid('index', index);
  valid('lesson', lesson);
  valid('story', story);
  valid('care', care);
  valid('county', county);
  for (const each of Object.values(species)) valid('species', each);
  for (const each of Object.values(languages)) valid('language', each);
});

test('briefs of all visits, events of all kinds and a report are valid', () => {
  for (const visit of county.visits) valid('brief', briefOf(visit));
  for (const kind of Object.keys(eventData)) valid('event', event(kind));
  valid('event', event('a_kind_of_a_newer_program', { anything: [1] }));
  valid('report', report);
});

test('schemas are named urn:trowelbell:schema:..., with a draft and a description', () => {
  assert.deepEqual(Object.keys(schemas).sort(),
    ['brief', 'care', 'county', 'event', 'index', 'language', 'lesson', 'report', 'species', 'story']);
  for (const [name, schema] of Object.entries(schemas)) {
    assert.equal(schema.$id, `urn:trowelbell:schema:${name}`);
    assert.equal(schema.$schema, 'https://json-schema.org/draft/2020-12/schema');
    assert.ok(schema.title && schema.description, name);
  }
});

// Names of all fields that a schema gives a meaning to.
function fields(schema) {
  if (typeof schema !== 'object' || schema === null) return [];
  const own = schema.properties && !Array.isArray(schema.properties) ? Object.keys(schema.properties) : [];
  return [...own, ...Object.values(schema).flatMap(fields)];
}

test('what leaves the phone has no field for the name of a child', () => {
  for (const name of ['event', 'report']) {
    assert.deepEqual(fields(schemas[name]).filter((field) => /name|initial|birth|photo|pupil|student|child$/.test(field)), [], name);
  }
});

const changed = (document, change) => {
  const other = copy(document);
  change(other);
  return other;
};
// The object at all but the last key of a path, and that key.
const place = (document, path) => {
  const keys = path.split('/');
  const last = keys.pop();
  return [keys.reduce((inner, key) => inner[key], document), last];
};
const labelled = (label, change) => Object.assign(change, { label: label.slice(0, 100) });
const set = (path, value) => labelled(`${path} = ${JSON.stringify(value)}`, (document) => {
  const [inner, key] = place(document, path);
  inner[key] = value;
});
const drop = (path) => labelled(`no ${path}`, (document) => {
  const [inner, key] = place(document, path);
  delete inner[key];
});
const many = (count, value) => Array.from({ length: count }, () => value);
const members = (count, value) => Object.fromEntries(many(count, 0).map((_, i) => [`a${i}`, value]));

const headers = [drop('format'), drop('version'), set('version', 2), set('version', '1'), set('format', 'trowelbell.other')];
const storyStep = lesson.steps.findIndex((step) => step.reading);
const safetyStep = lesson.steps.findIndex((step) => step.safety);

const refused = {
  index: [index, [...headers, drop('care'), set('care', '/etc/cards.json'), set('care', '../cards.json'), set('care', 'care/cards.txt'),
    set('lessons', {}), set('lessons', []), set('stories/Bad Id', 'stories/a.json'), set('species/garden-bean', 7), set('languages', members(101, 'lang/x.json'))]],
  lesson: [lesson, [...headers, drop('id'), set('id', 'Window Garden'), set('id', '-window'), set('id', 'a'.repeat(65)), set('title', 'A garden'),
    set('title/en', ''), drop('title/en'), set('title/en', 'a\u0007b'), set('title/en', 'a'.repeat(121)), set('species', []), set('species', many(5, 'garden-pea')),
    set('comfort_percent', 0), set('comfort_percent', 101), set('reserve_seconds', -1), set('reserve_seconds', 901), set('least_adults', 0),
    set('steps', []), set('steps', many(61, lesson.steps[0])), drop('steps/0/seconds'), set('steps/0/keep', 'maybe'), set('steps/0/worth', 1001),
    set('steps/0/who', 'teacher'), set('steps/0/seconds/min', -1), set('steps/0/seconds/plan', 60.5), set('steps/0/seconds/max', 7201),
    set('steps/0/seconds/plan', 0), drop('steps/0/seconds/max'), set('steps/0/say', 'Hello'), set('steps/0/do', many(17, { en: 'Do' })),
    set(`steps/${storyStep}/seconds`, { min: 1, plan: 2, max: 3 }), set('steps/0', lesson.steps[storyStep]),
    set(`steps/${safetyStep}/watch`, []), drop(`steps/${safetyStep}/watch`), set('steps/0/cards', ['No Card']), set('steps/0/drawing', 'x'.repeat(41)),
    set('kit/0/count', 0), set('kit/0/per', 'school'), set('kit/0/cut_parts', 0), set('kit/0/pack', 10001), set('kit/0/packs', [{ size: 50, price_cents: 300 }]), set('kit/0/reusable', 1), set('kit/4/reusable', true), set('kit', many(61, lesson.kit[0])),
    drop('ready/0/text'), set('handover', {})]],
  story: [story, [...headers, drop('pages'), set('pages', []), set('pages', many(61, story.pages[0])), drop('pages/0/text'), set('pages/0/text', 'Lina'),
    set('pages/0/text/en', ''), set('pages/0/text/en', 'a'.repeat(1001)), set('pages/0/prompt/en', 'a'.repeat(301)), set('pages/0/pause_seconds', -1),
    set('pages/0/pause_seconds', 121), set('pages/0/pause_seconds', '10'), set('pages/0/picture', 7)]],
  species: [species['garden-bean'], [...headers, drop('root'), set('emergence', []), set('emergence', [species['garden-bean'].emergence[0]]),
    set('emergence', many(13, species['garden-bean'].emergence[0])), set('emergence/0/days', 0), set('emergence/0/percent', 101), drop('emergence/0/celsius'),
    set('emergence/0/celsius', '15'), set('legal_minimum_percent', 101), set('root', {}), set('root/least_days', 0), set('root/most_days', 61),
    set('root', { degree_days: 55.9 }), set('root/degree_days', 0), drop('seed_leaves_rise'), set('seed_leaves_rise', 'yes'), set('sources', [])]],
  care: [care, [...headers, drop('cards'), set('cards', []), set('cards', many(41, care.cards[0])), drop('cards/0/id'), drop('cards/0/title'), drop('cards/0/now'),
    set('cards/0/now', []), set('cards/0/now', many(13, { en: 'Stop.' })), set('cards/0/prevent', 'Count.'), set('cards/1/mishap', 'Seed'),
    set('cards/0/sources', []), set('cards/0/now/0/en', 'a'.repeat(401))]],
  brief: [brief, [...headers, drop('key'), set('key', 'short'), set('key', 'a'.repeat(65)), set('key', 'has spaces and more'), set('visit', 'Fern Hollow'),
    set('date', '2027-02-30'), set('date', '1999-12-31'), set('date', '09.03.2027'), set('start', '9:05'), set('bell', '24:00'), drop('utc_offset_minutes'),
    set('utc_offset_minutes', 841), set('children', 0), set('children', 61), set('children', '24'), set('adults', 21), set('tables', 0), set('kits', 121),
    set('warmth/night', 41), set('closed/0/to', '2027-13-01'), set('closed', many(101, { from: '2027-01-01', to: '2027-01-01' })),
    set('half_days', many(61, '2027-01-01')), set('school_asks', many(13, 'Ring.')), set('school_asks/0', 'a'.repeat(201)), set('sheet_language', 'fr'),
    set('school', ''), set('room', 'a'.repeat(61)), set('sponsor', 5)]],
  county: [county, [...headers, drop('name'), set('schools', []), set('schools/0/id', 'Fern'), drop('schools/0/utc_offset_minutes'), set('schools/0/warmth/day', -1),
    set('schools/0/closed/0', '2027-01-01'), set('schools/0/half_days/0', 'Friday'), set('visits/0/children', 0), set('visits/0/date', '2027-02-29'),
    set('schools/1/utc_offset_minutes', -420), set('schools/1/time_zone', 'localtime'), set('schools/1/time_zone', 'America/../UTC'), drop('schools/1/time_zone'),
    set('schools/0/time_zone', 'UTC'), set('schools/1/calendar/file', '../x.ics'), set('schools/1/calendar/file', '.ics'), drop('schools/1/calendar/file'),
    set('schools/1/calendar/closed_words', 'break'), set('schools/1/utc_offset_changes', []), drop('visits/0/bell'), drop('visits/0/school'), set('visits/0/room', ''), set('sponsors/0', 'Buttonwheel'), set('visits', many(5001, county.visits[0]))]],
  event: [event('start'), [drop('device'), set('device', 'XYZ'), set('device', '00A1B2C3D4E5F607'), drop('seq'), set('seq', 0), set('seq', 1.5), set('at', -1),
    set('at', '2027-03-09'), drop('kind'), set('kind', 'Start'), set('kind', ''), drop('data'), set('data', [])]],
  report: [report, [...headers, drop('children'), drop('children/late'), set('children/present', 61), set('children/present', -1), set('device', 'phone'),
    set('revision', 0), set('date', '2027-3-9'), set('began_at', -1), set('steps', []), set('steps/0/outcome', 'skipped'), set('steps/0/actual_seconds', 86401),
    drop('steps/0/planned_seconds'), set('adults', 0), set('adult_minutes', 28801), set('kits/given', 1000), drop('kits/unaccounted'), set('lacking/tray', 0), set('lacking/A tray', 1), set('lacking', members(61, 1)), set('mishaps/spill', 0),
    set('mishaps/Some Body', 1), set('mishaps', members(101, 1)), set('holds/0/reason', 'lunch'), set('holds', many(101, report.holds[0])), set('pages', many(61, 1)),
    set('handover/sheet', 'yes'), set('ready', members(61, true)), set('taken_by', 'me'), set('note', 'a'.repeat(501)), set('note', 'a\u0000b'), set('events', -1)]],
  language: [languages.en, [...headers, drop('language'), set('language', 'English'), set('language', 'e'), drop('texts'), set('texts', {}), set('texts', []),
    set('texts/Bad Key', 'x'), set('texts/date.range', ''), set('texts/date.range', 5), set('texts/date.range', 'a'.repeat(2001)), set('texts', members(2001, 'x'))]],
};

for (const [name, [document, changes]] of Object.entries(refused)) {
  test(`the ${name} schema refuses ${changes.length} bad documents`, () => {
    assert.ok(changes.length >= 8);
    valid(name, document);
    const taken = changes.filter((change) => problems(name, changed(document, change)).length === 0);
    assert.deepEqual(taken.map((change) => change.label), []);
  });

  test(`the ${name} schema takes fields it does not know`, () => {
    valid(name, changed(document, set('of_a_newer_writer', { any: [1, 'thing'] })));
  });
}

test('an item comes in one pack, or in several with their prices', () => {
  const packs = (list) => {
    const changed = copy(lesson);
    delete changed.kit[0].pack;
    changed.kit[0].packs = list;
    return problems('lesson', changed).length === 0;
  };
  const pack = { size: 50, price_cents: 300 };
  assert.ok(packs([pack]) && packs(Array(6).fill(pack)));
  for (const bad of [[], Array(7).fill(pack), [{ size: 50 }], [{ ...pack, size: 1001 }], [{ ...pack, price_cents: 0 }], [50]]) assert.ok(!packs(bad), JSON.stringify(bad));
});

test('the event schema refuses wrong data of every kind that has data', () => {
  const wrong = {
    step: [{}, { step: 'No Id' }], page: [{}, { page: 60 }, { page: -1 }], hold: [{}, { reason: 'lunch' }],
    choose: [{ step: 'hang' }, { step: 'hang', choice: 'maybe' }], place: [{ place: 0, is: 'late' }, { place: 61, is: 'late' }, { place: 'Lina', is: 'late' }, { place: 3 }],
    others: [{}, { is: 'gone' }], children: [{ count: 0 }, { count: 61 }], adults: [{ count: 21 }, {}], bell: [{}, { at: 'now' }],
    kit: [{ pile: 'lost', by: 1 }, { pile: 'given', by: 121 }, { pile: 'given' }], tick: [{ list: 'ready', item: 'gloves' }, { list: 'other', item: 'gloves', done: true }],
    lacking: [{ item: 'tray' }, { count: 1 }, { item: 'tray', count: -1 }, { item: 'A tray', count: 1 }], readers: [{}, { count: 0 }, { count: 3 }],
    mishap: [{}, { card: 'Spill!' }], taken: [{ by: 'janitor' }, {}], sheet: [{ language: 'fr' }], note: [{ text: 'a'.repeat(501) }, { text: 5 }],
    undo: [{ seq: 3 }, { device: 'phone', seq: 3 }, { device: eventData.undo.device, seq: 0 }],
  };
  for (const [kind, list] of Object.entries(wrong)) {
    for (const data of list) assert.notDeepEqual(problems('event', event(kind, data)), [], `${kind} ${JSON.stringify(data)}`);
  }
});
