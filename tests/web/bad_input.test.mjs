// Links and files that are no visits: one clear alert, what was open stays, and nothing of them runs.
import assert from 'node:assert/strict';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { readPng } from './png.mjs';
import { fragmentOf, makeBrief, setUp } from './visit.mjs';
import { pattern, say } from './words.mjs';

const deep = (depth) => '['.repeat(depth) + ']'.repeat(depth);

describe('bad input', () => {
  let s, lead, other;
  const dialogs = [];
  before(async () => {
    s = await setUp();
    lead = s.lead;
    other = await makeBrief({ visit: { id: 'another-visit', room: 'Room 9' } });
    s.page.on('dialog', (dialog) => {
      dialogs.push(dialog.message());
      dialog.dismiss();
    });
  });
  after(async () => {
    await s.tearDown();
    await other.remove();
  });

  const heading = () => `${s.brief.room}, ${s.brief.school}`;
  const alerts = () => lead.node('alert');

  // One alert, of this text, that can be closed; below it the visit that was open.
  async function refused(key) {
    await lead.sees(pattern(key));
    assert.equal(await alerts().count(), 1);
    assert.equal(await lead.title(), heading());
    await lead.seesNode('button', say('brief.to_lesson'));
    await lead.tapButton('notice.close');
    await lead.gone('alert');
  }

  async function followLink(fragment) {
    await s.page.evaluate((hash) => { location.hash = hash; }, fragment);
  }

  it('a cut link with nothing open: an alert, and where to get a visit', async () => {
    await lead.open(s.fragment.slice(0, 60));
    await lead.sees(pattern('notice.bad_link'));
    assert.equal(await alerts().count(), 1);
    await lead.seesNode('heading', say('opening.empty'));
    await lead.seesNode('button', say('opening.file'));
  });

  it('the whole link opens then', async () => {
    await followLink(s.fragment);
    await lead.opened();
    assert.equal(await lead.title(), heading());
  });

  const changed = (change) => () => fragmentOf({ ...other.brief, ...change });
  const { length } = '#b=';
  for (const [what, fragment, key = 'notice.bad_link'] of [
    ...[length, length + 1, length + 2, 40, 300].map((cut) => [`cut after ${cut} characters`, () => other.fragment.slice(0, cut)]),
    ['cut before its last character', () => other.fragment.slice(0, -1)],
    ['not base64', () => '#b=%%%ñ{}!'],
    ['of another kind', () => '#hello'],
    ['200 KB long', () => `#b=${'A'.repeat(200 * 1024)}`],
    ['nested 20,000 deep', () => fragmentOf(deep(20000))],
    ['a list', () => fragmentOf('[]')],
    ['not JSON', () => fragmentOf('{"format":"trowelbell.brief",')],
    ['not UTF-8', () => `#b=${Buffer.from([0x7B, 0x22, 0xFF, 0xFE, 0x22, 0x7D]).toString('base64url')}`],
    ['of version 2', changed({ version: 2 }), 'notice.newer'],
    ['of another format', changed({ format: 'trowelbell.report' })],
    ['with a text for a number', changed({ children: '24' })],
    ['with a list for a text', changed({ school: ['a', 'b'] })],
    ['with no children', changed({ children: 0 })],
    ['with a day that is none', changed({ date: '2027-02-30' })],
    ['with a visit that leaves its place', changed({ visit: '../../v1/health' })],
    ['with a bell before its start', changed({ bell: '00:01' })],
  ]) {
    it(`a link ${what}`, async () => {
      await followLink(fragment());
      await refused(key);
    });
  }

  // Taps a button that asks for a file, and gives it `path`.
  async function pickFile(path) {
    const [chooser] = await Promise.all([s.page.waitForEvent('filechooser'), lead.tapButton('phone.file')]);
    await chooser.setFiles(path);
  }

  it('bad files: an alert each, and the visit stays', async () => {
    for (const [name, content] of [
      ['empty.json', ''], ['picture.png', Buffer.from([0x89, 0x50, 0x4E, 0x47, 0, 1, 2, 255])],
      ['long.json', ' '.repeat(2 << 20)], ['deep.json', deep(5000)], ['county.json', '{"format":"trowelbell.county","version":1}'],
    ]) {
      const path = join(s.folder, name);
      await writeFile(path, content);
      await pickFile(path);
      await refused('notice.bad_file');
    }
  });

  it('a good file opens its visit, and the link the first again', async () => {
    await pickFile(other.file);
    await lead.seesNode('heading', `Room 9, ${other.brief.school}`);
    await followLink(s.fragment);
    await lead.seesNode('heading', heading());
  });

  it('script in a school\'s name is text', async () => {
    const school = '<img src=x onerror=alert(1)><script>alert(2)</script>';
    await followLink(fragmentOf({ ...other.brief, visit: 'odd-name', school, school_asks: ['<b onclick=alert(3)>ask</b>', '&lt;{room}'] }));
    await lead.seesNode('heading', `Room 9, ${school}`);
    await lead.sees('<b onclick=alert(3)>ask</b>');
    await lead.sees('&lt;{room}');
    assert.equal(await s.page.title(), `Room 9, ${school}`);
    assert.equal(await s.page.locator('#mirror :is(img, script, b)').count(), 0);
    assert.deepEqual(dialogs, []);
  });

  it('no page error, and the page still draws', async () => {
    assert.deepEqual(s.phone.errors, []);
    const { pixels } = readPng(await s.page.screenshot());
    assert.ok(new Set(pixels).size > 20, 'the screen is blank');
    await lead.tapButton('brief.to_lesson');
    await lead.seesNode('button', say('lesson.start'));
  });
});
