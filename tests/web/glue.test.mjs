// The page's JavaScript (mirror, net) without the canvas, in a real browser.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { after, before, describe, it } from 'node:test';
import { openPhone } from './browser.mjs';
import { serveGlue } from './glue-server.mjs';

let glue, phone, page, reply;
const requests = [];

// Stands in for the collector: keeps what came, answers what the test says.
async function collector(request, response) {
  if (!request.url.startsWith('/v1/')) return false;
  const pieces = [];
  for await (const piece of request) pieces.push(piece);
  requests.push({ method: request.method, url: request.url, headers: request.headers, body: Buffer.concat(pieces) });
  if (reply.status === 0) response.destroy();
  else response.writeHead(reply.status, reply.headers).end(reply.body);
  return true;
}

before(async () => {
  glue = await serveGlue(collector);
  phone = await openPhone();
  page = phone.page;
});
after(async () => {
  await phone.close();
  glue.close();
});

const button = (id, name, more = {}) => ({ id, role: 'button', name, rect: [10, 10, 100, 48], ...more });

describe('the mirror', () => {
  before(async () => {
    await page.goto(glue.url('mirror'));
    await page.evaluate(async () => {
      const { Mirror } = await import('/mirror.js');
      globalThis.told = [];
      const tell = (what) => (...values) => told.push([what, ...values]);
      globalThis.mirror = new Mirror(document.getElementById('mirror'), {
        activate: tell('activate'), focus: tell('focus'), type: tell('type'), back: tell('back'),
      });
    });
  });
  const show = (nodes, language = 'en') => page.evaluate(([n, l]) => { mirror.show(n, l); told.length = 0; }, [nodes, language]);
  const told = () => page.evaluate(() => told);
  const node = (id) => page.locator(`[data-node="${id}"]`);
  const focused = () => page.evaluate(() => document.activeElement.dataset.node ?? null);

  it('gives each role its element, in reading order', async () => {
    await show([
      { id: 'h', role: 'heading', level: 2, name: 'Wet the cotton', rect: [0, 0, 10, 10] },
      { id: 'p', role: 'text', name: 'Say it slowly.', rect: [0, 0, 10, 10] },
      { id: 'g', role: 'group', name: 'Places', rect: [0, 0, 0, 0] },
      { id: 't', role: 'toggle', name: 'Place 1', value: 'here', checked: 1, rect: [0, 0, 10, 10] },
      { id: 'c', role: 'checkbox', name: 'Hands washed', checked: 1, rect: [0, 0, 10, 10] },
      { id: 'g', role: 'group_end' },
      { id: 'a', role: 'tab', name: 'Lesson', selected: 1, rect: [0, 0, 10, 10] },
      { id: 'b', role: 'tab', name: 'Room', rect: [0, 0, 10, 10] },
      { id: 'i', role: 'image', name: 'A seed in a hand', rect: [0, 0, 10, 10] },
      { id: 'o', role: 'progress', name: 'The lesson', value: '3 of 10', percent: 30, rect: [0, 0, 10, 10] },
      { id: 'm', role: 'timer', name: 'Left', value: '4:10', rect: [0, 0, 10, 10] },
      { id: 'n', role: 'alert', name: 'Two minutes', rect: [0, 0, 10, 10] },
      { id: 's', role: 'status', name: 'Saved', rect: [0, 0, 10, 10] },
      { id: 'f', role: 'textbox', name: 'Note', value: 'x', hint: 'No names', lines: 3, most: 20, rect: [0, 0, 200, 96] },
      button('d', 'Not now', { disabled: 1 }),
    ]);
    assert.equal(await page.locator('#mirror').ariaSnapshot(), [
      '- main:', '  - heading "Wet the cotton" [level=2]', '  - paragraph: Say it slowly.', '  - group "Places":',
      '    - button "Place 1, here" [pressed]', '    - checkbox "Hands washed" [checked]', '  - tablist:',
      '    - tab "Lesson" [selected]', '    - tab "Room"', '  - img "A seed in a hand"', '  - progressbar "The lesson"',
      '  - timer: Left, 4:10', '  - alert: Two minutes', '  - status: Saved', '  - textbox "Note":', '    - /placeholder: No names',
      '    - text: x', '  - button "Not now" [disabled]',
    ].join('\n'));
    await show([button('d', 'Ahora no')], 'es');
    assert.equal(await page.locator('#mirror').ariaSnapshot(), '- main:\n  - button "Ahora no"');
    assert.equal(await page.locator('#mirror').getAttribute('lang'), 'es');
  });

  it('lies over the canvas and lets touches through, save on text fields', async () => {
    await show([button('a', 'Go', { rect: [20, 30, 120, 50] }), { id: 'f', role: 'textbox', name: 'Note', lines: 1, rect: [20, 100, 200, 48] }]);
    assert.deepEqual(await node('a').boundingBox(), { x: 20, y: 30, width: 120, height: 50 });
    const at = (x, y) => page.evaluate(([px, py]) => document.elementFromPoint(px, py).dataset.node ?? null, [x, y]);
    assert.equal(await at(60, 50), null);
    assert.equal(await at(60, 120), 'f');
    assert.ok(await node('f').evaluate((e) => parseFloat(getComputedStyle(e).fontSize)) >= 16);
  });

  it('cuts a field off where its part of the screen ends', async () => {
    const field = { id: 'f', role: 'textbox', name: 'Note', lines: 1, rect: [20, 100, 200, 48], clip: [120, 500] };
    await show([field]);
    const at = (y) => page.evaluate((py) => document.elementFromPoint(60, py).dataset.node ?? null, y);
    assert.deepEqual([await at(110), await at(130)], [null, 'f']);
  });

  it('tells clicks, keys and focus, and nothing of what is disabled', async () => {
    await show([button('a', 'Go'), { id: 'c', role: 'checkbox', name: 'Washed', rect: [0, 60, 48, 48] }, button('d', 'Not now', { disabled: 1 })]);
    await node('a').focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Space');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Escape');
    assert.deepEqual(await told(), [
      ['focus', 'a'], ['activate', 'a'], ['focus', 'c'], ['activate', 'c'], ['focus', 'd'], ['back'],
    ]);
    // The app has not turned it over, so it must not stay so.
    await page.waitForFunction(() => !document.querySelector('[data-node=c]').checked);
  });

  it('keeps focus through changes, and gives it to the heading when its element goes', async () => {
    const heading = { id: 'h', role: 'heading', level: 1, name: 'Room', rect: [0, 0, 10, 10] };
    await show([heading, button('x', 'First'), button('a', 'Go')]);
    await node('a').focus();
    await show([heading, button('n', 'New'), button('a', 'Go on', { rect: [5, 5, 50, 50] }), button('z', 'Last')]);
    assert.equal(await focused(), 'a');
    assert.deepEqual(await told(), []);
    await show([heading, button('z', 'Last'), button('a', 'Go on')]);
    assert.equal(await focused(), 'a');
    await page.evaluate(() => { mirror.show([{ id: 'h', role: 'heading', level: 1, name: 'Care', rect: [0, 0, 10, 10] }], 'en'); });
    assert.equal(await focused(), 'h');
    assert.deepEqual(await told(), [['focus', 'h']]);
  });

  it('leaves what is typed to the person until C++ changes it', async () => {
    const field = (value) => [{ id: 'f', role: 'textbox', name: 'Note', lines: 1, most: 9, value, rect: [20, 100, 200, 48] }];
    await show(field(''));
    await node('f').focus();
    await page.keyboard.type('ñandú ya');  // 10 bytes of UTF-8, two more than characters
    assert.equal(await node('f').inputValue(), 'ñandú y');
    assert.deepEqual((await told()).at(-1), ['type', 'f', 'ñandú y']);
    await show(field('ñandú y'));
    assert.equal(await node('f').inputValue(), 'ñandú y');
    await show(field('cleared'));
    assert.equal(await node('f').inputValue(), 'cleared');
  });

  it('does not disturb a composition', async () => {
    const field = (value) => [{ id: 'f', role: 'textbox', name: 'Note', lines: 1, most: 60, value, rect: [20, 100, 200, 48] }];
    await show(field(''));
    await node('f').focus();
    const devtools = await phone.context.newCDPSession(page);
    await devtools.send('Input.imeSetComposition', { text: 'に', selectionStart: 1, selectionEnd: 1 });
    await show(field('something else'));
    await devtools.send('Input.imeSetComposition', { text: 'にほ', selectionStart: 2, selectionEnd: 2 });
    assert.equal(await node('f').inputValue(), 'にほ');
    await devtools.send('Input.insertText', { text: '日本' });
    assert.equal(await node('f').inputValue(), '日本');
    assert.deepEqual((await told()).at(-1), ['type', 'f', '日本']);
  });

  it('has no fault that axe-core finds', async () => {
    await show([
      { id: 'h', role: 'heading', level: 1, name: 'Room', rect: [0, 0, 100, 40] },
      { id: 'a', role: 'tab', name: 'Lesson', selected: 1, rect: [0, 50, 100, 48] }, { id: 'b', role: 'tab', name: 'Room', rect: [100, 50, 100, 48] },
      button('x', 'Go', { hint: 'Starts the lesson' }), { id: 'c', role: 'checkbox', name: 'Washed', rect: [0, 100, 48, 48] },
      { id: 'o', role: 'progress', name: 'The lesson', value: '3 of 10', percent: 30, rect: [0, 160, 100, 10] },
      { id: 'f', role: 'textbox', name: 'Note', lines: 1, rect: [0, 200, 200, 48] },
    ]);
    await page.evaluate(await readFile(createRequire(import.meta.url).resolve('axe-core'), 'utf8'));
    const { violations } = await page.evaluate(() => axe.run());
    assert.deepEqual(violations.map(({ id }) => id), []);
  });

  it('costs little in a frame of a scroll (figures only)', async (t) => {
    const ms = await page.evaluate(() => {
      const nodes = (y) => JSON.stringify(Array.from({ length: 60 }, (_, i) => (
        { id: `room.place.${i}`, role: 'toggle', name: `Place ${i + 1}`, checked: i % 2, rect: [10, y + 50 * i, 300, 48] })));
      const frames = Array.from({ length: 200 }, (_, y) => nodes(-y));
      mirror.show(JSON.parse(frames[0]), 'en');
      const from = performance.now();
      for (const json of frames) mirror.show(JSON.parse(json), 'en');
      return (performance.now() - from) / frames.length;
    });
    t.diagnostic(`60 nodes, all moved: ${ms.toFixed(2)} ms a frame`);
  });
});

