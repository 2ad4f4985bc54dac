// Makes the pictures of assets/screens for README: node tests/web/screens.mjs
// A visit of the invented county, its clock put forward as if every step took about the time it was given.
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { root } from './browser.mjs';
import { readPng, writePng } from './png.mjs';
import { setUp } from './visit.mjs';
import { cards, count, lesson, say } from './words.mjs';

const MOST_BYTES = 40 * 1024;
const SLOT = 45;  // it ends now, so that it is received when it ended
const folder = join(root, 'assets/screens');

const s = await setUp({ minutesAgo: SLOT, minutes: SLOT, phone: { reducedMotion: 'reduce', colorScheme: 'light' } });
const { lead, page } = s;

// As many colours as the size allows.
async function save(name, of = page) {
  const image = readPng(await of.screenshot());
  const png = [128, 64, 32, 16].map((colors) => writePng(image, colors)).find(({ length }) => length < MOST_BYTES);
  if (!png) throw new Error(`${name} is larger than ${MOST_BYTES} bytes even in 16 colours`);
  await writeFile(join(folder, `${name}.png`), png);
}

async function shoot(name) {
  await page.evaluate(() => document.activeElement.blur());
  await lead.settled();
  await save(name);
}

async function playTimed(until) {
  for (let step; (step = await lead.step()) && step.id !== until;) {
    const { seconds, per_child: each } = step;
    const share = Math.ceil(s.brief.children / s.brief.adults);
    await lead.putForward((seconds ? seconds.plan + share * (each?.plan ?? 0) : 420) / 60);
    await lead.doStep();
  }
}

await mkdir(folder, { recursive: true });
try {
  await lead.holdClock(-SLOT);
  await lead.open();
  await lead.opened();
  await shoot('brief');
  await lead.tapButton('brief.to_lesson');
  await lead.start();
  await playTimed('hello');
  await lead.go('room');
  await lead.places('absent', [3, 11]);
  await lead.places('late', [7]);
  await lead.tapButton('room.others');
  await lead.sees(say('room.count', { here: 22, all: 24 }));
  await shoot('room');
  await lead.go('lesson');
  await playTimed('story');
  for (let turned = 1; turned < 5; ++turned) {
    await lead.putForward(0.5);
    await lead.turnPage();
  }
  await shoot('story');
  await lead.putForward(7);
  await lead.tapButton('plan.open');
  await shoot('plan');
  await lead.tapButton('panel.back');
  await lead.putForward(-4);
  await playTimed('tuck-seeds');
  await shoot('lesson');
  await page.emulateMedia({ colorScheme: 'dark' });
  await shoot('lesson-dark');
  await page.emulateMedia({ colorScheme: 'light' });

  await lead.tap('button', s.brief.room);
  await lead.tap('button', say('language.name', {}, 'es'));
  await lead.tap('button', say('brief.back_to_lesson', {}, 'es'));
  await shoot('lesson-es');
  await lead.tap('button', s.brief.room);
  await lead.tap('button', say('language.name'));
  await lead.tapButton('brief.back_to_lesson');

  await lead.go('care');
  await lead.tap('button', cards.find(({ id }) => id === 'seed-in-nose').title.en);
  await shoot('care');
  await lead.go('room');
  await lead.tapButton('kits.one_each');
  await lead.moreKits('spoiled', 1);
  await lead.moreKits('with_teacher', 1);
  await lead.moreKits('with_teacher', 2);
  await lead.tap('button', count('kits.rest', 2));
  await lead.go('lesson');
  await playTimed();
  await lead.go('handover');
  for (const { text } of lesson.handover.slice(0, 2)) await lead.tick(text.en);
  await page.mouse.move(195, 300);
  await page.mouse.wheel(0, -2000);
  await shoot('handover');
  await lead.tapButton('handover.sheet');
  await shoot('sheet');
  await lead.tapButton('panel.back');
  await lead.tapButton('handover.by.teacher');
  await lead.go('report');
  await lead.tapButton('report.send');
  await lead.received();
  await shoot('report');

  const office = await s.phone.context.newPage();
  await office.setViewportSize({ width: 1000, height: 780 });
  await office.goto(s.collector.coordinatorUrl);
  await office.getByText(s.brief.school).first().waitFor();
  await save('coordinator', office);
} finally {
  await s.tearDown();
}
