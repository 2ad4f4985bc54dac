// The safety cards: complete, quick to read, and always deferring to the teacher and the school.
import assert from 'node:assert/strict';
import { test } from 'node:test';

import { care, lesson, localTexts, words } from './tools.mjs';

const said = (card, tag) => card.now.map((line) => line[tag]).join(' ');

test('a card for every danger that the design names', () => {
  assert.deepEqual(care.cards.map((card) => card.id), ['small-parts', 'seed-in-nose', 'raw-bean', 'treated-seed', 'allergy', 'latex',
    'plastic-bag', 'soil-hands', 'spill', 'photographs', 'never-alone', 'unwell']);
});

test('one to three lines before, two to four at once, each short', () => {
  for (const card of care.cards) {
    assert.ok(card.prevent.length >= 1 && card.prevent.length <= 3, card.id);
    assert.ok(card.now.length >= 2 && card.now.length <= 4, card.id);
    for (const { en, es } of [...card.prevent, ...card.now]) assert.ok(words(en).length <= 22 && words(es).length <= 26, en);
  }
});

test('what to do begins with stopping, and the teacher is told in the first two lines', () => {
  for (const card of care.cards) {
    assert.match(card.now[0].en, /^Stop\./, card.id);
    assert.match(card.now[0].es, /^Pare\./, card.id);
    const [en, es] = ['en', 'es'].map((tag) => card.now.slice(0, 2).map((line) => line[tag]).join(' '));
    assert.match(en, /[Tt]ell the teacher/, card.id);
    assert.match(es, /[Aa]vise (ya |enseguida )?a la maestra o al maestro/, card.id);
  }
});

test('emergencies go to the school’s plan first and to local emergency services then', () => {
  const grave = ['small-parts', 'seed-in-nose', 'allergy', 'plastic-bag', 'unwell'];
  for (const card of care.cards.filter((each) => grave.includes(each.id))) {
    assert.match(said(card, 'en'), /plan.*local emergency services/, card.id);
    assert.match(said(card, 'es'), /plan.*emergencias locales/, card.id);
  }
});

test('nobody is told to treat a child', () => {
  // Orders that a helper could take for treatment; allowed only in a sentence that forbids them.
  const treatment = /\b(pull|poke|probe|rinse|blow|tweezers|give|medicine|pinch|vomit|pat|thrust)\b/i;
  for (const card of care.cards) {
    const sentences = said(card, 'en').split(/(?<=\.) /);
    for (const sentence of sentences.filter((each) => treatment.test(each))) assert.match(sentence, /^Do not|^Give no/);
  }
});

test('a mishap is counted by kind: no card that logs asks who', () => {
  const logging = care.cards.filter((card) => card.mishap);
  assert.deepEqual(care.cards.filter((card) => !card.mishap).map((card) => card.id), ['small-parts', 'latex']);
  for (const card of logging) assert.ok(words(card.mishap.en).length <= 6 && words(card.mishap.es).length <= 6, card.id);
  for (const { en } of localTexts(care)) assert.doesNotMatch(en, /\b(write|note|ask) (down )?(the|a) (child’s )?name/i);
});

test('the poison line is the published one', () => {
  // US Health Resources and Services Administration, poisonhelp.hrsa.gov: 1-800-222-1222.
  const card = care.cards.find((each) => each.id === 'raw-bean');
  for (const tag of ['en', 'es']) assert.match(said(card, tag), /1-800-222-1222/);
});

test('every card names a source', () => {
  for (const card of care.cards) assert.ok(card.sources.every((source) => source.length > 10 || source === 'Common practice.'), card.id);
});

test('the lesson defers to the teacher before anything else', () => {
  const meeting = lesson.steps.find((step) => step.id === 'meet-teacher');
  assert.match(meeting.say.map((line) => line.en).join(' '), /Your rules come first/);
});
