// A phone in a pocket for an hour must not run warm: what rests is not drawn.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { setUp } from './visit.mjs';
import { lesson } from './words.mjs';

const SECONDS = 5;
const MOST_FRAMES_A_BURST = 3;  // Dear ImGui settles within three frames after an event

// In the page, before anything runs: counts the animation frames that the page asks for.
function countFrames() {
  const ask = requestAnimationFrame.bind(globalThis);
  globalThis.asked = [];
  globalThis.requestAnimationFrame = (draw) => {
    asked.push(Math.round(performance.timeOrigin + performance.now()));
    return ask(draw);
  };
}

describe('at rest', () => {
  let s, lead;
  before(async () => {
    s = await setUp({ phone: { reducedMotion: 'reduce' } });
    lead = s.lead;
    await s.phone.context.addInitScript(countFrames);
    await lead.open();
    await lead.opened();
  });
  after(() => s.tearDown());

  // When frames were asked for in the next seconds, once the page is at rest.
  async function frames() {
    return s.page.evaluate(async ({ seconds }) => {
      const wait = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });
      for (let before = -1; before !== asked.length;) {
        before = asked.length;
        await wait(400);
      }
      const from = Date.now();
      asked.length = 0;
      await wait(seconds * 1000);
      return { from, to: Date.now(), asked };
    }, { seconds: SECONDS });
  }

  it('Brief draws nothing but the turn of a minute', async () => {
    const { from, to, asked } = await frames();
    const minutes = Math.floor(to / 60000) - Math.floor(from / 60000);
    assert.ok(asked.length <= minutes * MOST_FRAMES_A_BURST, `${asked.length} frames in ${SECONDS} s, ${minutes} minutes turned`);
  });

  it('Lesson draws once a second', async () => {
    await lead.tapButton('brief.to_lesson');
    await lead.start();
    assert.equal(await lead.title(), lesson.steps[0].title.en);
    // Between the seconds it is still for longer than 0.4 s, so frames() begins.
    const { asked } = await frames();
    const bursts = asked.filter((at, i) => i === 0 || at - asked[i - 1] > 300).length;
    assert.ok(Math.abs(bursts - SECONDS) <= 1, `${bursts} bursts in ${SECONDS} s`);
    assert.ok(asked.length <= (SECONDS + 1) * MOST_FRAMES_A_BURST, `${asked.length} frames in ${SECONDS} s`);
  });
});
