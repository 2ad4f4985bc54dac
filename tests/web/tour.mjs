// Every screen and panel, in the order of a visit: for tests that look at each. The way goes through the mirror by the
// ids of nodes, so it is the same in every language and at every size.
import { lesson } from './words.mjs';

const selector = (id) => `#mirror [data-node="${id}"]`;

/** Presses a node, and waits for `then`: the id of a node that is there after it, or of one that is `gone`. */
export async function press(page, id, then, { gone = false } = {}) {
  await page.locator(selector(id)).waitFor({ state: 'attached' });
  await page.locator(selector(id)).evaluate((element) => element.click());
  if (then) await page.locator(selector(then)).waitFor({ state: gone ? 'detached' : 'attached' });
}

const has = async (page, id) => await page.locator(selector(id)).count() > 0;
const textOf = (page, id) => page.locator(selector(id)).textContent();

// One tap forward in the lesson: a page, a safety line, a step.
async function forward(page) {
  for (const id of ['lesson.safe', 'story.turn', 'lesson.next']) {
    if (!await has(page, id)) continue;
    const seen = () => page.evaluate(() => [...document.querySelectorAll('#mirror :is(h1, button, p)')]
      .filter(({ dataset }) => /^(lesson\.(title|safe|next)|story\.text)$/.test(dataset.node ?? ''))
      .map(({ dataset, textContent }) => dataset.node + textContent).join());
    const before = await seen();
    await press(page, id);
    for (const until = Date.now() + 10000; await seen() === before;) {
      if (Date.now() > until) throw new Error(`${id} leads nowhere`);
      await page.waitForTimeout(30);
    }
    return;
  }
  throw new Error('the lesson has no way on');
}

// On to the step with this id, or to the end of the lesson.
async function playTo(page, id, language) {
  const title = lesson.steps.find((step) => step.id === id)?.title[language];
  while (!await has(page, 'lesson.to_handover') && await textOf(page, 'lesson.title') !== title) await forward(page);
}

async function open(s, fragment, then) {
  await s.page.goto(`${s.collector.url}/${fragment}`);
  await s.page.locator(selector(then)).waitFor({ state: 'attached' });
}

/** The names of the screens, each while it stands. `s`: what setUp() gave, of a phone whose locale is `language`.
 *  `text`: 0 to 3, the size of letters on Brief. */
export async function* tour(s, { language = 'en', text = 0 } = {}) {
  const { page } = s;
  await open(s, '', 'opening.file');
  yield 'opening';
  await open(s, '#b=%%%%', 'notice.notice.bad_link');
  yield 'bad-link';
  await press(page, 'notice.notice.bad_link.close', 'notice.notice.bad_link', { gone: true });
  await open(s, s.fragment, 'brief.go');
  if (text > 0) await press(page, `phone.text.${text}`);
  yield 'brief';
  await press(page, 'brief.to_outlook', 'outlook.8.20');
  yield 'outlook';
  await press(page, 'panel.back', 'brief.to_packing');
  await press(page, 'brief.to_packing', 'packing.state');
  await press(page, 'packing.item.zip-bag.short', 'packing.item.zip-bag.lacking.more');
  yield 'packing';
  await press(page, 'panel.back', 'brief.go');
  await press(page, 'brief.go', 'lesson.start');
  yield 'before';
  await press(page, 'lesson.start', 'lesson.start', { gone: true });
  yield 'step';
  await press(page, 'lesson.plan', 'plan.bell');
  yield 'plan';
  await press(page, 'panel.back', 'lesson.hold');
  await press(page, 'lesson.big', 'big.left');
  yield 'big';
  await press(page, 'panel.back', 'lesson.hold');
  await press(page, 'lesson.hold', 'hold.drill');
  yield 'hold';
  await press(page, 'hold.drill', 'lesson.resume');
  yield 'held';
  await press(page, 'lesson.resume', 'lesson.hold');
  await playTo(page, 'meet-teacher', language);
  yield 'safety';
  await press(page, 'tab.room', 'room.title');
  await press(page, 'room.place.3');
  await press(page, 'room.mark.late');
  await press(page, 'room.place.7');
  await press(page, 'room.mark.left_early');
  await press(page, 'room.place.8');
  await press(page, 'room.others', 'kits.one_each');
  await press(page, 'kits.one_each', 'kits.rest');
  yield 'room';
  await press(page, 'room.names', 'names.allowed');
  await press(page, 'names.allowed', 'names.place.1');
  await page.locator('#mirror [data-node="names.place.3"]').fill('Juniper');
  await page.locator('#mirror [data-node="names.wipe"]').waitFor({ state: 'attached' });
  yield 'names';
  await press(page, 'panel.back', 'room.title');
  yield 'room-named';
  await press(page, 'tab.lesson', 'lesson.title');
  await playTo(page, 'story', language);
  yield 'story';
  await playTo(page, 'tuck-seeds', language);
  yield 'planting';
  await press(page, 'tab.care', 'care.card.spill');
  yield 'care';
  await press(page, 'care.card.spill', 'care.log');
  await press(page, 'care.log', 'care.undo');
  yield 'card';
  await press(page, 'tab.lesson', 'lesson.title');
  await playTo(page, null, language);
  yield 'finished';
  await press(page, 'lesson.to_handover', 'handover.title');
  yield 'handover';
  await press(page, 'handover.by.teacher', 'uneven.title');
  yield 'uneven';
  await press(page, 'uneven.all_the_same', 'handover.to_report');
  await press(page, 'handover.sheet', 'sheet.title');
  yield 'sheet';
  await press(page, 'panel.back', 'handover.to_report');
  await press(page, 'handover.to_report', 'report.title');
  yield 'report';
  await press(page, 'report.codes', 'codes.code');
  yield 'codes';
  await press(page, 'panel.back', 'report.send');
  await press(page, 'report.send');
  await page.locator('#mirror [data-node^="report.sent."][data-node$=".words"]').waitFor({ state: 'attached' });
  await s.lead.received(language);
  yield 'sent';
  await press(page, 'tab.lesson', 'lesson.brief');
  await press(page, 'lesson.brief', 'phone.practice');
  await press(page, 'phone.practice', 'practice.end');
  await press(page, 'brief.go', 'lesson.start');
  await press(page, 'lesson.start', 'lesson.next');
  yield 'practice';
  await press(page, 'practice.end', 'practice.end', { gone: true });
}
