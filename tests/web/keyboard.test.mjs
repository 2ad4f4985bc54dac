// The whole visit by keyboard alone: Tab, Shift+Tab, Enter, Space, arrows, Escape and typing. Where focus is can be seen,
// goes in reading order, and is never lost.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { readPng } from './png.mjs';
import { setUp } from './visit.mjs';
import { lesson, say } from './words.mjs';

const NOTE = 'Warm sill. Ñandú, 3 bags.';

// In the page: what Tab stops at, in the order of the document, and how many of them come before where focus is.
function stops() {
  const all = [...document.querySelectorAll('#mirror :is(button, input, textarea)')];
  const focused = document.activeElement;
  const before = all.filter((element) => element.compareDocumentPosition(focused) & Node.DOCUMENT_POSITION_FOLLOWING);
  return {
    focused: focused.dataset.node ?? focused.localName, before: before.length,
    all: all.map((element) => {
      const { x, y, width, height } = element.getBoundingClientRect();
      return { id: element.dataset.node, role: element.getAttribute('role'), x, y, width, height };
    }),
  };
}

class Keyboard {
  constructor(page, lead) { Object.assign(this, { page, lead }); }

  stops() { return this.page.evaluate(stops); }

  key(name) { return this.page.keyboard.press(name); }

  /** Tab or Shift+Tab, whichever is nearer, until `id` has focus. */
  async to(id) {
    await this.page.locator(`#mirror [data-node="${id}"]`).waitFor({ state: 'attached' });
    for (let tries = 0; tries < 5; ++tries) {
      const { all, focused, before: passed } = await this.stops();
      if (focused === id) return;
      const target = all.findIndex((stop) => stop.id === id);
      const onStop = all[passed]?.id === focused;
      const steps = target - passed + (onStop || target < passed ? 0 : 1);
      for (let i = 0; i < Math.abs(steps); ++i) await this.key(steps > 0 ? 'Tab' : 'Shift+Tab');
    }
    assert.fail(`Tab does not come to ${id}`);
  }

  /** Presses the node; `then` is there after it. Focus stays inside the app. */
  async press(id, then, key = 'Enter') {
    await this.to(id);
    await this.key(key);
    if (then) await this.page.locator(`#mirror [data-node="${then}"]`).waitFor({ state: 'attached' });
    await this.lead.settled();
    const { focused } = await this.stops();
    assert.ok(focused !== 'body', `after ${id} focus is nowhere`);
    return focused;
  }
}

