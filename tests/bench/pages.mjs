// The app's page beside the hello page in one Chromium, both served by a collector and kept by the same service worker.
// For first frames the CPU is slowed through the DevTools protocol. WebGL is drawn by software in a process of its own, which
// is not slowed and not counted.
import { once } from 'node:events';
import { setTimeout as sleep } from 'node:timers/promises';
import { openPhone, startCollector } from '../web/browser.mjs';
import { Lead, makeBrief } from '../web/visit.mjs';
import { lesson, say, story } from '../web/words.mjs';
import { watchFirstButton, watchFlush, watchFrames, watchHello, watchStore } from './in_page.mjs';
import { benchPages, stageBenchPages } from './size.mjs';
import { row } from './table.mjs';

const SLOWED = 4;
const OPENINGS = 15;
const TAKEN_DOWN_MS = 1500;  // a browser takes down what drew a page a second after it was left
const LONGEST_MS = 60000;  // anything that is waited for
const FINGER_MS = 60;  // a person's tap is hardly shorter; a driver's ends before the page has seen it begin
const IDLE_SECONDS = 60;  // Lesson draws a few times a minute
const SETTLE_MS = 30000;  // the browser tidies its memory once when a page comes to rest
const BROWSER_REHEARSALS_MS = 150;

function at(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
}
const median = (values) => at(values, 0.5);

// A tab with a DevTools session beside it, for the page at `origin`; `style`: its style sheet.
async function openTab(phone, origin, style) {
  const page = await phone.context.newPage();
  page.setDefaultTimeout(LONGEST_MS);
  const devtools = await phone.context.newCDPSession(page);
  await devtools.send('Performance.enable', { timeDomain: 'threadTicks' });
  await devtools.send('Runtime.enable');
  await devtools.send('Runtime.addBinding', { name: 'tellFirstFrame' });  // in_page.mjs calls it
  return {
    page, devtools, origin, style,
    slow: (rate) => devtools.send('Emulation.setCPUThrottlingRate', { rate }),
    // Seconds that the page's thread has run.
    async ran() {
      const { metrics } = await devtools.send('Performance.getMetrics');
      return metrics.find(({ name }) => name === 'TaskDuration').value;
    },
  };
}

const keptForOffline = (page) => page.waitForFunction(() => navigator.serviceWorker.controller);

// The page opened anew where only its style sheet was shown: a reload would count taking down the page before it, too. The
// driver keeps out of it: its own script in the page would take a tenth of a second.
async function firstFrame({ page, devtools, origin, style }) {
  await page.bringToFront();
  await page.goto(new URL(style, origin).href);
  await sleep(TAKEN_DOWN_MS);
  const told = once(devtools, 'Runtime.bindingCalled', { signal: AbortSignal.timeout(LONGEST_MS) });
  await devtools.send('Page.navigate', { url: origin });
  const [{ payload }] = await told;
  return Number(payload);
}

// A headless browser goes on drawing tabs in the background: hello's loop would take the app's processor. Opened
// anew, it starts again.
const stopLoop = ({ page }) => page.evaluate(() => { globalThis.requestAnimationFrame = () => 0; });

// Medians of both, by turns.
async function firstFrames(app, hello) {
  const ours = [], theirs = [];
  for (let i = 0; i <= OPENINGS; ++i) {
    theirs.push(await firstFrame(hello));
    await stopLoop(hello);
    ours.push(await firstFrame(app));
  }
  return [median(ours.slice(1)), median(theirs.slice(1))];  // the first of each warms up
}

// Frames and seconds of the page's thread while nobody touches it.
async function rest({ page, ran }) {
  await page.bringToFront();
  await sleep(SETTLE_MS);
  const before = await ran();
  await page.evaluate(() => { bench.frames.length = 0; });
  await sleep(IDLE_SECONDS * 1000);
  const seconds = await ran() - before;
  return { seconds, frames: await page.evaluate(() => bench.frames.length) };
}

// A visit as it is played: every screen, the story, the head count, scrolling.
async function playSome(lead) {
  const { page } = lead;
  for (const key of ['room', 'care', 'handover', 'report', 'lesson']) {
    await lead.go(key);
    await scroll(page);
  }
  for (let i = 0; i < 6; ++i) await lead.doStep();
  await lead.go('room');
  await lead.places('absent', [3, 11, 17]);
  await scroll(page);
}

