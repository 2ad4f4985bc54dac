// The page taken away and opened again at any moment; fingers that are too quick; the back gesture.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { setUp } from './visit.mjs';
import { lesson, say } from './words.mjs';

const titleOf = (id) => lesson.steps.find((step) => step.id === id).title.en;

describe('the page opened again', () => {
  let s, lead;
  before(async () => {
    s = await setUp({ minutes: 75 });
    lead = s.lead;
    await lead.open();
    await lead.opened();
  });
  after(() => s.tearDown());

  it('before the start: on the brief, with the ticks', async () => {
    const [{ text: { en: first } }] = lesson.ready;
    await lead.tick(first);
    await s.page.reload();
    await lead.opened();
    assert.equal(await lead.title(), `${s.brief.room}, ${s.brief.school}`);
    assert.ok(await lead.node('checkbox', first).isChecked());
  });

  it('two quick taps on Start begin the lesson and no more', async () => {
    await lead.tapButton('brief.to_lesson');
    await twice(await lead.place('button', say('lesson.start')));
    await stays('sign-in');
  });

  it('two quick taps on the safety line confirm it and no more', async () => {
    await lead.play('meet-teacher');
    await twice(await lead.place('button', say('lesson.safe')));
    await stays('meet-teacher');
  });

  it('two quick taps on Next go on by one step', async () => {
    await lead.play('hello');
    await twice(await lead.place('button', say('lesson.next', { step: titleOf('carpet') })));
    await stays('carpet');
  });

  it('in the story: on the same page', async () => {
    await lead.play('story');
    for (let page = 1; page < 5; ++page) await lead.turnPage();
    await s.page.reload();
    await lead.seesNode('heading', titleOf('story'));
    assert.equal(await lead.storyPage(), 5);
  });

  it('two quick taps turn one page', async () => {
    const page = await lead.storyPage();
    await twice(await lead.place('button', say('story.turn')));
    await lead.settled();
    assert.equal(await lead.storyPage(), page + 1);
  });

  it('on hold: still on hold, for the same reason', async () => {
    const page = await lead.storyPage();
    await lead.tapButton('lesson.hold');
    await lead.tapButton('hold.teacher');
    await lead.seesNode('heading', say('hold.title'));
    await s.page.reload();
    await lead.seesNode('heading', say('hold.title'));
    await lead.sees(say('hold.teacher.words'));
    await lead.tapButton('lesson.resume');
    await lead.seesNode('heading', titleOf('story'));
    assert.equal(await lead.storyPage(), page);
  });

  it('the back gesture closes a panel and stays in the step', async () => {
    await lead.tapButton('plan.open');
    await lead.seesNode('heading', say('plan.title'));
    await s.page.goBack();
    await lead.seesNode('heading', titleOf('story'));
    await lead.gone('heading', say('plan.title'));
  });

  it('after the finish: the lesson is over, and the report can be sent', async () => {
    await lead.tapButton('story.stop');
    await lead.gone('heading', titleOf('story'));
    await lead.play();
    await s.page.reload();
    await lead.seesNode('heading', say('lesson.done'));
    await lead.go('report');
    await lead.tapButton('report.send');
    await lead.received();
    await s.page.reload();
    await lead.seesNode('heading', say('lesson.done'));
    await lead.go('report');
    await lead.received();
    assert.equal(await lead.reportCount(), 1);
    assert.deepEqual(s.phone.errors, []);
  });

  // A finger that trembles: the second touch comes 120 ms after the first, at the same point.
  async function twice({ x, y }) {
    await lead.unhurried();
    await s.page.touchscreen.tap(x, y);
    await s.page.waitForTimeout(120);
    await s.page.touchscreen.tap(x, y);
    lead.ledOnAt = Date.now();
  }

  async function stays(id) {
    await lead.settled();
    assert.equal(await lead.title(), titleOf(id));
  }
});
