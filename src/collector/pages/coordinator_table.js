// The totals, and the table with one row a visit. Every text goes in as text, never as markup.
import { element } from './coordinator_element.js';
import { formatDate, formatNumber, formatTime, text } from './coordinator_texts.js';
import { drawReport } from './coordinator_report.js';

const NOTHING = '–';

const TOTALS = [
  ['visits', (totals) => totals.visits],
  ['reported', (totals) => totals.reported],
  ['came', (totals) => totals.came],
  ['absent', (totals) => totals.absent],
  ['kits_given', (totals) => totals.kits_given],
  ['mishaps', (totals) => totals.mishaps],
  ['adult_hours', (totals) => totals.adult_minutes / 60],
];

export function drawTotals(list, totals) {
  list.replaceChildren(...TOTALS.map(([name, value]) => element('div', {},
    element('dt', { textContent: text(`coordinator.totals.${name}`) }),
    element('dd', { textContent: formatNumber(value(totals)) }))));
}

/** 'in', 'missing' (the day is over) or 'waiting'. */
function stateOf(visit) {
  if (visit.latest) return 'in';
  const now = new Date();
  const today = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, '0')).join('-');
  return visit.date < today ? 'missing' : 'waiting';
}

function cell(label, ...children) {
  const made = element('td', {}, ...children);
  made.setAttribute('role', 'cell');
  made.dataset.label = text(`coordinator.column.${label}`);
  if (made.textContent === NOTHING) made.classList.add('none');  // left out where a row is a card
  return made;
}

const soft = (words) => element('small', { textContent: words });
const numberCell = (label, value, note) => {
  const made = cell(label, element('span', {}, value === undefined ? NOTHING : formatNumber(value), ...(note ? [soft(note)] : [])));
  made.classList.add('number');
  return made;
};

/** The row that opens under a visit, with the report itself; fetched when it is first asked for. */
function reportRow(visit, fetchReport, button) {
  const body = element('td', { colSpan: 7 });
  body.setAttribute('role', 'cell');
  const row = element('tr', { className: 'details', id: `report-${visit.visit}`, hidden: true }, body);
  row.setAttribute('role', 'row');
  const name = `${visit.school}, ${visit.room}`;
  const say = () => {
    button.textContent = text(row.hidden ? 'coordinator.report.open' : 'coordinator.report.close');
    button.setAttribute('aria-label', `${button.textContent}: ${name}`);
    button.setAttribute('aria-expanded', String(!row.hidden));
  };
  button.setAttribute('aria-controls', row.id);
  say();
  button.addEventListener('click', async () => {
    row.hidden = !row.hidden;
    say();
    if (row.hidden) return;
    body.textContent = text('coordinator.loading');
    try {
      await drawReport(body, visit, await (await fetchReport(visit.visit)).text());
    } catch (error) {
      body.textContent = error.sentence?.() ?? text('coordinator.error.unreachable');
    }
  });
  return row;
}

function visitRows(visit, fetchReport) {
  const { latest } = visit;
  const state = stateOf(visit);
  const when = element('th', { scope: 'row' }, formatDate(visit.date), element('br'), `${visit.start}–${visit.bell}`);
  when.setAttribute('role', 'rowheader');
  const mark = element('span', { className: `state ${state}`, textContent: text(`coordinator.state.${state}`) });
  const report = element('div', {}, mark);
  const mishaps = latest && Object.values(latest.mishaps).reduce((sum, count) => sum + count, 0);
  const row = element('tr', {}, when,
    cell('where', element('span', {}, visit.school, soft(visit.room))),
    cell('sponsor', visit.sponsor || NOTHING),
    numberCell('children', latest?.came, text(latest ? 'coordinator.children.of' : 'coordinator.children.expected',
      { places: latest?.children.places ?? visit.children })),
    numberCell('kits', latest?.kits.given),
    numberCell('mishaps', mishaps ?? undefined),
    cell('report', report));
  row.setAttribute('role', 'row');
  if (!latest) return [row];
  const button = element('button', { type: 'button', className: 'quiet' });
  report.append(soft(formatTime(latest.received_at)), button);
  return [row, reportRow(visit, fetchReport, button)];
}

export function drawVisits(table, visits, fetchReport) {
  table.tBodies[0].replaceChildren(...visits.flatMap((visit) => visitRows(visit, fetchReport)));
}
