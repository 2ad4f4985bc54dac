// A phone in a pocket for an hour must not run warm: what rests is not drawn.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { setUp } from './visit.mjs';
import { lesson } from './words.mjs';

const SECONDS = 5;
const LESSON_SECONDS = 40;
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

// When the page turns its sound on and off.
function watchSound() {
  globalThis.sound = [];
  globalThis.AudioContext = class extends AudioContext {
    async resume() {
      await super.resume();
      sound.push(this.state);
    }
    async suspend() {
      await super.suspend();
      sound.push(this.state);
    }
  };
}

describe('at rest', () => {
  let s, lead;
  before(async () => {
    s = await setUp({ phone: { reducedMotion: 'reduce' } });
    lead = s.lead;
    await s.phone.context.addInitScript(countFrames);
    await s.phone.context.addInitScript(watchSound);
    await lead.open();
    await lead.opened();
  });
  after(() => s.tearDown());

  // When frames were asked for in the next seconds, once the page is at rest.
  async function frames(seconds) {
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
    }, { seconds });
  }

  it('Brief draws nothing but the turn of a minute', async () => {
    const { from, to, asked } = await frames(SECONDS);
    const minutes = Math.floor(to / 60000) - Math.floor(from / 60000);
    assert.ok(asked.length <= minutes * MOST_FRAMES_A_BURST, `${asked.length} frames in ${SECONDS} s, ${minutes} minutes turned`);
  });

  it('Lesson draws when a time on it reads differently: every minute, and every half a minute of its step', async () => {
    await lead.tapButton('brief.to_lesson');
    await lead.start();
    assert.equal(await lead.title(), lesson.steps[0].title.en);
    const { asked } = await frames(LESSON_SECONDS);
    assert.ok(asked.length >= 1 && asked.length <= 4, `${asked.length} frames in ${LESSON_SECONDS} s`);
  });

  it('sound is on for the length of a chime only', async () => {
    const heard = (states) => s.page.waitForFunction((expected) => sound.join() === expected, states.join());
    await heard(['running', 'suspended']);  // the first touch has allowed it
    await lead.doStep();
    await heard(['running', 'suspended', 'running', 'suspended']);
  });
});
