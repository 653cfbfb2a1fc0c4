// A sprite from any picture: dropped or chosen, its grid found, its cells
// looked through, and made a sprite.
import assert from 'node:assert/strict';
import { draw, onThePage } from './suite.mjs';

const buoy = ['..AAAA..', '.ABBBBA.', 'ABBCCBBA', 'ABCCCCBA', 'ABBCCBBA', '.ABBBBA.', '..AAAA..', '........'];
const inks = { A: '#1e1a22', B: '#d8402c', C: '#f4ead2', '.': '#7fb4d8' };

/** Drops a picture of rows onto the page, cells of so many pixels; mixed are
 * cells in other colours; turned: by so many degrees, on a table. */
const drop = (v, rows, { cell, type = 'image/png', smooth = false, mixed = [], turned = 0 }) => v.page.evaluate(async ([rows, inks, cell, type, smooth, mixed, turned]) => {
  const small = new OffscreenCanvas(rows[0].length, rows.length);
  const s = small.getContext('2d');
  rows.forEach((row, y) => [...row].forEach((key, x) => { s.fillStyle = inks[key]; s.fillRect(x, y, 1, 1); }));
  for (const [x, y, colour] of mixed) { s.fillStyle = colour; s.fillRect(x, y, 1, 1); }
  const large = new OffscreenCanvas(Math.round(small.width * cell), Math.round(small.height * cell));
  const l = large.getContext('2d');
  l.imageSmoothingEnabled = smooth;
  l.drawImage(small, 0, 0, large.width, large.height);
  if (turned > 0) { // on a dark table
    const table = new OffscreenCanvas(1.5 * large.width, 1.5 * large.height);
    const c = table.getContext('2d');
    c.fillStyle = '#33383c';
    c.fillRect(0, 0, table.width, table.height);
    c.translate(table.width / 2, table.height / 2);
    c.rotate(turned * Math.PI / 180);
    c.drawImage(large, -large.width / 2, -large.height / 2);
    large.width = table.width;
    large.height = table.height;
    l.drawImage(table, 0, 0);
  }
  const blob = await large.convertToBlob({ type, quality: 0.8 });
  const data = new DataTransfer();
  data.items.add(new File([blob], 'buoy.picture', { type }));
  const target = document.querySelector('body > canvas');
  for (const event of ['dragenter', 'dragover', 'drop']) target.dispatchEvent(new DragEvent(event, { dataTransfer: data, bubbles: true, cancelable: true }));
}, [rows, inks, cell, type, smooth, mixed, turned]);

/** The drawing by its colours, whatever their keys: '.' is empty. */
const shapes = ({ sprite, palette }) => {
  const light = (colour) => [1, 3, 5].reduce((sum, i) => sum + Number.parseInt(colour.slice(i, i + 2), 16), 0);
  const used = [...new Set(sprite.rows.join('').replaceAll('.', ''))];
  const order = used.sort((a, b) => light(palette.find((p) => p.key === a).colour) - light(palette.find((p) => p.key === b).colour));
  return sprite.rows.map((row) => [...row].map((key) => (key === '.' ? '.' : 'ABCDEFGH'[order.indexOf(key)])).join(''));
};

onThePage('a large picture that is dropped becomes a sprite, and undo takes it back', {}, async (v) => {
  await draw(v, ['AA', 'AA']);
  const before = await v.state();
  await drop(v, buoy, { cell: 47.3 });
  await v.text('the grid', '.grid-status', /8 × 8 cells of 47\.\d+ × 47\.\d+ pixels, 3 colours/);
  await v.page.getByRole('button', { name: 'Use this drawing' }).click();
  const after = await v.until('the sprite', (s) => s.sprites.length === before.sprites.length + 1);
  assert.deepEqual(shapes(after), buoy);
  await v.until('the picture under it', (s) => s.picture !== null);
  await v.until('the dialog closed', (n) => n === 0, () => v.page.locator('dialog[open]').count());
  const { picture } = await v.state();
  assert.ok(Math.abs(picture.scale * 47.3 - 1) < 0.02 && Math.abs(picture.x) < 0.05, 'a cell of the picture lies on a cell of the grid');
  await v.run('undo');
  assert.deepEqual((await v.state()).sprites, before.sprites);
});

