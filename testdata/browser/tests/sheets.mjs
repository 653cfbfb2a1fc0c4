// The Sheets view: laid by the maker while it is open, moved by hand, played,
// saved singly; and what is moved is in the bundle.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { screenshots } from '../harness.mjs';
import { draw, onThePage } from './suite.mjs';

const buoy = ['....A....', '...ACA...', '...ACA...', '..ABBBA..', '..ACCCA..', '.ACCCCCA.', '.AAAAAAA.'];

const laid = (v) => v.page.evaluate(() => window.sheetsprite.sheets());

/** job.json of the bundle, unpacked in the page: what is packed is deflated. */
const jobOf = (v) => v.page.evaluate(async () => {
  const zip = await window.sheetsprite.bundle();
  const view = new DataView(zip.buffer, zip.byteOffset, zip.length);
  // Its first file; the sizes stand in the central directory.
  let end = zip.length - 22;
  while (view.getUint32(end, true) !== 0x06054b50) end--;
  const entry = view.getUint32(end + 16, true);
  const from = 30 + view.getUint16(26, true) + view.getUint16(28, true);
  const packed = zip.slice(from, from + view.getUint32(entry + 20, true));
  const text = await new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate-raw'))).text();
  return JSON.parse(text);
});

onThePage('sheets hold every part once per copy; one is moved by hand, played, saved, and lies in the bundle where it was put', {}, async (v) => {
  await draw(v, buoy);
  await v.run('setCopies', { copies: 2 });
  await v.page.click('#views [data-name="Sheets"]');
  const before = await laid(v);
  const { plan } = await v.planned();
  assert.equal(before.parts.length, 2 * plan.parts);
  assert.equal(new Set(before.parts.map((p) => `${p.copy} ${p.number}`)).size, before.parts.length);
  assert.equal(await v.page.locator('#sheet-bench .part').count(), before.parts.length);
  assert.equal(await v.page.locator('#sheets-list > li').count(), before.list.length);

  // A mouse drags a part; it stays where it fits, nothing else moves.
  const part = before.parts.find((p) => p.sheet >= 0);
  const n = before.parts.indexOf(part);
  const hold = await v.page.locator(`#sheet-bench .part[data-part="${n}"]`).boundingBox();
  const sheet = await v.page.locator('#sheet-bench .paper').nth(part.sheet).boundingBox();
  const px = sheet.width / before.list[part.sheet].width;
  const grip = await v.page.evaluate((k) => { // a point inside it
    const shape = document.querySelector(`#sheet-bench .part[data-part="${k}"]`);
    const box = shape.getBBox();
    for (let i = 1; i < 40; i++) {
      for (let j = 1; j < 40; j++) {
        const at = new DOMPoint(box.x + box.width * i / 40, box.y + box.height * j / 40);
        if (!shape.isPointInFill(at)) continue;
        const on = at.matrixTransform(shape.getScreenCTM());
        return [on.x, on.y];
      }
    }
    return null;
  }, n);
  assert.ok(hold.width > 0);
  await v.page.mouse.move(...grip);
  await v.page.mouse.down();
  await v.page.mouse.move(grip[0] + 70 * px, grip[1] - 90 * px, { steps: 3 });
  await v.page.mouse.up();
  await v.until('the part to be moved', (s) => s.laid.moved === 1);
  const after = await laid(v);
  const moved = after.parts.filter((p, i) => p.x !== before.parts[i].x || p.y !== before.parts[i].y || p.turn !== before.parts[i].turn);
  assert.deepEqual(moved.map((p) => p.number), [part.number]);
  assert.ok(moved[0].x > part.x + 30 && moved[0].y < part.y - 30, JSON.stringify([part, moved[0]]));
  assert.equal((await v.state()).hand.sheets.part, part.number);
  const job = await jobOf(v);
  const found = job.parts.find((p) => p.number === part.number && p.copy === part.copy);
  assert.equal(found.sheet, after.list[moved[0].sheet].files[0]);
  assert.ok(Math.abs(found.move_mm[0] - job.parts.find((p) => p.number === part.number && p.copy !== part.copy).move_mm[0]) > 1);

  // Locked, it stays when all is laid anew.
  await v.page.click('#sheets-part [data-name="lock"]');
  await v.until('the part to be locked', (s) => s.laid.locked === 1);
  await v.run('layAnew');
  const anew = await laid(v);
  const stays = anew.parts[n];
  assert.deepEqual([stays.held, stays.x, stays.y], ['locked', moved[0].x, moved[0].y]);

  // The cut is played along its lines.
  await v.page.click('[data-name="sheet-0"]');
  const { list } = await laid(v);
  await v.page.locator('#sheets-list input[type="range"]').fill('4.5');
  assert.equal((await v.state()).hand.sheets.at, 4.5);
  await v.until('five lines on the sheet', (k) => k === 5, () => v.page.locator('[data-sheet="0"] .route > g').count());
  const half = await v.page.evaluate(() => {
    const line = document.querySelector('[data-sheet="0"] .now .line');
    const head = document.querySelector('[data-sheet="0"] .now .head');
    const { x, y } = line.getPointAtLength(line.getTotalLength() / 2);
    return { dashes: line.style.strokeDasharray, away: Math.hypot(head.getAttribute('cx') - x, head.getAttribute('cy') - y) };
  });
  assert.match(half.dashes, /^0\.5, 1$/);
  assert.ok(half.away < 0.01, `${half.away} mm from the middle of the line`);
  // Played, it goes on along the line and ends behind the last.
  await v.page.click('[data-name="play"]');
  await v.until('it to go on', (s) => s.hand.sheets.at > 4.5 && s.hand.sheets.at % 1 !== 0);
  await v.page.click('[data-name="play"]');

  // A single file, which another reader could read: as in the bundle.
  const coming = v.page.waitForEvent('download');
  await v.page.click('[data-name="save DXF"]');
  const download = await coming;
  assert.equal(`sheets/${download.suggestedFilename()}`, list[0].files[0]);
  const dxf = readFileSync(await download.path(), 'utf8');
  assert.match(dxf, /AC1015/);
  assert.equal(dxf.match(/^LWPOLYLINE\r?$/gm).length, list[0].lines);

  // Undone, all of it.
  while ((await v.state()).laid.locked + (await v.state()).laid.moved > 0) await v.run('undo');
  assert.deepEqual((await laid(v)).parts.map((p) => [p.x, p.y]), before.parts.map((p) => [p.x, p.y]));
});

