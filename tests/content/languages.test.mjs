// The language files against each other and against the sources: no key is missing, none is left over, every text has
// the placeholders and plural forms that it must have.
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { test } from 'node:test';

import { languages, lesson, readText, words } from './tools.mjs';

const texts = Object.fromEntries(Object.entries(languages).map(([tag, { texts: all }]) => [tag, all]));
const keys = Object.keys(texts.en);
const FORMS = ['one', 'other'];

// Keys put together at run time: what they begin with, and all that may follow.
const PILES = ['brought', 'given', 'spoiled', 'with_teacher', 'spare'];
const REASONS = ['drill', 'child', 'teacher', 'other'];
const TAKERS = ['teacher', 'aide', 'office', 'nobody'];
// All that the app can draw, in use or not: a lesson may ask for any.
const drawings = ['step', 'story', 'care'].flatMap((kind) =>
  [...readText(`src/app/drawings/${kind}_pictures.cpp`).matchAll(/^ +\{"(\w+)", \w+\}/gm)].map(([, name]) => name));
const RUN_TIME = {
  'date.weekday.': [0, 1, 2, 3, 4, 5, 6],
  'date.month.': [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
  'drawing.': drawings,
  'handover.by.': TAKERS,
  'hold.': [...REASONS, ...REASONS.map((reason) => `${reason}.words`)],
  'kits.': PILES,
  'packing.per.': [...new Set(lesson.kit.map(({ per }) => per))],
  'report.taken.': TAKERS,
  'room.is.': ['present', 'absent', 'late', 'left_early', 'unknown'],
  'room.short.': ['present', 'absent', 'late', 'left_early'],
  'who.': [...new Set(lesson.steps.map(({ who }) => who))],
  'coordinator.column.': ['when', 'where', 'sponsor', 'children', 'kits', 'mishaps', 'report'],
  'coordinator.empty.': ['all', 'waiting', 'in'],
  'coordinator.error.': ['unreachable', 'key', 'busy', 'other'],
  'coordinator.intake.': ['title', 'help', 'files', 'text', 'take', 'clear', 'working', 'stored', 'already', 'missing', 'damaged', 'unread',
    'newer', 'no_code', 'no_picture', 'no_report', 'too_long', 'pasted', 'refused'],
  'coordinator.intake.refused.': ['unknown', 'conflict', 'unread', 'full', 'storage'],
  'coordinator.report.': ['time', 'children', 'adults', 'kits', 'mishaps', 'steps_left', 'handover', 'taken_by', 'note'],
  'coordinator.report.taken_by.': TAKERS,
  'coordinator.state.': ['in', 'waiting', 'missing'],
  'coordinator.totals.': ['visits', 'reported', 'came', 'absent', 'kits_given', 'mishaps', 'adult_hours'],
};
const runTimeKeys = Object.entries(RUN_TIME).flatMap(([prefix, ends]) => ends.map((end) => prefix + end));

// Sources without comments, and without the ids that widgets give their nodes: many look like keys.
const sources = ['src/app', 'src/core', 'src/collector/pages'].flatMap((folder) =>
  readdirSync(new URL(`../../${folder}`, import.meta.url), { recursive: true })
    .filter((name) => /\.(cpp|h|js|html)$/.test(name))
    .map((name) => readText(`${folder}/${name}`)
      .replace(/^\s*\/\/.*$/gm, '')
      .replace(/\b(?:ui\.\w+\(|go_bar\(ui, |draw_tool\(app, |\.id = )"[^"]*"/g, '')));
const literals = new Set(sources.flatMap((source) => [...source.matchAll(/["'`]([a-z][\w.]*)["'`]/g)].map(([, text]) => text)));

// The first argument of every call that says a text.
function* firstArguments(source) {
  for (const call of source.matchAll(/\b(?:say|(?:words\(\)|language)\s*\.count|text|notify|notify_unread)\(/g)) {
    const begin = call.index + call[0].length;
    let depth = 0;
    let end = begin;
    for (; depth >= 0 && !(depth === 0 && source[end] === ','); ++end) {
      if ('({'.includes(source[end])) ++depth;
      if (')}'.includes(source[end])) --depth;
    }
    yield { called: call[0].slice(0, -1), argument: source.slice(begin, depth < 0 ? end - 1 : end) };
  }
}

test('both languages have the same keys', () => {
  assert.deepEqual(Object.keys(texts.es).sort(), [...keys].sort());
});

test('every key that the sources say exists', () => {
  let found = 0;
  for (const source of sources) {
    for (const { called, argument } of firstArguments(source)) {
      for (const [, , key] of argument.matchAll(/(["'])([a-z][\w.]*)\1/g)) {
        const joined = new RegExp(`["']${key.replaceAll('.', '\\.')}["']\\s*\\+`).test(argument);
        if (joined) {
          assert.ok(key in RUN_TIME, `${key} + … is said, but not declared in this test`);
        } else if (called.endsWith('count')) {
          for (const form of FORMS) assert.ok(keys.includes(`${key}.${form}`), `${key}.${form} is said, but missing`);
        } else if (key.includes('.') || keys.includes(key)) {
          assert.ok(keys.includes(key), `${key} is said, but missing`);
        }
        ++found;
      }
    }
  }
  assert.ok(found > 200, `${found} keys found in the sources`);
  for (const key of runTimeKeys) assert.ok(keys.includes(key), `${key} is missing`);
});

test('every key is said somewhere', () => {
  const used = new Set([...literals, ...runTimeKeys, ...[...literals].flatMap((base) => FORMS.map((form) => `${base}.${form}`))]);
  assert.deepEqual(keys.filter((key) => !used.has(key)), []);
});

const placeholders = (text) => [...new Set([...text.matchAll(/\{(\w+)\}/g)].map(([, name]) => name))].sort();

test('every text has the same placeholders in both languages', () => {
  for (const key of keys) {
    if (key.endsWith('.one')) continue;  // "one" may be a word
    assert.deepEqual(placeholders(texts.es[key]), placeholders(texts.en[key]), key);
  }
});

test('what is counted has a text for one and a text for others', () => {
  const counted = new Set(keys.filter((key) => /\.(one|other)$/.test(key)).map((key) => key.replace(/\.\w+$/, ''))
    .filter((base) => keys.includes(`${base}.one`)));
  assert.ok(counted.size > 15);
  for (const base of counted) {
    for (const [tag, all] of Object.entries(texts)) {
      assert.ok(all[`${base}.other`]?.includes('{n}'), `${tag}: ${base}.other does not tell the number`);
      const odd = placeholders(all[`${base}.one`]).filter((name) => !placeholders(all[`${base}.other`]).includes(name));
      assert.deepEqual(odd, [], `${tag}: ${base}.one`);
    }
  }
});

test('no text of more than two words is the same in both languages', () => {
  const same = keys.filter((key) => texts.en[key] === texts.es[key]);
  assert.deepEqual(same.filter((key) => words(texts.en[key].replace(/\{\w+\}/g, '')).length > 2), []);
});
