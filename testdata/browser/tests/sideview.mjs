// The stack's side view: a card dragged over or under another with a finger, a
// mouse, a pen or the keys, what that costs, and foam or tape in its gaps.
import assert from 'node:assert/strict';
import { draw, onThePage } from './suite.mjs';

const frame = ['........', '.AAAAAA.', '.ABBBBA.', '.ABBBBA.', '.ABCCBA.', '.ABBBBA.', '.AAAAAA.', '........'];

const of = (s, key) => s.stack.find((e) => e.key === key);
const rowOf = (key) => `.card-row[data-name="${key}"]`;

/** The middle of an element, or a place within it as shares of its size. */
async function within(v, selector, fx = 0.5, fy = 0.5) {
  const b = await v.page.locator(selector).boundingBox();
  return [b.x + b.width * fx, b.y + b.height * fy];
}

/** Presses and moves in one go: a press held for long opens the card instead. */
const pressAndMove = (v, to, steps) => Promise.all([v.page.mouse.down(), v.page.mouse.move(...to, { steps })]);

/** The final plan, once the page's rows show it. */
async function shown(v) {
  const s = await v.planned();
  const used = s.stack.filter((e) => e.heights.length).map((e) => e.key).join('');
  await v.until('the rows', (keys) => keys === used, () => v.page.evaluate(() =>
    [...document.querySelectorAll('#stack li:not(.unused) .card-row')].map((e) => e.getAttribute('data-name')).join('')));
  return s;
}

/** What the last change cost, once it is counted. */
const cost = (v) => v.text('what it costs', '#cost', /: (?!counting)/);

onThePage('a mouse drags a card under another: what it costs is said while it goes, and after', {}, async (v) => {
  await draw(v, frame);
  const before = await shown(v);
  const [top, next] = before.stack.map((e) => e.key);
  const to = await within(v, rowOf(next), 0.5, 0.7);
  await v.page.mouse.move(...await within(v, rowOf(top)));
  await pressAndMove(v, to, 4);
  const name = (key) => before.palette.find((e) => e.key === key).name;
  const foretold = await v.text('what it would cost', '.drag-words', /: (?!counting)/);
  assert.ok(foretold.startsWith(`${name(next)} over ${name(top)}: `), foretold);
  const held = await v.state();
  assert.deepEqual([held.revision, held.undo, held.plan.stale], [before.revision, before.undo, false], 'nothing has changed yet');
  await v.page.mouse.up();
  assert.equal(await v.page.locator('.drag-words').count(), 0);
  const after = await shown(v);
  assert.deepEqual(of(after, next).over, [top]);
  assert.equal(after.hand.key, before.hand.key, 'letting go is no tap');
  const said = await cost(v);
  assert.equal(said.replace(/Undo$/, ''), foretold);
  const same = ['parts', 'seconds', 'top'].every((f) => after.plan[f] === before.plan[f]);
  for (const figure of same ? ['costs nothing'] : [`${after.plan.parts} part`, 'mm']) assert.ok(said.includes(figure), `${said} has ${figure}`);
  await v.page.click('[data-name="take-back"]');
  await v.until('the way back', (s) => of(s, next).over.length === 0);
  assert.equal((await shown(v)).plan.parts, before.plan.parts);
});

onThePage('a finger takes hold of a card by its colour; elsewhere it scrolls; a pen takes the row', {}, async (v) => {
  await draw(v, frame);
  const [top, , low] = (await shown(v)).stack.map((e) => e.key);
  await v.touch('touchStart', await within(v, `${rowOf(low)} .chip`));
  const [x, y] = await within(v, rowOf(top), 0.3, 0.2);
  await v.touch('touchMove', [x, y + 30]);
  await v.touch('touchMove', [x, y]);
  await v.touch('touchEnd');
  await v.until('what the finger dropped', (s) => of(s, low).over.includes(top));
  await v.run('undo');
  await shown(v);

  await v.touch('touchStart', await within(v, `${rowOf(low)} .words`));
  await v.touch('touchMove', [x, y + 30]);
  await v.touch('touchMove', [x, y]);
  await v.touch('touchEnd');
  await v.frame();
  assert.deepEqual((await v.state()).stack.flatMap((e) => e.over), [], 'a finger on the words moves nothing');

  await v.until('the list at its top again', (at) => at === 0, () => v.page.evaluate(() => { // the finger may have flung it
    const list = document.querySelector('#stack-scroll');
    list.scrollTo({ top: 0, behavior: 'instant' });
    return list.scrollTop;
  }));
  await v.settled(10);
  const [px, py] = await within(v, `${rowOf(low)} .words`);
  await v.pen('mouseMoved', [px, py], 0);
  await v.pen('mousePressed', [px, py], 1);
  await v.pen('mouseMoved', [x, y + 20], 1);
  await v.pen('mouseMoved', [x, y], 1);
  await v.pen('mouseReleased', [x, y], 0);
  await v.until('what the pen dropped', (t) => of(t, low).over.includes(top));
});