onThePage('one part is cut again on a small sheet, with its number', {}, async (v) => {
  await draw(v, buoy);
  await v.run('showView', { view: 'Sheets' });
  const all = await laid(v);
  const { number, sprite, copy } = all.parts[1];
  await v.run('pointAt', { sprite, copy, part: number });
  await v.page.click('#sheets-part [data-name="again"]');
  const one = await laid(v);
  assert.deepEqual(one.parts.map((p) => p.number), [number]);
  assert.ok(one.list[0].height < all.list[0].height);
  await v.page.click('[data-name="all"]');
  assert.equal((await laid(v)).parts.length, all.parts.length);

  // Shown in the drawing: marked on the grid, lit in the relief, its card in hand.
  const high = all.parts.find((p) => p.level === 2);
  await v.run('pointAt', { sprite: high.sprite, copy: high.copy, part: high.number });
  await v.page.click('#sheets-part [data-name="show"]');
  const lit = await v.text('the part lit', '#relief-part', /layer \d+/i);
  assert.match(lit, new RegExp(`layer ${high.layer}\\b`, 'i'));
  assert.equal((await v.state()).hand.key, high.key);
  await v.run('showView', { view: 'Sheets' });
  await laid(v);

  // Several: one by a tap, one by the keyboard, and one more later.
  await v.page.click('#sheets-acts [data-name="pick"]');
  await v.text('what to do', '#sheets-acts', /^Tap the parts/);
  const middle = async (n) => {
    const b = await v.page.locator(`#sheet-bench .part[data-part="${n}"]`).boundingBox();
    return [b.x + b.width / 2, b.y + b.height / 2];
  };
  const tapped = await v.page.evaluate(([x, y]) => Number(document.elementFromPoint(x, y).getAttribute('data-part')), await middle(0));
  await v.page.mouse.click(...await middle(0));
  await v.page.waitForSelector('[data-name="cut-picked"]');
  await v.text('what was tapped', '#sheets-part b', new RegExp(`^${all.parts[tapped].number}$`));
  await v.page.focus('#sheet-bench');
  await v.page.keyboard.press('Space');
  const other = await v.until('another part', (n) => n !== all.parts[tapped].number, () => v.page.textContent('#sheets-part b'));
  await v.page.keyboard.press('Enter');
  await v.until('two to be picked', (n) => n === 2, () => v.page.locator('#sheet-bench .picked path').count());
  await v.page.click('[data-name="cut-picked"]');
  const two = await v.until('two on a sheet', (s) => s.choice.parts.length === 2);
  assert.deepEqual([...two.choice.parts].sort(), [all.parts[tapped].number, other].sort());
  assert.deepEqual((await laid(v)).parts.map((p) => p.number).sort(), [...two.choice.parts].sort());
  await v.page.click('#sheets-acts [data-name="pick"]');
  await v.until('all parts again', (n) => n === all.parts.length, () => v.page.locator('#sheet-bench .part').count());
  await v.page.click('[data-name="unpick"]');
  assert.equal((await v.state()).choice.parts.length, 0);
});

