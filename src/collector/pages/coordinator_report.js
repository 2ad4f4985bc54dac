// One report, opened under its visit: what the numbers in the table leave out.
import { element } from './coordinator_element.js';
import { formatNumber, formatTime, language, text } from './coordinator_texts.js';

let cards;  // care cards by id, for the names of mishaps; an id has to do where they cannot be had

async function cardNames() {
  cards ??= fetch('content/care/cards.json').then((response) => response.json())
    .then((document) => new Map(document.cards.map((card) => [card.id, card.mishap ?? card.title])))
    .catch(() => { cards = undefined; return new Map(); });
  return cards;
}

function entries(report, names) {
  const { children, kits } = report;
  const mishaps = Object.entries(report.mishaps)
    .map(([id, count]) => `${names.get(id)?.[language()] ?? id}: ${formatNumber(count)}`);
  const left = report.steps.filter((step) => step.outcome !== 'done').length;
  const open = Object.values(report.handover).filter((done) => !done).length;
  return [
    ['time', report.began_at && report.ended_at ? `${formatTime(report.began_at)} – ${formatTime(report.ended_at)}` : '–'],
    ['children', text('coordinator.report.children_text', children)],
    ['adults', text('coordinator.report.adults_text', { adults: report.adults, minutes: report.adult_minutes })],
    ['kits', text('coordinator.report.kits_text', kits)],
    ['mishaps', mishaps.join('\n') || text('coordinator.report.none')],
    ['steps_left', left ? formatNumber(left) : text('coordinator.report.none')],
    ['handover', text(open ? 'coordinator.report.handover_open' : 'coordinator.report.handover_done', { open })],
    ['taken_by', report.taken_by ? text(`coordinator.report.taken_by.${report.taken_by}`) : '–'],
    ['note', report.note || '–'],
  ];
}

/** Saves the report's own bytes, for the command line. */
function saveButton(visit, bytes) {
  const button = element('button', { type: 'button', textContent: text('coordinator.report.save') });
  button.addEventListener('click', () => {
    const address = URL.createObjectURL(new Blob([bytes], { type: 'application/json' }));
    element('a', { href: address, download: `${visit.visit}.report.json` }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60000);
  });
  return button;
}

/** Throws where `bytes` are not a report. */
export async function drawReport(body, visit, bytes) {
  const report = JSON.parse(bytes);
  const list = element('dl', {}, ...entries(report, await cardNames()).flatMap(([name, words]) => [
    element('dt', { textContent: text(`coordinator.report.${name}`) }),
    element('dd', { textContent: words })]));
  body.replaceChildren(list, saveButton(visit, bytes));
}
