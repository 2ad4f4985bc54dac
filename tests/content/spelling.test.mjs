// Spelling of all texts for people, by hunspell with the dictionaries of Debian (hunspell-en-us, hunspell-es).
// Good words that those lack stand in words_en.txt and words_es.txt.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';

import { care, county, languages, lesson, localTexts, species, story } from './tools.mjs';

const dictionaries = { en: 'en_US', es: 'es_MX' };
const ours = (tag) => new Set(readFileSync(new URL(`words_${tag}.txt`, import.meta.url), 'utf8').split('\n').filter(Boolean));

function unknownWords(text, tag) {
  const run = spawnSync('hunspell', ['-i', 'utf-8', '-d', dictionaries[tag], '-l'], { input: text, encoding: 'utf8', env: { ...process.env, LC_ALL: 'C.UTF-8' } });
  return run.status === 0 ? [...new Set(run.stdout.split('\n').filter(Boolean))].sort() : null;
}

function texts(tag) {
  const screens = Object.values(languages[tag].texts).map((text) => text.replace(/\{\w+\}/g, ' '));
  const documents = [lesson, story, care, ...Object.values(species)].flatMap((document) => localTexts(document).map((text) => text[tag]));
  const asks = county.schools.filter((school) => school.sheet_language === tag).flatMap((school) => school.school_asks);
  return [...screens, ...documents, ...asks].map((text) => text.replace(/’/g, "'")).join('\n');
}

for (const tag of ['en', 'es']) {
  test(`spelling (${tag})`, (t) => {
    const known = ours(tag);
    const unknown = unknownWords(texts(tag), tag);
    if (unknown === null) return t.skip('hunspell or its dictionary is not installed: apt-get install hunspell hunspell-en-us hunspell-es');
    assert.deepEqual(unknown.filter((word) => !known.has(word)), []);
    assert.deepEqual(unknownWords('qwrtzk', tag), ['qwrtzk']);
  });
}
