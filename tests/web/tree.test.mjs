// The whole visit as a screen reader has it: nodes are found in the browser's accessibility tree by role and name, and
// pressed by the action that a reader asks for. What is spoken by itself is what a listener can bear.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { setUp } from './visit.mjs';
import { cards, count, lesson, pattern, say, story } from './words.mjs';

const PATIENCE = 15000;
const STEP_MARKS = [5, 2, 1];  // minutes to the bell that are spoken

// In the page, before anything runs: keeps what the live regions say, with how urgently.
function listen() {
  globalThis.heard = [];
  addEventListener('DOMContentLoaded', () => {
    const watch = new MutationObserver((changes) => {
      for (const { target } of changes) {
        const region = (target.closest ? target : target.parentElement)?.closest('[aria-live], [role=alert], [role=status]');
        if (!region || region.getAttribute('aria-live') === 'off') continue;
        const text = region.textContent.trim();
        if (text) heard.push({ text, urgent: region.id === 'assertive' || region.getAttribute('role') === 'alert' });
      }
    });
    watch.observe(document.body, { subtree: true, childList: true, characterData: true });
  });
}

/** A screen reader: sees the tree of CDP's Accessibility domain, and nothing else. */
class Reader {
  constructor(session) { this.session = session; }

  static async open(page) {
    const session = await page.context().newCDPSession(page);
    await session.send('Accessibility.enable');
    await session.send('DOM.enable');
    return new Reader(session);
  }

  /** Nodes of this role; `name`: the whole name, or a pattern of it. */
  async find(role, name) {
    const { root } = await this.session.send('DOM.getDocument', { depth: 0 });
    const asked = { nodeId: root.nodeId, role, ...(typeof name === 'string' ? { accessibleName: name } : {}) };
    const { nodes } = await this.session.send('Accessibility.queryAXTree', asked);
    return nodes.filter((node) => !node.ignored && (!(name instanceof RegExp) || name.test(node.name?.value ?? '')));
  }

  async wait(role, name, there = true) {
    for (const until = Date.now() + PATIENCE; Date.now() < until;) {
      const [node] = await this.find(role, name).catch(() => []);
      if (Boolean(node) === there) return node;
      await new Promise((resolve) => { setTimeout(resolve, 40); });
    }
    const { nodes } = await this.session.send('Accessibility.getFullAXTree');
    const seen = nodes.filter((node) => !node.ignored && node.name?.value).map((node) => `${node.role.value} "${node.name.value}"`);
    throw new Error(`${role} "${name}" ${there ? 'does not appear among' : 'stays among'}\n${seen.slice(0, 80).join('\n')}`);
  }

  gone(role, name) { return this.wait(role, name, false); }

  async call({ backendDOMNodeId: backendNodeId }, what, ...values) {
    const { object } = await this.session.send('DOM.resolveNode', { backendNodeId });
    const { result } = await this.session.send('Runtime.callFunctionOn', {
      objectId: object.objectId, functionDeclaration: what, arguments: values.map((value) => ({ value })), returnByValue: true,
    });
    return result.value;
  }

  /** The default action of the node; `gone`: it goes away by that. Gives its name. */
  async press(role, name, { gone = false } = {}) {
    const node = await this.wait(role, name);
    await this.call(node, 'function () { this.click(); }');
    if (gone) await this.gone(role, name);
    return node.name.value;
  }

  static state(node, property) { return node.properties.find(({ name }) => name === property)?.value.value; }
}

