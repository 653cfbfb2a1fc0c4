// The maker's own shelf: filled, described, kept on the device, and the drawing
// matched to it at once.
import assert from 'node:assert/strict';
import { screenshots } from '../harness.mjs';
import { draw, onAFirstVisit, onThePage } from './suite.mjs';

const shelfOf = (v) => v.run('ownShelf');
const empty = async (v) => { for (const s of await shelfOf(v)) await v.run('takeOffShelf', { stock: s.id }); };
const openShelf = async (v) => {
  await v.page.click('#more');
  await v.page.getByRole('button', { name: 'My shelf…', exact: true }).click();
};
const enter = async (v, label, text) => {
  const field = v.page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
};

onThePage('a stock is put on the shelf and described, and a list or a starter fills it', {}, async (v) => {
  await empty(v);
  await openShelf(v);
  await v.page.getByLabel('Name', { exact: true }).fill('Fog blue');
  await v.page.getByLabel('Its colour', { exact: true }).fill('8899aa');
  await v.page.getByRole('button', { name: 'Put it on the shelf' }).click();
  await enter(v, 'Weight (g/m²)', '300');
  assert.equal((await shelfOf(v))[0].thickness, 0.35);
  await enter(v, 'Thickness (mm)', '0.3');
  await v.page.getByLabel(/^Coloured/).selectOption('one');
  await v.page.getByLabel(/^Grain/).selectOption('long');
  await v.page.getByLabel('The cut edge has another colour').check();
  await enter(v, 'Core', '#fffff0');
  await enter(v, 'Another size of sheet (mm)', '305 × 305');
  await enter(v, 'Sheets of 305 × 305 mm', '6');
  await enter(v, 'An offcut more (mm)', '120x80');
  const [fog] = await shelfOf(v);
  assert.deepEqual([fog.name, fog.colour, fog.thickness, fog.sides, fog.grain, fog.core, fog.sheets, fog.offcuts],
    ['Fog blue', '#8899aa', 0.3, 'one', 'long', '#fffff0', [{ width: 305, height: 305, count: 6 }], [{ width: 120, height: 80, count: 1 }]]);
  assert.deepEqual(await v.serious(), []);

  const chooser = v.page.waitForEvent('filechooser');
  await v.page.getByRole('button', { name: 'From a list (CSV)…' }).click();
  await (await chooser).setFiles({ name: 'cards.csv', mimeType: 'text/csv', buffer: Buffer.from('name,colour,weight_g_m2\nRust,#aa4422,240\nMoss,#446633,240\n') });
  await v.until('the list', (list) => list.length === 3, () => shelfOf(v));
  const bad = v.page.waitForEvent('filechooser');
  await v.page.getByRole('button', { name: 'From a list (CSV)…' }).click();
  await (await bad).setFiles({ name: 'cards.csv', mimeType: 'text/csv', buffer: Buffer.from('name,colour\nRust,reddish\n') });
  await v.text('what is wrong with it', '#say', /row 2, colour: "reddish"/);
  await v.page.getByRole('button', { name: 'A shelf to begin with…' }).click();
  await v.page.getByRole('button', { name: 'Eight cards' }).click();
  await v.until('the starter', (list) => list.length === 11, () => shelfOf(v));
  await v.page.getByRole('button', { name: 'Take Fog blue off the shelf' }).click();
  assert.equal((await shelfOf(v)).length, 10);
  await v.page.screenshot({ path: `${screenshots}shelf.png` });
  await empty(v);
});

onThePage('a card’s colour is told from a photo of it beside a white sheet', {}, async (v) => {
  await empty(v);
  await v.run('putOnShelf', { name: 'Rust', colour: '#000000' });
  await openShelf(v);
  await v.page.locator('summary', { hasText: 'Rust' }).click();
  await v.page.getByRole('button', { name: 'From a photo…' }).click();
  // A dim, warm light: the white sheet is (200, 180, 150) where it would be 243 a
  // channel; the card beside it has half of each in linear light.
  const photo = await v.page.evaluate(async () => {
    const canvas = new OffscreenCanvas(400, 300);
    const c = canvas.getContext('2d');
    c.fillStyle = 'rgb(200 180 150)';
    c.fillRect(0, 0, 200, 300);
    c.fillStyle = 'rgb(146 131 109)';
    c.fillRect(200, 0, 200, 300);
    return [...new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer())];
  });
  const chooser = v.page.waitForEvent('filechooser');
  await v.page.getByRole('button', { name: 'Choose a photo…' }).click();
  await (await chooser).setFiles({ name: 'desk.png', mimeType: 'image/png', buffer: Buffer.from(photo) });
  await v.text('the colour', '.grid-status', /The card is #[0-9a-f]{6}/);
  await v.page.screenshot({ path: `${screenshots}card-photo.png` });
  await v.page.getByRole('button', { name: 'Use this colour' }).click();
  const [rust] = await shelfOf(v);
  // Half of sRGB 243's light is 178 (IEC 61966-2-1).
  for (const i of [1, 3, 5]) assert.ok(Math.abs(Number.parseInt(rust.colour.slice(i, i + 2), 16) - 178) <= 2, rust.colour);

  // The spots the wrong way round are noticed.
  await v.page.getByRole('button', { name: 'From a photo…' }).click();
  const again = v.page.waitForEvent('filechooser');
  await v.page.getByRole('button', { name: 'Choose a photo…' }).click();
  await (await again).setFiles({ name: 'desk.png', mimeType: 'image/png', buffer: Buffer.from(photo) });
  await v.text('the colour', '.grid-status', /The card is/);
  const picture = v.page.locator('.grid-picture');
  const box = await picture.boundingBox();
  const pull = async (from, to) => {
    await v.page.mouse.move(box.x + from * box.width, box.y + box.height / 2);
    await v.page.mouse.down();
    await v.page.mouse.move(box.x + to * box.width, box.y + box.height * 0.7, { steps: 3 });
    await v.page.mouse.up();
  };
  await pull(0.75, 0.4);
  await pull(0.25, 0.9);
  await v.text('what is wrong', '.grid-status', /brighter than the white sheet/);
  await v.page.keyboard.press('Escape');
  await v.text('the shelf again', '#dialog-title', /^My shelf$/);
  await v.page.keyboard.press('Escape');
  await v.page.waitForSelector('dialog', { state: 'detached' });
  await empty(v);
});

