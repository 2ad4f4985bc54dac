// The beginning of a visit and its report, in Firefox and in WebKit.
import { setTimeout as sleep } from 'node:timers/promises';
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { startCollector } from './browser.mjs';
import { missing, openFirefox, openWebKit } from './engines.mjs';
import { makeBrief } from './visit.mjs';
import { lesson, pattern, say } from './words.mjs';

const PATIENCE = 40000;

// In the page: where the node of this kind and name stands once it stands still and in view; nothing without it.
async function whereIs(kind, name) {
  const find = () => [...document.querySelectorAll(`#mirror :is(${kind})`)].find((element) => element.textContent === name);
  const element = find();
  if (!element) return null;
  element.focus();
  const box = () => element.getBoundingClientRect();
  for (let at = box(), still = 0; still < 3;) {
    await new Promise(requestAnimationFrame);
    if (!element.isConnected) return null;
    const now = box();
    still = now.x === at.x && now.y === at.y ? still + 1 : 0;
    at = now;
  }
  const { x, y, width, height } = box();
  return { x: x + width / 2, y: y + height / 2 };
}

// In the page: whether a node says so.
function says(source, flags) {
  return [...document.querySelectorAll('#mirror [data-node]')].some((element) => new RegExp(source, flags).test(element.textContent));
}

for (const [name, lacking, open] of [['Firefox', missing.firefox, openFirefox], ['WebKit', missing.webkit, openWebKit]]) {
  describe(name, { skip: lacking || false }, () => {
    let made, collector, engine, clickedAt = 0;
    before(async () => {
      made = await makeBrief();
      collector = await startCollector({ briefs: [made.file] });
      engine = await open();
    });
    after(async () => {
      await engine?.close();
      await collector.stop();
      await made.remove();
    });

    async function until(ask, what) {
      for (const end = Date.now() + PATIENCE; Date.now() < end;) {
        const answer = await ask();
        if (answer) return answer;
      }
      const screen = await engine.evaluate(() => document.body.innerText.replace(/\n+/g, '\n').slice(0, 1000));
      throw new Error(`${what} is not on the screen:\n${screen}`);
    }
    const sees = (text) => until(() => engine.evaluate(says, text.source, text.flags), String(text));
    async function tap(kind, label) {
      const { x, y } = await until(() => engine.evaluate(whereIs, kind, label), label);
      // Not on the heels of the last one: the app takes that for a slip of the thumb.
      await sleep(Math.max(0, 450 - (Date.now() - clickedAt)));
      await engine.click(x, y);
      clickedAt = Date.now();
    }
    const button = (label) => tap('button:not([role])', label);
    const heading = (label) => until(() => engine.evaluate(whereIs, 'h1', label), label);

    it('opens the link and begins', async () => {
      await engine.goto(`${collector.url}/${made.fragment}`);
      await heading(`${made.brief.room}, ${made.brief.school}`);
      await button(say('brief.to_lesson'));
      await button(say('lesson.start'));
    });

    it('goes through three steps', async () => {
      for (const [i, step] of lesson.steps.slice(0, 3).entries()) {
        await heading(step.title.en);
        if (step.safety) await button(say('lesson.safe'));
        await button(say('lesson.next', { step: lesson.steps[i + 1].title.en }));
      }
      await heading(lesson.steps[3].title.en);
    });

    it('takes a head count', async () => {
      await tap('[role=tab]', say('tab.room'));
      await button(say('room.place', { n: 2, is: say('room.is.unknown') }));
      await sees(new RegExp(`^${say('room.place', { n: 2, is: say('room.is.absent') })}$`));
      await button(say('room.others'));
      await sees(new RegExp(`^${say('room.count', { here: 23, all: 24 })}$`));
    });

    it('sends the report, and it arrives', async () => {
      await tap('[role=tab]', say('tab.report'));
      await button(say('report.send'));
      await sees(pattern('send.received'));
      const response = await fetch(`${collector.url}/v1/visits/${made.brief.visit}/reports/latest`,
        { headers: { Authorization: `Bearer ${collector.coordinatorKey}` } });
      const report = await response.json();
      assert.deepEqual([report.children.present, report.children.absent], [23, 1]);
      assert.deepEqual(report.steps.filter(({ outcome }) => outcome === 'done').length, 4);
    });
  });
}
