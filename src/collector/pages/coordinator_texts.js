// The page's words, from the language files that the app uses too.

let texts = {};
let tag = 'en';

/** 'en' or 'es': the language in use. */
export const language = () => tag;

/** Loads the nearest language there is. Rejects where its file cannot be had. */
export async function loadTexts(wanted) {
  const next = wanted.toLowerCase().startsWith('es') ? 'es' : 'en';
  const response = await fetch(`content/lang/${next}.json`);
  if (!response.ok) throw new Error(`language file: ${response.status}`);
  texts = (await response.json()).texts;
  tag = next;
  document.documentElement.lang = tag;
  document.title = `Trowelbell: ${text('coordinator.title')}`;
}

/** The text of a key, with its {placeholders} filled; numbers as the language writes them. */
export function text(key, values = {}) {
  return (texts[key] ?? key).replace(/\{(\w+)\}/g, (whole, name) => {
    const value = values[name];
    return typeof value === 'number' ? formatNumber(value) : value ?? whole;
  });
}

/** Fills every element that names its text. */
export function fillTexts(root) {
  for (const element of root.querySelectorAll('[data-text]')) element.textContent = text(element.dataset.text);
}

export const formatNumber = (value) => new Intl.NumberFormat(tag, { maximumFractionDigits: 1 }).format(value);

/** A moment (ms), in the coordinator's own time zone. */
export const formatTime = (ms) => new Intl.DateTimeFormat(tag, { dateStyle: 'medium', timeStyle: 'short' }).format(ms);

/** A visit's date, which belongs to no time zone. */
export function formatDate(iso) {
  const [year, month, day] = iso.split('-').map(Number);
  const options = { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' };
  return new Intl.DateTimeFormat(tag, options).format(Date.UTC(year, month - 1, day));
}