onThePage('a part that fits no sheet is cut in pieces by its remedy; a piece tapped is its part, and steps say how pieces lie', {}, async (v) => {
  await draw(v, ['AAAAAAAAAAAAAAAAAAAA', 'AAABBBBBBBBBBBBBBAAA', 'AAABBBBBCCBBBBBBBAAA', 'AAAAAAAAAAAAAAAAAAAA']);
  await v.run('renameSprite', { to: 'Ferry' });
  await v.run('setSheet', { w_mm: 60, h_mm: 50 });
  const { plan } = await v.planned();
  const large = plan.findings.find((f) => f.code === 'part-too-large');
  const remedy = large.remedies.find((r) => r.command === 'setLarge');
  await v.run(remedy.command, JSON.parse(remedy.args));
  const after = await v.planned();
  assert.ok(!after.plan.findings.some((f) => f.code === 'part-too-large'));
  assert.ok(after.plan.findings.some((f) => ['part-split', 'seam-shows'].includes(f.code)));
  await v.page.click('#views [data-name="Sheets"]');
  const model = await laid(v);
  const pieces = model.parts.filter((p) => p.of === 'A1-1');
  assert.deepEqual(pieces.map((p) => p.number), ['A1-1/1', 'A1-1/2']);
  assert.ok(pieces.every((p) => p.sheet >= 0));
  await v.page.screenshot({ path: `${screenshots}sheets-pieces.png` });

  // A piece that is tapped is pointed at; in the stack it is its part.
  const box = await v.page.locator(`#sheet-bench .part[data-part="${model.parts.indexOf(pieces[1])}"]`).boundingBox();
  await v.page.mouse.click(box.x + 6, box.y + box.height / 2);
  await v.text('the piece', '#sheets-part', /A1-1\/2.*a piece of A1-1/s);
  await v.page.click('#views [data-name="Assemble"]');
  await v.text('how pieces lie', '#assemble', /A1-1 comes in 2 pieces, A1-1\/1 and A1-1\/2: lay them edge to edge/);
  await v.text('where they are', '#in-sheet-words', /2 pieces: /);
  await v.until('the seam', (n) => n > 0, () => v.page.locator('#step-picture .seam[d^="M"]').count());
  await v.page.screenshot({ path: `${screenshots}assemble-pieces.png` });

  // Cut again are all its pieces.
  await v.run('cutAgain', { parts: 'A1-1/2' });
  await v.page.click('#views [data-name="Sheets"]');
  const again = await laid(v);
  assert.deepEqual(again.parts.map((p) => p.number), ['A1-1/1', 'A1-1/2']);
  await v.run('cutAgain', { parts: '' });

  // The setting has its control; by it parts stay whole again.
  await v.run('setLarge', { large: 'whole' });
  assert.ok((await v.planned()).plan.findings.some((f) => f.code === 'part-too-large'));
});