onThePage('the drawing is matched to the shelf, seen before and after, and cut from it in one step', {}, async (v) => {
  await empty(v);
  await draw(v, ['AABB', 'AABB', 'CC..']);
  const { palette } = await v.state();
  const drawn = Object.fromEntries(palette.map((p) => [p.key, p.colour]));
  const nearly = (colour) => `#${[1, 3, 5].map((i) => Math.min(Math.max(Number.parseInt(colour.slice(i, i + 2), 16) + (i === 1 ? 6 : -4), 0), 255).toString(16).padStart(2, '0')).join('')}`;
  for (const [name, key] of [['Foremast', 'A'], ['Mainsail', 'B'], ['Keel', 'C']]) await v.run('putOnShelf', { name, colour: nearly(drawn[key]) });
  await v.run('putOnShelf', { name: 'Driftwood', colour: '#8f8577' });
  const before = await v.state();
  await openShelf(v);
  await v.page.getByRole('button', { name: 'Match the drawing to it…' }).click();
  await v.text('the match', '.grid-status', /^3 stocks for 3 colours/);
  assert.match(await v.page.textContent('.match-list'), /Foremast.*Mainsail.*Keel/s);
  const corner = (label) => v.page.evaluate((name) => {
    const canvas = document.querySelector(`canvas[aria-label="${name}"]`);
    return [...canvas.getContext('2d').getImageData(0, 0, 1, 1).data.slice(0, 3)].map((n) => n.toString(16).padStart(2, '0')).join('');
  }, label);
  assert.equal(`#${await corner('As it is drawn')}`, drawn.A);
  assert.equal(`#${await corner('As it would be cut from my shelf')}`, nearly(drawn.A));
  assert.deepEqual(await v.serious(), []);
  await v.page.screenshot({ path: `${screenshots}shelf-match.png` });
  await enter(v, 'At most so many stocks', '1');
  await v.text('why not', '.grid-status', /colours must each get a stock of their own, but at most 1 stocks are allowed/);
  assert.ok(await v.page.getByRole('button', { name: 'Cut it from these' }).isDisabled());
  await v.page.getByLabel('Colours that touch may become the same').check();
  await v.text('one stock', '.grid-status', /^1 stock for 3 colours/);
  await v.page.getByLabel('Colours that touch may become the same').uncheck();
  await enter(v, 'At most so many stocks', '');
  await v.page.getByLabel('Colours may share a stock').uncheck();
  await v.text('a stock each', '.grid-status', /^3 stocks for 3 colours/);
  await v.page.getByRole('button', { name: 'Cut it from these' }).click();
  const after = await v.until('the cards', (s) => s.palette.find((p) => p.key === 'A').stock === 'foremast');
  assert.equal(after.undo, before.undo + 1);
  assert.deepEqual(after.sprite.rows, before.sprite.rows);
  assert.equal(after.palette.find((p) => p.key === 'A').colour, drawn.A, 'the drawing’s colours stay');
  await v.run('undo');
  assert.deepEqual((await v.state()).palette, before.palette);
  await empty(v);
});

onAFirstVisit('the shelf is there again after the page is opened anew', {}, async (v) => {
  await v.run('putOnShelf', { name: 'Rust', colour: '#aa4422' });
  await v.until('it is kept', (text) => text.includes('Rust'), () => v.page.evaluate(() => new Promise((resolve, reject) => {
    const opening = indexedDB.open('sheetsprite');
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const got = opening.result.transaction('work').objectStore('work').get('shelf');
      got.onsuccess = () => { opening.result.close(); resolve(got.result ? new TextDecoder().decode(got.result) : ''); };
    };
  })));
  await v.load();
  assert.deepEqual((await shelfOf(v)).map((s) => s.name), ['Rust']);
});

for (const [width, height, colorScheme] of [[390, 844, 'light'], [820, 1180, 'dark']]) {
  onThePage(`the shelf and its match fit a glass of ${width} × ${height}`, { width, height, colorScheme }, async (v) => {
    await empty(v);
    await draw(v, ['AABB', 'AABB', 'CCDD']);
    for (const [name, colour] of [['A card with quite a long name', '#8899aa'], ['Rust', '#aa4422'], ['Moss', '#446633'], ['Chalk', '#f6f4ee']]) await v.run('putOnShelf', { name, colour });
    await openShelf(v);
    await v.page.locator('summary', { hasText: 'quite a long name' }).click();
    const wide = () => v.page.evaluate(() => { const d = document.querySelector('dialog[open]'); return d.scrollWidth - d.clientWidth; });
    assert.equal(await wide(), 0);
    await v.page.screenshot({ path: `${screenshots}shelf-${width}x${height}.png` });
    await v.page.getByRole('button', { name: 'Match the drawing to it…' }).click();
    await v.text('the match', '.grid-status', /4 colours/);
    assert.equal(await wide(), 0);
    assert.deepEqual(await v.serious(), []);
    await v.page.screenshot({ path: `${screenshots}shelf-match-${width}x${height}.png` });
    await v.page.keyboard.press('Escape');
    await empty(v);
  });
}