onThePage('size and number of colours of a found grid can be changed', {}, async (v) => {
  await draw(v, ['AA', 'AA']);
  await drop(v, buoy, { cell: 40, type: 'image/jpeg' });
  await v.text('the grid', '.grid-status', /8 × 8 cells/);
  assert.deepEqual(await v.serious(), []);
  await v.page.getByRole('button', { name: 'Colours: less' }).click();
  await v.text('two colours', '.grid-status', /8 × 8 cells.* 2 colours/);
  await v.page.getByRole('button', { name: 'As the picture suggests' }).click();
  await v.text('three again', '.grid-status', /8 × 8 cells.* 3 colours/);
  await v.page.getByLabel('Cell width', { exact: true }).fill('20');
  await v.page.getByLabel('Cell width', { exact: true }).press('Enter');
  await v.text('narrow cells', '.grid-status', /16 × 8 cells/);
  await v.page.getByRole('button', { name: 'Find it again' }).click();
  await v.text('the grid again', '.grid-status', /^8 × 8 cells/);

  // Corners: a round glass shows what lies under the finger while one moves.
  await v.page.getByRole('button', { name: 'Set the corners' }).click();
  const pull = async ([x, y], [tx, ty], look = async () => {}) => {
    const box = await v.page.locator('.grid-picture').boundingBox();
    await v.page.mouse.move(box.x + x * box.width, box.y + y * box.height);
    await v.page.mouse.down();
    await v.page.mouse.move(box.x + tx * box.width, box.y + ty * box.height, { steps: 3 });
    await look();
    await v.page.mouse.up();
  };
  const pixels = () => v.page.evaluate(() => document.querySelector('.grid-picture').toDataURL().length);
  const plain = await pixels();
  await pull([0.1, 0.1], [0.002, 0.002], async () => assert.notEqual(await pixels(), plain));
  await pull([0.9, 0.1], [0.998, 0.002]);
  await pull([0.9, 0.9], [0.998, 0.998]);
  await pull([0.1, 0.9], [0.002, 0.998]);
  await v.text('the grid between them', '.grid-status', /^8 × 8 cells/);
  await v.page.getByRole('button', { name: 'Use this drawing' }).click();
  const after = await v.until('the sprite', (s) => s.sprites.length === 2);
  assert.deepEqual(shapes(after), buoy);
});