// A finger: (type, x, y) => sent.
async function finger(page) {
  const devtools = await page.context().newCDPSession(page);
  return (type, x, y) => devtools.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x, y }] });
}

async function scroll(page) {
  const { width, height } = page.viewportSize();
  const touch = await finger(page);
  for (const [from, to] of [[0.7, 0.3], [0.3, 0.7]]) {
    await touch('touchStart', width / 2, height * from);
    for (let step = 1; step <= 8; ++step) await touch('touchMove', width / 2, height * (from + (to - from) * step / 8));
    await touch('touchEnd');
    await sleep(400);
  }
}

// The processor time in ms of the page's thread in each animation frame that drew something, while `doing` goes on.
async function framesWhile({ page, devtools }, doing) {
  const times = new Map();  // handle of a frame -> ms
  const collect = ({ value }) => {
    for (const { name, tdur, args } of value) if (name === 'FireAnimationFrame') times.set(args.data.id, tdur / 1000);
  };
  devtools.on('Tracing.dataCollected', collect);
  await page.evaluate(() => { bench.frames.length = 0; });
  await devtools.send('Tracing.start', { traceConfig: { includedCategories: ['devtools.timeline'] }, transferMode: 'ReportEvents' });
  await doing();
  const complete = new Promise((resolve) => { devtools.once('Tracing.tracingComplete', resolve); });
  await devtools.send('Tracing.end');
  await complete;
  devtools.off('Tracing.dataCollected', collect);
  const drawn = (await page.evaluate(() => bench.frames)).map((handle) => times.get(handle)).filter((ms) => ms >= 0);
  if (drawn.length < 100) throw new Error(`only ${drawn.length} frames were measured`);
  return drawn;
}

async function measureTaps(lead) {
  const { page } = lead;
  await lead.go('room');
  for (const worker of page.workers()) await worker.evaluate(watchFlush);
  await page.evaluate(() => { for (const times of [bench.taps, bench.appends, bench.answers, bench.waits]) times.length = 0; });
  const touch = await finger(page);
  for (const is of ['late', 'absent']) {
    await lead.tapButton(`room.is.${is}`);
    for (let n = 1; n <= 20; ++n) {
      const name = new RegExp(`^${say('room.place', { n, is: '' })}`);
      const { x, y } = await lead.place('button', await lead.mirror.getByRole('button', { name }).textContent());
      await touch('touchStart', x, y);
      await sleep(FINGER_MS);
      await touch('touchEnd');
      await lead.seesNode('button', say('room.place', { n, is: say(`room.is.${is}`) }));
    }
  }
  return page.evaluate(() => bench);
}

