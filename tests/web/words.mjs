// What the app says, by the keys of content/lang, and the shipped content in a test's hands.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './browser.mjs';

const read = (path) => JSON.parse(readFileSync(join(root, 'content', path), 'utf8'));
const language = (tag) => read(`lang/${tag}.json`).texts;
const texts = { en: language('en'), es: language('es') };

export const lesson = read('lessons/window-garden.json');
export const story = read(`stories/${lesson.story}.json`);
export const cards = read('care/cards.json').cards;
export const county = read('demo/county.json');

/** The text of `key` with its {placeholders} filled in. A key that is missing is a fault of the test. */
export function say(key, filled = {}, tag = 'en') {
  if (!(key in texts[tag])) throw new Error(`no text ${key}`);
  return texts[tag][key].replace(/\{(\w+)\}/g, (all, name) => (name in filled ? String(filled[name]) : all));
}

export const count = (key, n, tag) => say(`${key}.${n === 1 ? 'one' : 'other'}`, { n }, tag);

/** A regular expression for the whole text of `key`, each placeholder left open and caught by its name. */
export function pattern(key, tag) {
  const parts = say(key, {}, tag).split(/\{(\w+)\}/);
  const escaped = (text) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return new RegExp(`^${parts.map((part, i) => (i % 2 ? `(?<${part}>.+?)` : escaped(part))).join('')}$`, 's');
}
