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

// A county's schools with their days and offset, those that a calendar file and a time zone give, too:
// by ical.js and by the JavaScript engine's own zones, with the usual words of src/core/county.cpp.
const ICAL = require('ical.js');
const listed = (name) => [...new RegExp(`"${name}",\\s*\\{([^}]*)\\}`).exec(readText('src/core/county.cpp'))[1].matchAll(/"([^"]+)"/g)].map((match) => match[1]);
export const usualWords = { closed: listed('closed_words'), half_day: listed('half_day_words') };
const says = (text, words) => words.some((word) => new RegExp(`(?<![\\p{L}\\p{N}])${word}(?![\\p{L}\\p{N}])`, 'iu').test(text));
const dayText = (time) => time.toString().slice(0, 10);

// When an event takes place, up to a day. Without a rule, this reader leaves DTSTART out where there are RDATEs and does
// not take it away by EXDATE; RFC 5545, 3.8.5.1, has it as the first of the set, from which exceptions are then taken.
function startsOf(event, to) {
  const starts = new Map();
  const steps = event.iterator();
  for (let start; (start = steps.next()) && dayText(start) <= to;) starts.set(start.toString(), start);
  const { component, startDate } = event;
  const excepted = component.getAllProperties('exdate').flatMap((property) => property.getValues()).some((value) => value.compare(startDate) === 0);
  if (!component.hasProperty('rrule')) {
    if (excepted) starts.delete(startDate.toString());
    else starts.set(startDate.toString(), startDate);
  }
  return [...starts.values()];
}

// [{ summary, kind: 'closed', 'half_day' or 'other', days: [first, last] }] of every event and repetition from one day to another.
export function calendarEvents(text, from, to, words = usualWords) {
  const calendar = new ICAL.Component(ICAL.parse(text));
  const events = calendar.getAllSubcomponents('vevent').map((component) => new ICAL.Event(component));
  const found = [];
  for (const event of events) {
    const categories = event.component.getAllProperties('categories').flatMap((property) => property.getValues());
    const said = [event.summary, ...categories].join('\n');
    const kind = says(said, words.half_day) ? 'half_day' : says(said, words.closed) ? 'closed' : 'other';
    for (const start of startsOf(event, to)) {
      const { endDate } = event.getOccurrenceDetails(start);
      const last = endDate.clone();
      if (last.compare(start) > 0) last.adjust(event.startDate.isDate ? -1 : 0, 0, 0, event.startDate.isDate ? 0 : -1);
      if (dayText(last) >= from && dayText(start) <= to) found.push({ summary: event.summary, kind, days: [dayText(start), dayText(last)] });
    }
  }
  return found;
}

export const addDays = (date, count) => new Date(Date.parse(`${date}T00:00Z`) + count * 86400000).toISOString().slice(0, 10);
export const weekday = (date) => new Date(`${date}T00:00Z`).getUTCDay();

// Minutes east of UTC at noon of a day.
export function offsetAt(zone, date) {
  const shown = new Intl.DateTimeFormat('en-US', { timeZone: zone, timeZoneName: 'longOffset' }).formatToParts(new Date(`${date}T18:00Z`));
  const [, sign, hours, minutes] = /GMT(?:([+-])(\d+):(\d+))?/.exec(shown.find((part) => part.type === 'timeZoneName').value);
  return sign ? (sign === '-' ? -1 : 1) * (hours * 60 + +minutes) : 0;
}

export function lookedUp(school, date, daysAfter = 120, folder = 'content/demo/') {
  const { time_zone: zone, calendar, ...rest } = school;
  const made = { utc_offset_minutes: zone && offsetAt(zone, date), closed: [], half_days: [], ...rest };
  if (calendar) {
    const events = calendarEvents(readText(folder + calendar.file), addDays(date, -14), addDays(date, daysAfter));
    const of = (kind) => events.filter((event) => event.kind === kind).sort((a, b) => (a.days[0] < b.days[0] ? -1 : 1));
    made.closed = [...made.closed, ...of('closed').map(({ days: [from, to] }) => ({ from, to }))];
    made.half_days = [...made.half_days, ...of('half_day').map(({ days }) => days[0])];
  }
  return made;
}

// Words as src/core/story.h counts them: between white space, holding a letter or digit.
export const words = (text) => text.split(/\s+/u).filter((word) => /[\p{L}\p{N}]/u.test(word));

// The brief of a county's visit, with a key that opens nothing.
export function briefOf(visit) {
  const school = county.schools.find((each) => each.id === visit.school);
  const { id, name, ...rules } = lookedUp(school, visit.date);
  const { id: visitId, ...facts } = visit;
  return {
    format: 'trowelbell.brief', version: 1, visit: visitId, key: 'not-a-real-key-0123', ...rules, ...facts, school: name,
    sponsor: county.sponsors.find((each) => each.id === visit.sponsor).name,
  };
}