describe('a visit by keyboard', () => {
  let s, lead, keys;
  before(async () => {
    s = await setUp({ minutes: 75, phone: { hasTouch: false, isMobile: false, reducedMotion: 'reduce' } });
    lead = s.lead;
    keys = new Keyboard(s.page, lead);
    await lead.open();
    await lead.opened();
  });
  after(() => s.tearDown());

  // How much of the picture around the focused node changes when focus leaves: its ring, or nothing.
  async function ringShows() {
    const { focused, all } = await keys.stops();
    await lead.settled();
    const { x, y, width, height } = (await keys.stops()).all.find(({ id }) => id === focused);
    assert.ok(all.length && x >= 0 && y >= 0 && x + width <= 390 && y + height <= 844, `${focused} has focus out of sight`);
    const clip = { x: Math.max(0, x - 6), y: Math.max(0, y - 6), width: width + 12, height: height + 12 };
    const shoot = async () => readPng(await s.page.screenshot({ clip })).pixels;
    const withRing = await shoot();
    await s.page.evaluate(() => document.activeElement.blur());
    await lead.settled();
    const without = await shoot();
    await s.page.locator(`[data-node="${focused}"]`).focus();
    const changed = withRing.reduce((sum, pixel, i) => sum + (pixel !== without[i]), 0);
    assert.ok(changed > 2 * (width + height), `${changed} pixels tell that ${focused} has focus`);
  }

  // Reading order: downwards, in a row to the right; once, from the end of the page to the bars below it.
  async function inReadingOrder() {
    const { all } = await keys.stops();
    const back = all.slice(1).filter((stop, i) => {
      const last = all[i];
      const sameRow = Math.min(stop.y + stop.height, last.y + last.height) - Math.max(stop.y, last.y) > Math.min(stop.height, last.height) / 2;
      return sameRow ? stop.x <= last.x : stop.y < last.y;
    });
    assert.ok(back.length <= 1, `against the reading order: ${back.map(({ id }) => id)}`);
    for (const bar of back.length ? all.slice(all.indexOf(back[0])) : []) {
      assert.ok(bar.y >= 0 && bar.y + bar.height <= 844, `${bar.id} comes last and is no bar`);
    }
  }

  it('Tab stops at everything on Brief, in order, with a ring', async () => {
    const { all } = await keys.stops();
    await inReadingOrder();
    const met = [];
    for (let i = 0; i < all.length; ++i) {
      await keys.key('Tab');
      met.push((await keys.stops()).focused);
    }
    assert.deepEqual(met, all.map(({ id }) => id));
    assert.ok(met.length > 20);
    await keys.to('brief.ready.gloves');
    await ringShows();
  });

  it('Space and Enter tick a box', async () => {
    const box = (text) => lead.mirror.getByRole('checkbox', { name: text.en, exact: true, checked: true });
    for (const [i, key] of ['Space', 'Enter'].entries()) {
      await keys.press(`brief.ready.${lesson.ready[i].id}`, null, key);
      await box(lesson.ready[i].text).waitFor({ state: 'attached' });
    }
  });

  it('starts the lesson; the way on keeps focus', async () => {
    await keys.press('brief.go', 'lesson.start');
    await keys.press('lesson.start', 'lesson.next');
    await inReadingOrder();
    await keys.to('lesson.next');
    await ringShows();
    assert.equal(await keys.press('lesson.next', 'lesson.safe'), 'lesson.title', 'what had focus is gone: the heading has it');
    assert.equal(await keys.press('lesson.safe', 'lesson.next'), 'lesson.title');
  });

  it('arrows go along the tabs; places and kits are counted', async () => {
    await keys.to('tab.lesson');
    await keys.key('ArrowRight');
    assert.equal((await keys.stops()).focused, 'tab.room');
    await keys.press('tab.room', 'room.title');
    await inReadingOrder();
    await keys.press('room.place.3', null, 'Space');
    await ringShows();
    await keys.press('room.mark.late');
    await keys.press('room.place.7');
    await keys.press('room.others', 'kits.one_each');
    await keys.press('kits.one_each', 'kits.rest');  // the button that had focus is gone
    await keys.press('kits.with_teacher.more');
    await keys.press('kits.rest');
    await lead.sees(say('kits.balances', { given: 23, spoiled: 0, teacher: 1, spare: 3, brought: 27 }));
  });

  it('Escape goes back from a panel', async () => {
    await keys.press('tab.care', 'care.card.spill');
    await keys.press('care.card.spill', 'care.log');
    await keys.press('care.log', 'care.undo');
    await inReadingOrder();
    await keys.key('Escape');
    await lead.gone('button', say('care.log'));
  });

  it('goes through the lesson to its end', async () => {
    await keys.press('tab.lesson', 'lesson.title');
    for (let step; (step = await lead.step());) {
      const waysOn = await s.page.evaluate(() => ['lesson.safe', 'story.turn', 'lesson.next'].filter((id) => document.querySelector(`[data-node="${id}"]`)));
      const before = await lead.mirror.innerText();
      await keys.press(waysOn[0]);
      await s.page.waitForFunction((text) => document.getElementById('mirror').innerText !== text, before);
      if (step === lesson.steps.at(-1)) break;
    }
    await lead.seesNode('heading', say('lesson.done'));
  });

  it('hands over, and sends a report with a typed note', async () => {
    await keys.press('lesson.to_handover', 'handover.title');
    for (const { id } of lesson.handover) await keys.press(`handover.item.${id}`, null, 'Space');
    await keys.press('handover.by.teacher', 'handover.to_report');
    await keys.press('handover.sheet', 'sheet.title');
    await inReadingOrder();
    await keys.press('panel.back', 'handover.to_report');
    await keys.press('handover.to_report', 'report.title');
    await keys.to('report.note');
    await s.page.keyboard.type(NOTE);
    await keys.press('report.send');
    await lead.received();
    const report = await (await lead.stored()).json();
    assert.equal(report.note, NOTE);
    assert.equal(report.taken_by, 'teacher');
    assert.deepEqual([report.children.present, report.children.late, report.children.absent], [22, 1, 1]);
    assert.ok(report.steps.every(({ outcome }) => outcome === 'done'));
    assert.deepEqual(Object.values(report.handover), lesson.handover.map(() => true));
    assert.deepEqual(report.mishaps, { spill: 1 });
    assert.deepEqual(s.phone.errors, []);
  });
});