export async function page() {
  stageBenchPages();
  const made = await makeBrief();
  const [collector, helloCollector] = [await startCollector({ briefs: [made.file] }), await startCollector({ web: benchPages })];
  const phone = await openPhone({ deviceScaleFactor: 1, reducedMotion: 'reduce' });
  try {
    const [app, hello] = [await openTab(phone, collector.url, 'page.css'), await openTab(phone, helloCollector.url, 'hello.css')];
    await hello.page.addInitScript(watchHello);
    await app.page.addInitScript(watchFirstButton, say('brief.to_lesson'));
    const lead = new Lead(app.page, collector, made);
    await hello.page.goto(helloCollector.url);
    await keptForOffline(hello.page);
    await app.page.bringToFront();
    await lead.open();
    await lead.opened();
    await keptForOffline(app.page);
    for (const tab of [app, hello]) await tab.slow(SLOWED);

    const [warm, helloWarm] = await firstFrames(app, hello);
    await phone.context.setOffline(true);
    const [offline, helloOffline] = await firstFrames(app, hello);
    await phone.context.setOffline(false);

    // From here on at full speed: slowed, a frame's time would be that of the software renderer, too, which wants the same
    // processors. And with what watches the pages, which would have been in the way of the first frame.
    for (const tab of [app, hello]) await tab.slow(1);
    for (const { page: tab } of [app, hello]) await tab.addInitScript(watchFrames);
    await app.page.addInitScript(watchStore);
    await firstFrame(app);
    await lead.tapButton('brief.to_lesson');
    await lead.start();
    const frames = await framesWhile(app, () => playSome(lead));
    await firstFrame(hello);
    const helloFrames = await framesWhile(hello, () => sleep(5000));
    await stopLoop(hello);

    await app.page.bringToFront();
    const { taps, appends, answers, waits } = await measureTaps(lead);
    await lead.go('lesson');  // where times run
    const still = await rest(app);
    await firstFrame(hello);
    const loop = await rest(hello);

    console.log(`${frames.length} frames of a visit, at full speed: longest ${at(frames, 1).toFixed(1)} ms`);
    console.log(`tap to durable event, 99th percentile of ${taps.length}: ${at(taps, 0.99).toFixed(1)} ms`);
    console.log(`tap to the page's knowing it, median: ${median(answers).toFixed(1)} ms`);
    console.log(`driver and browser before the page hears of a tap, median: ${median(waits).toFixed(1)} ms`);
    console.log(`at rest ${IDLE_SECONDS} s: ours ${still.frames} frames, ${(still.seconds * 1e3).toFixed(0)} ms; hello ${loop.frames} frames, ${(loop.seconds * 1e3).toFixed(0)} ms`);
    if (phone.errors.length) throw new Error(`errors on the pages: ${phone.errors.join('; ')}`);
    const slowed = `CPU ${SLOWED} x slower`;
    const first = (how, ours, baseline) => row({
      what: `first useful frame, ${how}, ${slowed}`, ours, unit: 'ms', digits: 0, baseline, of: 'hello page', most: 1.3, by: 'ratio',
    });
    const frame = (which, share, most) => row({
      what: `CPU time of one frame, times ${SLOWED}, ${which}`, ours: at(frames, share) * SLOWED, unit: 'ms', baseline: at(helloFrames, share) * SLOWED, of: 'hello page', most,
    });
    return [
      first('warm', warm, helloWarm),
      first('offline', offline, helloOffline),
      row({ what: 'frames a second at rest, Lesson', ours: still.frames / IDLE_SECONDS, unit: 'Hz', baseline: loop.frames / IDLE_SECONDS, of: "hello page's loop", most: 1 }),
      row({ what: `CPU time of ${IDLE_SECONDS} s at rest, Lesson`, ours: still.seconds * 1e3, unit: 'ms', baseline: loop.seconds * 1e3, of: "hello page's loop", most: 2, by: 'share' }),
      frame('median', 0.5, 4),
      frame('99th percentile', 0.99, 12),
      row({ what: "tap to durable event, from the page's hearing of it, median", ours: median(taps), unit: 'ms', most: 10 }),
      row({ what: 'of it the store, from append to answer, median', ours: median(appends), unit: 'ms', most: 10 }),
    ];
  } finally {
    await phone.close();
    await collector.stop();
    await helloCollector.stop();
    await made.remove();
  }
}

/** The rehearsal benchmark in the browser, beside the native run's figures {ms, byBell}. */
export async function webRehearsals({ ms: nativeMs, byBell }) {
  stageBenchPages();
  const collector = await startCollector({ web: benchPages });
  const phone = await openPhone({ deviceScaleFactor: 1 });
  try {
    await phone.page.goto(collector.url);
    const [ms, counted] = await phone.page.evaluate(async (texts) => {
      const { default: create } = await import('/rehearsals.js');
      const module = await create();
      const [lessonText, storyText] = texts.map((text) => {
        const bytes = new TextEncoder().encode(`${text}\0`);
        const pointer = module._malloc(bytes.length);
        module.HEAPU8.set(bytes, pointer);
        return pointer;
      });
      return [module._bench_rehearsals(lessonText, storyText), module._bench_by_bell()];
    }, [lesson, story].map((document) => JSON.stringify(document)));
    if (ms < 0) throw new Error('the rehearsals could not read the lesson');
    console.log(`in the browser ${ms.toFixed(1)} ms, by the bell ${counted}; native ${nativeMs.toFixed(1)} ms, by the bell ${byBell}`);
    return [row({
      what: '10,000 rehearsed visits, in the browser', ours: ms, unit: 'ms', baseline: nativeMs, of: 'native',
      most: BROWSER_REHEARSALS_MS, and: counted === byBell,
    })];
  } finally {
    await phone.close();
    await collector.stop();
  }
}
