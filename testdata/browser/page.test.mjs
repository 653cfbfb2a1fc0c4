// The page in a real browser, through its automation surface and real events.
import { after, before, test } from 'node:test';
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { launch, screenshots, visit } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(async () => { await browser?.close(); });

/** A test with a visit of its own and a quiet console. */
function onThePage(name, options, body) {
  test(name, async () => {
    const v = await visit(browser, options);
    try {
      await body(v);
      assert.deepEqual(v.faults, []);
    } finally {
      await v.context.close();
    }
  });
}

onThePage('a first visit shows the demo, wholly in view, pencil and colour in hand', {}, async (v) => {
  const s = await v.state();
  assert.equal(s.view, 'Draw');
  assert.equal(s.hand.tool, 'pencil');
  assert.equal(s.hand.bothSides, 'off');
  assert.match(s.hand.key, /^.$/);
  assert.ok(s.grid.x >= 0 && s.grid.y >= 0);
  // Nothing lies over the drawing: the canvas is what is hit at its corners.
  for (const [column, row] of [[0, 0], [s.sprite.width - 1, 0], [0, s.sprite.height - 1], [s.sprite.width - 1, s.sprite.height - 1]]) {
    const [x, y] = await v.at(column, row);
    assert.equal(await v.page.evaluate(([px, py]) => document.elementFromPoint(px, py)?.tagName, [x, y]), 'CANVAS');
  }
});

onThePage('mouse, finger and pen draw gap-free strokes; each is one step of undo', { hasTouch: true }, async (v) => {
  await v.run('new', { width: 24, height: 24 });
  const key = (await v.state()).hand.key;
  const line = (n) => '.' + key.repeat(n) + '.'.repeat(23 - n);

  await v.page.mouse.move(...await v.at(1, 1));
  await v.page.mouse.down();
  await v.page.mouse.move(...await v.at(20, 1)); // in one leap
  await v.page.mouse.up();
  assert.equal(await v.row(1), line(20));

  await v.touch('touchStart', await v.at(1, 3));
  await v.touch('touchMove', await v.at(9, 3));
  await v.touch('touchEnd');
  assert.equal(await v.row(3), line(9));

  await v.pen('mouseMoved', await v.at(1, 5), 0);
  await v.pen('mousePressed', await v.at(1, 5), 1);
  await v.pen('mouseMoved', await v.at(6, 5), 1);
  // A palm beside the pen draws nothing and moves nothing.
  const before = (await v.state()).grid;
  await v.touch('touchStart', await v.at(15, 15));
  await v.touch('touchMove', await v.at(19, 15));
  await v.touch('touchEnd');
  await v.pen('mouseReleased', await v.at(6, 5), 0);
  assert.equal(await v.row(5), line(6));
  assert.equal(await v.row(15), '.'.repeat(24));
  assert.deepEqual((await v.state()).grid, before);

  assert.equal((await v.state()).undo, 3);
  await v.run('undo');
  assert.equal(await v.row(5), '.'.repeat(24));
  await v.run('redo');
  assert.equal(await v.row(5), line(6));

  // With a pen about, a finger moves the drawing.
  await v.touchLater(5, 'touchStart', [400, 300]);
  await v.touchLater(5.1, 'touchMove', [440, 320]);
  await v.touchLater(5.2, 'touchEnd');
  const moved = (await v.state()).grid;
  assert.deepEqual([moved.x - before.x, moved.y - before.y], [40, 20]);
  assert.equal((await v.state()).undo, 3);
});

onThePage('two fingers move and zoom and leave no trace', { hasTouch: true }, async (v) => {
  const { grid, sprite } = await v.state();
  await v.touch('touchStart', [300, 300, 1]);
  await v.touch('touchStart', [300, 300, 1], [500, 500, 2]);
  await v.touch('touchMove', [250, 250, 1], [550, 550, 2]);
  await v.touch('touchEnd');
  const s = await v.state();
  assert.ok(Math.abs(s.grid.cell / grid.cell - 1.5) < 0.01);
  assert.deepEqual(s.sprite.rows, sprite.rows);
  assert.equal(s.undo, 0);
});

onThePage('what was drawn is there after a reload, and after the drawing context is lost', {}, async (v) => {
  await v.run('draw', { points: [0.5, 0.5, 8.5, 0.5] });
  const rows = (await v.state()).sprite.rows;
  await v.until('saving', (s) => s.saved);
  await v.load();
  assert.deepEqual((await v.state()).sprite.rows, rows);

  await v.run('draw', { points: [0.5, 2.5, 8.5, 2.5] });
  const more = (await v.state()).sprite.rows;
  const reloaded = v.page.waitForNavigation();
  await v.page.evaluate(() => document.querySelector('body > canvas').getContext('webgl2').getExtension('WEBGL_lose_context').loseContext());
  await reloaded;
  await v.page.evaluate(() => window.sheetsprite.ready);
  assert.deepEqual((await v.state()).sprite.rows, more);
});

