// What the content tests share: reading content/, its schemas, and every text by language in a document.
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

// The npm packages of the tests live with the browser tests.
const require = createRequire(new URL('../web/', import.meta.url));
const Ajv = require('ajv/dist/2020').default;
const addFormats = require('ajv-formats').default;

export const root = fileURLToPath(new URL('../../', import.meta.url));
export const readText = (path) => readFileSync(root + path, 'utf8');
export const readJson = (path) => JSON.parse(readText(path));
export const content = (path) => readJson('content/' + path);
export const copy = (value) => JSON.parse(JSON.stringify(value));

export const index = content('index.json');
export const lesson = content(index.lessons['window-garden']);
export const story = content(index.stories['a-pot-of-not-yet']);
export const species = Object.fromEntries(Object.entries(index.species).map(([id, path]) => [id, content(path)]));
export const care = content(index.care);
export const languages = Object.fromEntries(Object.entries(index.languages).map(([tag, path]) => [tag, content(path)]));
export const county = content('demo/county.json');

const schemaFolder = 'content/schema/';
export const schemas = Object.fromEntries(
  readdirSync(root + schemaFolder).map((file) => [file.replace('.schema.json', ''), readJson(schemaFolder + file)]));

const ajv = new Ajv({ strict: true, strictTypes: false, allErrors: true });
addFormats(ajv);
export const validators = Object.fromEntries(Object.entries(schemas).map(([name, schema]) => [name, ajv.compile(schema)]));

// The problems a schema finds in a document, as lines of text; empty: none.
export function problems(name, document) {
  return validators[name](document) ? [] : validators[name].errors.map((error) => `${error.instancePath} ${error.message}`);
}

const isObject = (value) => typeof value === 'object' && value !== null;
const isLocal = (value) => isObject(value) && Object.keys(value).some((key) => key === 'en' || key === 'es') &&
  Object.values(value).every((text) => typeof text === 'string') && !('en' in value && value.en.endsWith('.json'));

// Every text by language in a document: [{ at: JSON Pointer, en, es }].
export function localTexts(value, at = '') {
  if (isLocal(value)) return [{ at, ...value }];
  if (!isObject(value)) return [];
  return Object.entries(value).flatMap(([key, inner]) => localTexts(inner, `${at}/${key}`));
}

// Words as src/core/story.h counts them: between white space, holding a letter or digit.
export const words = (text) => text.split(/\s+/u).filter((word) => /[\p{L}\p{N}]/u.test(word));

// The brief of a county's visit, with a key that opens nothing.
export function briefOf(visit) {
  const school = county.schools.find((each) => each.id === visit.school);
  const { id, name, ...rules } = school;
  const { id: visitId, ...facts } = visit;
  return {
    format: 'trowelbell.brief', version: 1, visit: visitId, key: 'not-a-real-key-0123', ...rules, ...facts, school: name,
    sponsor: county.sponsors.find((each) => each.id === visit.sponsor).name,
  };
}