describe('a visit through the accessibility tree', () => {
  let s, reader;
  before(async () => {
    s = await setUp({ minutes: 60, phone: { reducedMotion: 'reduce' } });
    await s.page.addInitScript(listen);
    await s.lead.holdClock();
    await s.lead.open();
    reader = await Reader.open(s.page);
    await reader.wait('button', say('brief.to_lesson'));
  });
  after(() => s.tearDown());

  const heard = () => s.page.evaluate(() => heard);
  const forget = () => s.page.evaluate(() => { heard.length = 0; });
  async function hears(text, urgent = false) {
    await s.page.waitForFunction(([words, now]) => heard.some((said) => said.text === words && said.urgent === now), [text, urgent],
      { timeout: PATIENCE }).catch(async () => assert.fail(`"${text}" is not among ${JSON.stringify(await heard())}`));
  }

  it('Brief is a page with a title, headings, lists of boxes and tabs', async () => {
    await reader.wait('heading', `${s.brief.room}, ${s.brief.school}`);
    await reader.wait('heading', say('brief.asks'));
    for (const tab of ['lesson', 'room', 'care', 'handover', 'report']) await reader.wait('tab', say(`tab.${tab}`));
    const text = lesson.ready[0].text.en;
    assert.equal(Reader.state(await reader.wait('checkbox', text), 'checked'), 'false');
    await reader.press('checkbox', text);
    for (const until = Date.now() + PATIENCE; Reader.state(await reader.wait('checkbox', text), 'checked') !== 'true';) {
      assert.ok(Date.now() < until, 'the tick is not told');
    }
    await reader.press('button', say('brief.to_lesson'));
  });

  it('speaks the first step when the lesson starts', async () => {
    await reader.press('button', say('lesson.start'), { gone: true });
    await hears(say('speak.step', { title: lesson.steps[0].title.en }));
    await reader.wait('progressbar', say('bed.name'));
    await reader.wait('StaticText', pattern('lesson.left'));
  });

  it('is silent while seconds go by', async () => {
    await forget();
    const left = (await reader.wait('StaticText', pattern('lesson.left'))).name.value;
    for (const until = Date.now() + 40000; ;) {
      if ((await reader.wait('StaticText', pattern('lesson.left'))).name.value !== left) break;
      assert.ok(Date.now() < until, 'the time stands still');
      await s.page.waitForTimeout(500);
    }
    assert.deepEqual(await heard(), []);
  });

  // One step with its pages and its safety line.
  async function doStep(step) {
    const turn = say('story.turn');
    for (let page = 1; step.reading && page < story.pages.length; ++page) {
      await reader.press('button', turn);
      if (page + 1 < story.pages.length) await reader.wait('StaticText', story.pages[page].text.en);
      else await reader.gone('button', turn);
    }
    if (step.safety && (await reader.find('button', say('lesson.safe'))).length) await reader.press('button', say('lesson.safe'), { gone: true });
    await reader.press('button', step === lesson.steps.at(-1) ? say('lesson.finish') : pattern('lesson.next'));
    await reader.gone('heading', step.title.en);
  }

  async function play(until) {
    for (const step of lesson.steps) {
      if (step.id === until) return;
      if ((await reader.find('heading', step.title.en)).length) await doStep(step);
    }
  }

  it('speaks each step that begins, once', async () => {
    await forget();
    await play('hand-out');
    const steps = (await heard()).map(({ text }) => text).filter((text) => pattern('speak.step').test(text));
    const passed = lesson.steps.slice(1, 1 + lesson.steps.findIndex(({ id }) => id === 'hand-out'));
    assert.deepEqual(steps, passed.map(({ title }) => say('speak.step', { title: title.en })));
  });

  it('places, marks and kits say what they are and what they became', async () => {
    await reader.press('tab', say('tab.room'));
    const place = (n, is) => say('room.place', { n, is: say(`room.is.${is}`) });
    assert.equal(Reader.state(await reader.wait('button', say('room.is.absent')), 'pressed'), 'true');
    await reader.press('button', place(3, 'unknown'), { gone: true });
    await reader.wait('button', place(3, 'absent'));
    await reader.press('button', say('room.others'));
    await hears(say('room.count', { here: 23, all: 24 }));
    await reader.press('button', say('kits.one_each'), { gone: true });
    await reader.press('button', say('kits.more', { pile: say('kits.with_teacher') }));
    await reader.press('button', count('kits.rest', 3), { gone: true });
    await reader.wait('StaticText', say('kits.balances', { given: 23, spoiled: 0, teacher: 1, spare: 3, brought: 27 }));
  });

  it('a mishap is logged', async () => {
    const spill = cards.find(({ id }) => id === 'spill');
    await reader.press('tab', say('tab.care'));
    await reader.press('button', spill.title.en);
    await reader.press('button', say('care.log'));
    await hears(`${count('care.logged', 1)} ${say('care.tell')}`);
    await reader.press('button', say('panel.back'), { gone: true });
  });

  it('speaks at five, two and one minute to the bell, urgently, once', async () => {
    await reader.press('tab', say('tab.lesson'));
    await forget();
    const spent = await s.page.evaluate((start) => (Date.now() - start) / 60000, Date.parse(`${s.brief.date}T${s.brief.start}:00Z`) - s.brief.utc_offset_minutes * 60000);
    let now = spent;
    for (const mark of STEP_MARKS) {
      const target = 60 - mark + 0.2;
      await s.lead.putForward(target - now);
      now = target;
      await hears(count('speak.bell', mark), true);
    }
    const spoken = (await heard()).filter(({ urgent }) => urgent).map(({ text }) => text);
    assert.deepEqual(spoken, STEP_MARKS.map((mark) => count('speak.bell', mark)));
  });

  it('the lesson ends, and is handed over', async () => {
    await play();
    await reader.press('button', say('lesson.to_handover'));
    for (const { text } of lesson.handover) await reader.press('checkbox', text.en);
    await reader.press('button', say('handover.by.teacher'));
    await reader.press('button', say('handover.to_report'));
  });

  it('the report is sent, and that it was received is spoken', async () => {
    await forget();
    const field = await reader.wait('textbox', say('report.note'));
    await reader.call(field, 'function (text) { this.focus(); this.value = text; this.dispatchEvent(new InputEvent("input", { bubbles: true })); }', 'All went well.');
    await reader.press('button', say('report.send'));
    await s.page.waitForFunction((words) => heard.some(({ text, urgent }) => !urgent && new RegExp(words).test(text)),
      pattern('send.received').source.replace(/\$$/, ''));
    const report = await (await s.lead.stored()).json();
    assert.equal(report.note, 'All went well.');
    assert.equal(report.taken_by, 'teacher');
    assert.deepEqual(report.mishaps, { spill: 1 });
    assert.deepEqual([report.children.present, report.children.absent], [23, 1]);
    const received = (await heard()).filter(({ text }) => new RegExp(pattern('send.received').source.replace(/\$$/, '')).test(text));
    assert.equal(received.length, 1);
    assert.deepEqual(s.phone.errors, []);
  });
});