onThePage('the number of parts answers to the drawing', {}, async (v) => {
  await v.run('new', { width: 8, height: 8 });
  const [ink, other] = (await v.state()).palette;
  await v.run('box', { x0: 1, y0: 1, x1: 6, y1: 6, body: 'filled', key: ink.key });
  let s = await v.planned();
  assert.deepEqual([s.plan.parts, s.plan.heights, s.plan.patches], [1, 1, 1]);
  await v.run('box', { x0: 3, y0: 3, x1: 4, y1: 4, body: 'filled', key: other.key });
  s = await v.planned();
  assert.deepEqual([s.plan.parts, s.plan.heights, s.plan.patches], [2, 2, 2]);
  await v.text('the number on the panel', '#count-number', /^2 parts/);
});

onThePage('calibrated, the preview shows true millimetres', {}, async (v) => {
  await v.planned();
  await v.until('the relief', (s) => s.preview.width > 0);
  await v.run('calibrate', { pxPerMm: 4.5 });
  await v.run('showSize', { size: 'real' });
  const s = await v.until('real size', (t) => t.preview.pxPerMm === 4.5);
  const rows = s.sprite.rows;
  const columns = [...Array(s.sprite.width).keys()].filter((x) => rows.some((r) => r[x] !== '.'));
  const wide = (columns.at(-1) - columns[0] + 1) * s.sprite.cell;
  assert.ok(Math.abs(s.preview.width - wide * 4.5) < 0.5, `${s.preview.width} px for ${wide} mm`);
});

onThePage('the bundle is byte for byte the command’s', {}, async (v) => {
  for (const name of (await v.state()).sprites.slice(2)) await v.run('removeSprite', { sprite: name });
  const bundle = Buffer.from(await v.page.evaluate(async () => Array.from(await window.sheetsprite.bundle())));
  const { text } = await v.run('save');
  const folder = mkdtempSync(join(tmpdir(), 'sheetsprite-'));
  writeFileSync(join(folder, 'project.json'), text);
  execFileSync(process.env.SHEETSPRITE_COMMAND, ['cut', join(folder, 'project.json'), '-o', join(folder, 'out.zip')], { stdio: 'ignore' });
  assert.ok(bundle.equals(readFileSync(join(folder, 'out.zip'))));
});

onThePage('hostile project files are refused with a sentence and change nothing', {}, async (v) => {
  const before = await v.state();
  for (const project of ['', '{', '[]', '{"format":"sheetsprite","version":99}', '{"a":'.repeat(5000), 'null', { sprites: 7 }]) {
    await assert.rejects(v.run('open', { project }), (e) => e.message.length > 20);
  }
  const after = await v.state();
  assert.deepEqual(after.sprite, before.sprite);
});

onThePage('by keyboard alone: reach the drawing, draw, undo, see the keys', {}, async (v) => {
  await v.run('new', { width: 8, height: 8 });
  for (let i = 0; i < 20 && await v.page.evaluate(() => document.activeElement?.id) !== 'bench'; i++) await v.page.keyboard.press('Tab');
  await v.page.keyboard.press('ArrowRight');
  await v.page.keyboard.press('ArrowDown');
  await v.page.keyboard.press('Space');
  const { hand } = await v.state();
  assert.equal(await v.row(1), `.${hand.key}......`);
  await v.page.keyboard.press('Control+z');
  assert.equal(await v.row(1), '........');
  await v.page.keyboard.press('?');
  await v.page.waitForSelector('dialog[open] kbd');
});

onThePage('the accessibility engine finds nothing serious', {}, async (v) => {
  await v.planned();
  assert.deepEqual(await v.serious(), []);
  for (const id of ['title', 'files', 'more', 'relief-size']) {
    await v.page.click(`#${id}`);
    await v.page.waitForSelector('dialog[open]');
    assert.deepEqual(await v.serious(), [], id);
    await v.page.keyboard.press('Escape');
  }
});

onThePage('at rest no frame is drawn', {}, async (v) => {
  await v.planned();
  await v.settled();
  const before = await v.drawn();
  for (let i = 0; i < 60; i++) await v.frame();
  assert.equal(await v.drawn(), before);
});

for (const [name, options] of Object.entries({
  'landscape': { width: 1180, height: 820 },
  'portrait': { width: 820, height: 1180 },
  'phone': { width: 390, height: 844 },
  'desk': { width: 1920, height: 1080 },
  'dark': { width: 1180, height: 820, colorScheme: 'dark' },
  'zoomed-400': { width: 320, height: 256 },
})) {
  onThePage(`a picture of the page: ${name}`, options, async (v) => {
    await v.planned();
    await v.settled();
    mkdirSync(screenshots, { recursive: true });
    await v.page.screenshot({ path: join(screenshots, `draw-${name}.png`) });
    // Nothing is wider than the glass, and the drawing can be reached.
    assert.ok(await v.page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
    const [x, y] = await v.at(0, 0);
    assert.equal(await v.page.evaluate(([px, py]) => document.elementFromPoint(px, py)?.tagName, [x, y]), 'CANVAS');
  });
}
