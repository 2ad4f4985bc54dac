// The plan against the bell: a late start, the lead's own word, a fire drill.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { setUp, trowelbell } from './visit.mjs';
import { lesson, pattern, say } from './words.mjs';

const MINUTE = 60 * 1000;

describe('the plan', () => {
  const SLOT = 45;
  const LATE = 12;
  const DRILL = 11;  // the steps that must be done still fit after it, those that should not all of them
  let s, lead;
  before(async () => {
    s = await setUp({ minutesAgo: LATE, minutes: SLOT });
    lead = s.lead;
    await lead.holdClock();
    await lead.open();
    await lead.opened();
    await lead.tapButton('brief.to_lesson');
  });
  after(() => s.tearDown());

  const leftOut = (words) => ['why.left_out_hurry', 'why.left_out_time'].some((key) => pattern(key).test(words));
  const titles = lesson.steps.filter(({ keep }) => keep !== 'must').map(({ title }) => title.en);

  // Minutes to the bell as Lesson says them.
  async function toBell() {
    const said = await lead.mirror.getByRole('timer').filter({ hasText: pattern('bell.ahead') }).textContent();
    return Number(said.match(pattern('bell.ahead')).groups.time.match(/\d+/)[0]);
  }

  // Seconds left in the step as Lesson says them; negative when it is over.
  async function stepLeft() {
    const said = await lead.mirror.getByRole('timer').allTextContents();
    for (const [key, sign] of [['lesson.left', 1], ['lesson.over', -1]]) {
      const time = said.map((text) => text.match(pattern(key))).find(Boolean)?.groups.time.split(':').map(Number);
      if (time) return sign * (time[0] * 60 + time[1]);
    }
    throw new Error(`no time of the step in ${said}`);
  }

  // The steps that the plan leaves out, with their reasons, from the notes on Plan; steps that are over have none.
  async function planned() {
    const notes = await lead.mirror.locator('p').allTextContents();
    return titles.filter((title) => notes.some((note) => leftOut(note) && note.includes(`“${title}”`)));
  }

  it('a start twelve minutes late leaves a step out, and says which and why', async () => {
    const reason = await lead.mirror.getByRole('status').filter({ hasText: /“/ }).textContent();
    assert.ok(leftOut(reason), reason);
    assert.ok(titles.some((title) => reason.includes(`“${title}”`)), reason);
    assert.ok(SLOT - LATE - 3 <= await toBell() && await toBell() <= SLOT - LATE);
  });

  it('the plan leaves out what the command line does', async () => {
    await lead.tapButton('plan.open');
    await lead.seesNode('heading', say('plan.title'));
    const time = new Date(Date.now() + s.brief.utc_offset_minutes * MINUTE).toISOString().slice(11, 19);
    const pace = JSON.parse(await trowelbell('pace', '--brief', s.file, '--at', time, '--json'));
    const out = pace.steps.filter(({ kept }) => !kept).map(({ id }) => lesson.steps.find((step) => step.id === id).title.en);
    assert.deepEqual(await planned(), out);
    assert.ok(out.length > 0);
    await lead.tapButton('panel.back');
  });

  it('"Keep" brings a step back, and it stays after a reload', async () => {
    await lead.start();
    await lead.tapButton('plan.open');
    await lead.seesNode('heading', say('plan.title'));
    const [step] = await planned();
    await lead.tapButton('plan.keep.name', { step });
    await lead.seesNode('button', say('plan.drop.name', { step }));
    assert.ok(!(await planned()).includes(step));
    await s.page.reload();
    await lead.tapButton('plan.open');
    await lead.seesNode('button', say('plan.drop.name', { step }));
    await lead.tapButton('panel.back');
    await lead.tapButton('undo');
    await lead.tapButton('plan.open');
    await lead.seesNode('button', say('plan.keep.name', { step }));
    await lead.tapButton('panel.back');
  });

  it('the plan can be read to its end', async () => {
    await lead.tapButton('plan.open');
    try {
      await lead.place('button', say('plan.go.name', { step: lesson.steps.at(-1).title.en }));
    } finally {
      await lead.tapButton('panel.back');
    }
  });

  it('a fire drill: the step\'s clock stands, the bell comes nearer, the plan is made anew', async () => {
    await lead.tapButton('plan.open');
    await lead.seesNode('heading', say('plan.title'));
    const before = await planned();
    await lead.tapButton('panel.back');
    await lead.seesNode('button', say('lesson.hold'));
    const left = await stepLeft();
    await lead.tapButton('lesson.hold');
    await lead.tapButton('hold.drill');
    await lead.seesNode('heading', say('hold.title'));
    await lead.sees(say('hold.drill.words'));
    const bell = await toBell();
    await lead.putForward(DRILL);
    await lead.sees(new RegExp(say('hold.time', { time: `${DRILL}:\\d\\d` })));
    await lead.tapButton('lesson.resume');
    await lead.seesNode('heading', lesson.steps[0].title.en);
    assert.ok(bell - await toBell() >= DRILL && bell - await toBell() <= DRILL + 1);
    assert.ok(left - await stepLeft() < 60, 'the drill was counted as time of the step');
    await lead.tapButton('plan.open');
    await lead.seesNode('heading', say('plan.title'));
    const after = await planned();
    assert.ok(after.length > before.length, `${after.length} left out after the drill, ${before.length} before`);
    for (const step of before) assert.ok(after.includes(step), step);
  });

  it('a drill so long that nothing fits says so, and defers to the teacher', async () => {
    await lead.tapButton('panel.back');
    await lead.putForward(10);
    await lead.sees(pattern('plan.short'));
    await lead.sees(pattern('pace.short'));
    assert.deepEqual(s.phone.errors, []);
  });
});
