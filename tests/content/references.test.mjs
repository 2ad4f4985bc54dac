// The parts of the content name each other rightly, and every text is there in both languages.
import assert from 'node:assert/strict';
import { test } from 'node:test';

import { care, content, county, index, languages, lesson, localTexts, readText, species, story } from './tools.mjs';

const unique = (ids, where) => assert.equal(new Set(ids).size, ids.length, `an id stands twice in ${where}`);
const ids = (items) => items.map((item) => item.id);

test('the index calls every file what it calls itself', () => {
  for (const group of ['lessons', 'stories', 'species']) {
    for (const [id, path] of Object.entries(index[group])) assert.equal(content(path).id, id);
  }
  for (const [tag, path] of Object.entries(index.languages)) assert.equal(content(path).language, tag);
});

test('ids stand once in each list', () => {
  for (const list of ['steps', 'kit', 'ready', 'handover']) unique(ids(lesson[list]), list);
  for (const list of ['schools', 'sponsors', 'visits']) unique(ids(county[list]), list);
  unique(ids(care.cards), 'cards');
  for (const step of lesson.steps) unique(step.cards, step.id);
});

test('the lesson names a story, species and care cards that exist', () => {
  assert.ok(index.stories[lesson.story]);
  for (const id of lesson.species) assert.ok(species[id], id);
  for (const step of lesson.steps) {
    for (const card of step.cards) assert.ok(ids(care.cards).includes(card), `${step.id}: ${card}`);
  }
});

test('every care card is within reach of some step', () => {
  const reached = new Set(lesson.steps.flatMap((step) => step.cards));
  assert.deepEqual(ids(care.cards).filter((id) => !reached.has(id)), []);
});

// The names are those of the program itself.
const header = readText('src/core/content.h');
const drawings = (list) => [...new RegExp(`${list}\\[\\] = \\{([^}]*)\\}`).exec(header)[1].matchAll(/"(\w+)"/g)].map((match) => match[1]);

test('drawings are among those the program has', () => {
  const within = (named, list) => assert.deepEqual(named.filter((name) => !drawings(list).includes(name)), [], list);
  within(lesson.steps.map((step) => step.drawing), 'kStepDrawings');
  within(story.pages.map((page) => page.picture), 'kStoryDrawings');
  within(care.cards.map((card) => card.drawing), 'kCareDrawings');
});

test('every text is there in English and Spanish, and the two differ', () => {
  for (const [name, document] of Object.entries({ lesson, story, care, ...species })) {
    const texts = localTexts(document);
    assert.ok(texts.length > 1, name);
    for (const { at, en, es } of texts) {
      assert.ok(en && es, `${name} ${at} lacks a language`);
      assert.notEqual(en, es, `${name} ${at}`);
      assert.equal(en, en.trim(), `${name} ${at}`);
      assert.equal(es, es.trim(), `${name} ${at}`);
      assert.doesNotMatch(en + es, /\s\s|['"]/, `${name} ${at}: one space, curly quotes`);
    }
  }
});

const opening = /[¿¡]/g;
const closing = /[?!]/g;
test('Spanish questions and exclamations open as they close', () => {
  for (const [name, document] of Object.entries({ lesson, story, care })) {
    for (const { at, es } of localTexts(document)) {
      assert.equal((es.match(opening) ?? []).length, (es.match(closing) ?? []).length, `${name} ${at}: ${es}`);
    }
  }
});

const placeholders = (text) => [...new Set(text.match(/\{\w+\}/g) ?? [])].sort();
const letters = (text) => text.replace(/\{\w+\}/g, ' ').match(/\p{L}{2,}/gu) ?? [];

test('the screen words have the same keys and values in both languages, and are translated', () => {
  const [en, es] = [languages.en.texts, languages.es.texts];
  assert.deepEqual(Object.keys(es).sort(), Object.keys(en).sort());
  for (const [key, text] of Object.entries(en)) {
    assert.deepEqual(placeholders(es[key]), placeholders(text), key);
    // One or two words may be the same in both (a name, "No"); a sentence may not.
    if (letters(text).length > 2) assert.notEqual(es[key], text, key);
    if (key.endsWith('.one')) assert.ok(key.replace(/one$/, 'other') in en, `${key} has no .other`);
  }
});

test('dates can be said: seven days, twelve months, and the forms of a day and a range', () => {
  for (const { texts, language } of Object.values(languages)) {
    // Names of days and months against the Unicode locale data that Node carries.
    const named = (options, date) => new Intl.DateTimeFormat(language, { ...options, timeZone: 'UTC' }).format(date);
    for (let day = 0; day < 7; ++day) {
      assert.equal(texts[`date.weekday.${day}`], named({ weekday: 'short' }, Date.UTC(2024, 0, 1 + day)));  // a Monday
    }
    for (let month = 1; month <= 12; ++month) {
      assert.equal(texts[`date.month.${month}`], named({ month: 'long' }, Date.UTC(2024, month - 1, 1)));
    }
    assert.deepEqual(placeholders(texts['date.day']), ['{day}', '{month}', '{weekday}']);
    assert.deepEqual(placeholders(texts['date.range']), ['{from}', '{to}']);
    assert.deepEqual(placeholders(texts['date.range_same_month']), ['{from_day}', '{from_weekday}', '{month}', '{to_day}', '{to_weekday}']);
  }
});