describe('sending', () => {
  before(() => page.goto(glue.url('net')));
  const put = (body) => page.evaluate(async (text) => (await import('/net.js')).put('/v1/visits/v/reports/d/1', 'key', text), body);

  it('sends the very bytes and tells their SHA-256 (checked with Node\'s own)', async () => {
    reply = { status: 201, headers: { 'Content-Type': 'application/json' }, body: '{"año":1}' };
    const body = '{"note":"ñandú \u{1F331}"}';
    const answer = await put(body);
    const [request] = requests.splice(0);
    assert.deepEqual(answer, { status: 201, body: '{"año":1}', digest: createHash('sha256').update(body).digest('hex'), retryAfter: -1 });
    assert.deepEqual([request.method, request.url, request.body.toString()], ['PUT', '/v1/visits/v/reports/d/1', body]);
    assert.deepEqual([request.headers.authorization, request.headers['content-type'], request.headers.cookie, request.headers.referer],
      ['Bearer key', 'application/json', undefined, undefined]);
  });

  it('reads no more than 64 KiB of an answer, and what Retry-After says', async () => {
    reply = { status: 503, headers: { 'Retry-After': '17' }, body: 'ñ'.repeat(100000) };
    const long = await put('{}');
    assert.deepEqual([long.status, long.retryAfter, Buffer.byteLength(long.body)], [503, 17, 65536]);
    reply = { status: 429, headers: { 'Retry-After': new Date(Date.now() + 90000).toUTCString() }, body: '' };
    const { retryAfter } = await put('{}');
    assert.ok(retryAfter > 80 && retryAfter <= 90, `${retryAfter}`);
    reply = { status: 429, headers: { 'Retry-After': 'soon' }, body: '' };
    assert.equal((await put('{}')).retryAfter, -1);
  });

  it('says 0 when no answer comes, and follows no redirection with the key', async () => {
    reply = { status: 0 };
    assert.equal((await put('{}')).status, 0);
    reply = { status: 307, headers: { Location: '/v1/elsewhere' }, body: '' };
    requests.length = 0;
    assert.equal((await put('{}')).status, 0);
    assert.deepEqual(requests.map(({ url }) => url), ['/v1/visits/v/reports/d/1']);
  });
});