onThePage('unsure cells are kept, or become what comes second', {}, async (v) => {
  await draw(v, ['AA', 'AA']);
  await drop(v, buoy, { cell: 40, mixed: [[3, 3, '#e69a84']] });
  await v.text('the grid', '.grid-status', /8 × 8 cells/);
  const colours = v.page.getByLabel('Colours', { exact: true });
  await colours.fill('3');
  await colours.press('Enter');
  await v.text('an unsure cell', '.grid-status', /3 colours; 1 cell is unsure$/);
  await v.text('where it is', '.grid-controls', /Unsure: column 4, row 4/);
  const words = await v.page.getByRole('button', { name: /^Make it #/ }).textContent();
  await v.page.getByRole('button', { name: /^Make it #/ }).click();
  await v.text('none left', '.grid-status', /3 colours$/);
  await v.page.getByRole('button', { name: 'Use this drawing' }).click();
  const { sprite, palette } = await v.until('the sprite', (s) => s.sprites.length === 2);
  assert.equal(palette.find((p) => p.key === sprite.rows[3][3]).colour, words.trim().slice(-7));
});

onThePage('lone cells are offered for a change, and nothing changes unasked', {}, async (v) => {
  await draw(v, ['AA', 'AA']);
  const plain = ['............', '.AAAAAAAAAA.', ...Array.from({ length: 7 }, () => '.ABBBBBBBBA.'), '.AAAAAAAAAA.', '............'];
  const specked = plain.map((row, y) => (y === 4 ? '.ABBCBBBBBA.' : y === 7 ? '.ABBBBBBCBA.' : row));
  for (const act of ['Keep all', 'Change all 2']) {
    await drop(v, specked, { cell: 24 });
    await v.text('what stands alone', '.grid-status', /3 colours; 2 cells stand alone$/);
    await v.text('where', '.grid-controls', /Alone among its neighbours: column 5, row 5/);
    await v.page.getByRole('button', { name: act }).click();
    await v.text('none left', '.grid-status', /3 colours$/);
    await v.page.getByRole('button', { name: 'Use this drawing' }).click();
    const after = await v.until('the sprite', (s) => s.sprites.length === 2);
    assert.deepEqual(shapes(after), act === 'Keep all' ? specked : plain);
    await v.until('the dialog closed', (n) => n === 0, () => v.page.locator('dialog[open]').count());
    await v.run('undo');
  }
});

onThePage('the sprites of a sheet become sprites in reading order, and one undo takes them back', {}, async (v) => {
  await draw(v, ['AA', 'AA']);
  const before = await v.state();
  const rows = Array.from({ length: 18 }, () => Array.from({ length: 22 }, () => '.'));
  const stand = (what, x, y) => what.forEach((row, j) => [...row].forEach((key, i) => { rows[y + j][x + i] = key; }));
  const float = ['.AAA.', 'ABBBA', 'ACCCA', 'ABBBA', '.AAA.'], flag = ['ACCCC', 'ACBBC', 'ACCCC', 'A....', 'A....'];
  stand(float, 14, 3);
  stand(buoy.slice(0, 7), 2, 1);
  stand(flag, 13, 12);
  stand(float, 3, 11);
  const sheet = rows.map((row) => row.join(''));
  await drop(v, sheet, { cell: 20.4 });
  await v.text('the grid', '.grid-status', /^22 × 18 cells/);
  await v.page.getByLabel('Several sprites stand on it').check();
  await v.text('the sprites', '.grid-status', /^4 sprites, 3 colours for all/);
  assert.deepEqual(await v.serious(), []);
  await v.page.getByRole('button', { name: 'Use this drawing' }).click();
  const after = await v.until('the sprites', (s) => s.sprites.length === before.sprites.length + 4);
  assert.equal(after.undo, before.undo + 1);
  assert.deepEqual(after.sprites.slice(1), ['buoy 1', 'buoy 2', 'buoy 3', 'buoy 4']);
  for (const [i, want] of [buoy.slice(0, 7), float, float, flag].entries()) {
    await v.run('showSprite', { name: `buoy ${i + 1}` });
    assert.deepEqual(shapes(await v.state()), want);
  }
  await v.run('undo');
  assert.deepEqual((await v.state()).sprites, before.sprites);
});

onThePage('a picture that is no sprite is said to be none', {}, async (v) => {
  await draw(v, ['AA', 'AA']);
  await v.page.evaluate(async () => {
    const canvas = new OffscreenCanvas(400, 300);
    const c = canvas.getContext('2d');
    for (let i = 0, x = 1; i < 400 * 300; i++) {
      x = (x * 1103515245 + 12345) % 2147483648;
      c.fillStyle = `rgb(${x % 256} ${(x >> 8) % 256} ${(x >> 16) % 256})`;
      c.fillRect(i % 400, Math.floor(i / 400), 1, 1);
    }
    const data = new DataTransfer();
    data.items.add(new File([await canvas.convertToBlob()], 'fog.png', { type: 'image/png' }));
    document.querySelector('body > canvas').dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
  });
  await v.text('why not', '.grid-status', /^No grid of cells shows/);
  assert.ok(await v.page.getByRole('button', { name: 'Use this drawing' }).isDisabled());
  await v.page.keyboard.press('Escape');
  assert.deepEqual((await v.state()).sprite.rows, ['AA', 'AA']);
});

/** Drops a file of these bytes, in base64. */
const dropBytes = (v, name, type, text) => v.page.evaluate(([name, type, text]) => {
  const data = new DataTransfer();
  data.items.add(new File([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], name, { type }));
  document.querySelector('body > canvas').dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
}, [name, type, text]);

// A float that drifts: three frames of 8 × 4 cells, 6 pixels each, written by
// Go's image/gif.
const drifting = [
  'R0lGODlhMAAYAAAAACH/C05FVFNDQVBFMi4wAwEAAAAh+QQJCgAAACwAAAAAMAAYAIEAAAAeGiLYQCwAAAACYISPFsu9CaOcwNlAsz7X7T91DUgmIlOm1Ymp',
  'lCXE8hxbLgLTun0rjr7z9FYNII3XyxlrwuRvyRwNlUvkjWq0urBArYoblDqLUIE3BT42hzgWW8NqvUPuOf1kv4vykji7AAAh+QQJCgAAACwAAAAAMAAYAIEA',
  'AAAeGiLYQCwAAAACX4SPecHtrKKc6tlAs17X7T91HkgiYlOmwAmplCXE8hxbrvnQumDfBryb9XzAYO3h++WMxxFxyRzeikapixq0qrA7bYqr85bANDGJLEQm',
  'K6y1hoVxv9ryEL0egeMl+lIBACH5BAkKAAAALAAAAAAwABgAgQAAAB4aIthALAAAAAJfhI+pF+3flpzUwBuq3hjuP3UPSCaiU6bAGanUJcTyHF8uAtO6fVuQ',
  'vvP0Vj/gjNfLGWvCZHEpQN6US6mLarSqsEBtihscDcE0b4l8bA5xrLWGlXG/2vIQvb6A4yX6SgEAOw==',
].join('');

// Some browsers show a moving picture's frames one by one (W3C WebCodecs), for
// others our own program does.
for (const decoder of ['the browser’s', 'our own']) onThePage(`the frames of a moving picture become a sprite’s frames, by ${decoder} decoder`, {}, async (v) => {
  if (decoder === 'our own') await v.page.evaluate(() => { delete globalThis.ImageDecoder; });
  await draw(v, ['AA', 'AA']);
  const before = await v.state();
  await dropBytes(v, 'float.gif', 'image/gif', drifting);
  await v.text('the grid', '.grid-status', /^3 frames of 8 × 4 cells of 6 × 6 pixels, 2 colours/);
  await v.page.getByRole('button', { name: 'Use this drawing' }).click();
  const after = await v.until('the sprite', (s) => s.sprites.length === 2);
  assert.equal(after.sprite.frames, 3);
  const { picture } = await v.until('the picture under it', (s) => s.picture !== null);
  assert.deepEqual([picture.width, picture.height], [48, 24], 'of the first frame alone');
  const seen = [];
  for (const frame of [1, 2, 3]) {
    await v.run('showFrame', { frame });
    seen.push(shapes(await v.state())[1]);
  }
  assert.deepEqual(seen, ['.ABBA...', '..ABBA..', '...ABBA.']);
  assert.equal(after.undo, before.undo + 1);
  await v.run('undo');
  assert.deepEqual((await v.state()).sprites, before.sprites);
});

onThePage('a small picture that was enlarged is offered its grid; one with a cell a pixel goes in at once', {}, async (v) => {
  await draw(v, ['AA', 'AA']);
  await drop(v, buoy, { cell: 16 }); // 128 × 128 pixels
  await v.text('the grid', '.grid-status', /^8 × 8 cells of 16 × 16 pixels, 3 colours/);
  await v.page.getByRole('button', { name: 'Take each pixel for a cell (128 × 128)' }).click();
  const whole = await v.until('the sprite', (s) => s.sprites.length === 2);
  assert.deepEqual([whole.sprite.width, whole.sprite.height], [128, 128]);
  await v.run('undo');
  await drop(v, buoy, { cell: 5.5 });
  await v.text('the grid', '.grid-status', /^8 × 8 cells of 5\.\d+ × 5\.\d+ pixels/);
  await v.page.getByRole('button', { name: 'Use this drawing' }).click();
  const found = await v.until('the sprite', (s) => s.sprites.length === 2);
  assert.deepEqual(shapes(found), buoy);
  await v.run('undo');
  await drop(v, buoy, { cell: 1 });
  const small = await v.until('the sprite', (s) => s.sprites.length === 2);
  assert.deepEqual([small.sprite.width, small.sprite.height], [8, 8]);
  assert.equal(await v.page.locator('dialog[open]').count(), 0);
});

/** Rows as an uncompressed RGB TIFF (Adobe, TIFF 6.0, 1992, section 6), which
 * browsers seldom read. */
function tiffOf(rows, cell) {
  const width = rows[0].length * cell, height = rows.length * cell;
  const tags = [[256, 3, 1, width], [257, 3, 1, height], [258, 3, 3, 8], [259, 3, 1, 1], [262, 3, 1, 2], [273, 4, 1, 200], [277, 3, 1, 3], [278, 3, 1, height], [279, 4, 1, 3 * width * height]];
  const data = Buffer.alloc(200 + 3 * width * height);
  data.write('II*\0');
  data.writeUInt32LE(16, 4);
  for (const [i] of [0, 1, 2].entries()) data.writeUInt16LE(8, 8 + 2 * i); // bits of each channel
  data.writeUInt16LE(tags.length, 16);
  tags.forEach(([tag, kind, count, value], i) => {
    const at = 18 + 12 * i;
    data.writeUInt16LE(tag, at);
    data.writeUInt16LE(kind, at + 2);
    data.writeUInt32LE(count, at + 4);
    data.writeUInt32LE(value, at + 8);
  });
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) Buffer.from(inks[rows[Math.floor(y / cell)][Math.floor(x / cell)]].slice(1), 'hex').copy(data, 200 + 3 * (y * width + x));
  }
  return data.toString('base64');
}

onThePage('a picture that the browser can’t read is read by our own program; one that nobody can is refused', {}, async (v) => {
  await draw(v, ['AA', 'AA']);
  assert.ok(await v.page.evaluate(async (text) => createImageBitmap(new Blob([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))])).then(() => false, () => true), tiffOf(buoy, 7)), 'this browser can’t');
  await dropBytes(v, 'float.tif', 'image/tiff', tiffOf(buoy, 7));
  await v.text('the grid', '.grid-status', /^8 × 8 cells of 7 × 7 pixels, 3 colours/);
  await v.page.getByRole('button', { name: 'Use this drawing' }).click();
  const after = await v.until('the sprite', (s) => s.sprites.length === 2);
  assert.deepEqual(shapes(after), buoy);
  assert.equal(after.sprites[1], 'float');
  await v.until('the picture under it', (s) => s.picture !== null);
  await dropBytes(v, 'torn.tif', 'image/tiff', tiffOf(buoy, 7).slice(0, 1000));
  await v.text('why not', 'body', /torn\.tif: the TIFF ends too early \(it is truncated\): save or copy it again\./);
});

onThePage('in a photograph columns and rows can be counted, and it lies straight under the drawing', {}, async (v) => {
  await draw(v, ['AA', 'AA']);
  await drop(v, buoy, { cell: 40, turned: 4 });
  await v.text('the grid', '.grid-status', /^8 × 8 cells, 3 colours/);
  await v.page.getByRole('button', { name: 'Columns: less' }).click();
  await v.text('one less', '.grid-status', /^7 × 8 cells/);
  await v.page.getByLabel('Columns', { exact: true }).fill('8');
  await v.page.getByLabel('Columns', { exact: true }).press('Enter');
  await v.text('eight again', '.grid-status', /^8 × 8 cells/);
  await v.page.getByRole('button', { name: 'Use this drawing' }).click();
  const after = await v.until('the sprite', (s) => s.sprites.length === 2);
  assert.deepEqual(shapes(after), buoy);
  const { picture } = await v.until('the picture under it', (s) => s.picture !== null);
  assert.deepEqual([picture.x, picture.y], [0, 0]);
  assert.ok(Math.abs(picture.scale * Math.round(1 / picture.scale) - 1) < 1e-9, `whole pixels a cell, not ${picture.scale}`);
});