onThePage('a drag that is let go elsewhere, or with Escape, changes nothing', {}, async (v) => {
  await draw(v, frame);
  const before = await shown(v);
  const [top, next] = before.stack.map((e) => e.key);
  for (const leave of ['elsewhere', 'Escape']) {
    const to = await within(v, rowOf(next));
    await v.page.mouse.move(...await within(v, rowOf(top)));
    await pressAndMove(v, to, 3);
    if (leave === 'Escape') await v.page.keyboard.press('Escape');
    else await v.page.mouse.move(...await within(v, '#bench'), { steps: 3 });
    await v.page.mouse.up();
    assert.equal(await v.page.locator('.drag-words, .lifted').count(), 0, leave);
    assert.equal((await v.state()).undo, before.undo, leave);
  }
});

onThePage('by keys: Alt and an arrow lay a card over its neighbour, and the keyboard stays on it', {}, async (v) => {
  await draw(v, frame);
  const before = await shown(v);
  const [top, next] = before.stack.map((e) => e.key);
  await v.page.focus(rowOf(next));
  await v.page.keyboard.press('Alt+ArrowUp');
  let s = await shown(v);
  assert.deepEqual(of(s, next).over, [top]);
  await cost(v);
  assert.equal(await v.page.evaluate(() => document.activeElement?.getAttribute('data-name')), next);
  await v.page.keyboard.press('Alt+ArrowDown');
  s = await shown(v);
  assert.ok(s.stack.some((e) => e.over.includes(next)), 'the neighbour lies over it');
});

onThePage('foam in a gap: the side view, the relief’s height and the files’ setting follow; one height at most', {}, async (v) => {
  await draw(v, frame);
  await v.run('setCell', { mm: 9 }); // room for pads under all
  const flat = (await shown(v)).plan;
  // 3 mm of foam, then cards of 0.3 mm with tape of 0.1 mm between (common practice, no source).
  assert.equal(flat.top.toFixed(1), (3 + 0.3 * flat.heights + 0.1 * (flat.heights - 1)).toFixed(1));
  await v.until('the side view', (n) => n > 0, () => v.page.locator('#stack rect[data-height="2"]').count());
  await v.page.click('#gaps');
  const under = (height) => v.page.locator(`dialog label[data-height="${height}"] select`);
  await under(2).selectOption('1');
  let s = await shown(v);
  assert.deepEqual([s.style.float, s.style.floatBy], [2, 1]);
  assert.ok(Math.abs(s.plan.top - flat.top - 0.9) < 1e-9, `${s.plan.top} mm high`);
  if (flat.heights > 2) {
    await under(3).selectOption('2');
    s = await shown(v);
    assert.deepEqual([s.style.float, s.style.floatBy], [3, 2]);
    assert.equal(await under(2).inputValue(), '0', 'the other height lies on tape again');
  }
  await under(1).selectOption('grey-board');
  s = await shown(v);
  assert.deepEqual([s.style.foamStock, s.style.foamLift], ['grey-board', 2.2], 'spacers of 2 mm, taped on both faces');
  // They are parts of the job by their numbers, on the sheets and in the steps.
  const [laid, steps] = await v.page.evaluate(async () => [await window.sheetsprite.sheets(), await window.sheetsprite.steps()]);
  const lifted = steps.sprites[0].parts.flatMap((p) => p.lifts);
  assert.ok(lifted.length > 0);
  assert.deepEqual(lifted.filter((n) => laid.parts.some((p) => p.number === n && p.stock === 'grey-board')), lifted);
  await under(1).selectOption('0');
  s = await shown(v);
  assert.deepEqual([s.style.foam, s.style.foamStock], [0, '']);
  // A jig for a height, from any board; a layer of several parts laid down at once.
  await v.page.locator('dialog label', { hasText: '2. A jig with a window' }).locator('select').selectOption('grey-board');
  s = await shown(v);
  assert.deepEqual(s.style.jigs, [{ height: 2, stock: 'grey-board' }]);
  const several = v.page.locator('dialog label', { hasText: 'parts are laid down' });
  if (await several.count() > 0) {
    await several.first().locator('select').selectOption('whole');
    assert.equal((await shown(v)).style.whole.length, 1);
  }
  await v.page.locator('dialog label', { hasText: 'Cover over the board' }).locator('input').fill('2');
  await v.page.keyboard.press('Tab');
  s = await v.until('the finding', (t) => t.plan.findings.some((f) => f.code === 'too-high'));
  await v.page.keyboard.press('Escape');

  // To one scale: what is drawn has the heights of the plan.
  const drawn = await v.until('foam in the side view', (d) => d.foam > 0, () => v.page.evaluate(() => {
    const tall = (e) => Number(e?.getAttribute('height'));
    const tape = document.querySelector('#stack .tape');
    return { foam: tall(document.querySelector('#stack .foam')), tape: tall(tape) };
  }));
  assert.ok(Math.abs(drawn.foam / drawn.tape - s.style.floatBy / 0.1) < 0.5, JSON.stringify(drawn));
  for (let i = s.undo; i > 0 && (await v.state()).style.float; i--) await v.run('undo');
  assert.equal((await shown(v)).plan.top, flat.top);
});
