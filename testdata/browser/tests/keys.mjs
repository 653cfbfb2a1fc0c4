// The keyboard alone does everything.
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { draw, onThePage } from './suite.mjs';

const focusBench = async (v) => {
  await v.page.evaluate(() => document.activeElement?.blur());
  for (let i = 0; i < 60 && await v.page.evaluate(() => document.activeElement?.id) !== 'bench'; i++) await v.page.keyboard.press('Tab');
  assert.equal(await v.page.evaluate(() => document.activeElement?.id), 'bench');
};

onThePage('reach the drawing, draw, undo, see the keys', {}, async (v) => {
  await v.run('new', { width: 8, height: 8 });
  await focusBench(v);
  await v.page.keyboard.press('ArrowRight');
  await v.page.keyboard.press('ArrowDown');
  await v.page.keyboard.press('Space');
  const { key } = (await v.state()).hand;
  assert.equal(await v.row(1), `.${key}......`);
  await v.page.keyboard.press('Shift+ArrowRight');
  await v.page.keyboard.press('Shift+ArrowRight');
  assert.equal(await v.row(1), `.${key.repeat(3)}....`);
  while ((await v.state()).undo > 0) await v.page.keyboard.press('Control+z');
  assert.equal(await v.row(1), '........');
  // A figure from corner to corner.
  await v.page.keyboard.press('b');
  await v.page.keyboard.press('Space');
  for (let i = 0; i < 3; i++) { await v.page.keyboard.press('ArrowRight'); await v.page.keyboard.press('ArrowDown'); }
  await v.page.keyboard.press('Space');
  assert.ok((await v.state()).sprite.rows.join('').replaceAll('.', '').length >= 10, 'a box of 4 × 4 as a line has 12 cells');
  // A screen reader is told where the keyboard is.
  await v.text('the place', '#bench-place', /^column \d+, row \d+: ./);
  await v.page.keyboard.press('?');
  await v.page.waitForSelector('dialog[open] kbd');
});

/** A key of the list as the driver presses it. */
const pressed = (press) => press.split(/(?<=.)\+/).map((part) => {
  if (part === 'Ctrl') return 'Control';
  return part.length === 1 && /[A-Z]/.test(part) && !press.includes('Shift') ? part.toLowerCase() : part;
}).join('+');

onThePage('each key of the list is taken by the page, and the page shows each', {}, async (v) => {
  await v.page.evaluate(() => {
    window.taken = [];
    window.addEventListener('keydown', (e) => { window.taken.push(e.defaultPrevented); });
  });
  const groups = await v.run('keys');
  const keys = groups.flatMap((g) => g.commands.flatMap((c) => c.keys.map((k) => ({ ...k, command: c.command }))));
  assert.ok(keys.length > 60, `${keys.length} keys`);
  assert.equal(new Set(keys.map((k) => k.press)).size, keys.length, 'each press does one thing');
  const missed = [];
  await draw(v, ['AABB', 'AABB', '....', '....']);
  for (const key of keys) {
    await v.run('letterKeys', { use: 'on' });
    await v.run('showView', { view: 'Draw' });
    await v.page.evaluate(() => {
      for (const dialog of document.querySelectorAll('dialog')) dialog.close();
      document.getElementById('bench').focus();
      window.taken.length = 0;
    });
    await v.page.keyboard.press(pressed(key.press));
    if (!await v.page.evaluate(() => window.taken.at(-1))) missed.push(key.press);
  }
  assert.deepEqual(missed, []);
  await v.page.evaluate(() => { for (const dialog of document.querySelectorAll('dialog')) dialog.close(); });
  await v.page.keyboard.press('?');
  const shown = await v.page.locator('dialog[open] kbd').allTextContents();
  for (const key of keys) assert.ok(shown.includes(key.press), `${key.press} is in the list`);
});

onThePage('letters do nothing once they are turned off, for those who speak to their computer', {}, async (v) => {
  // WCAG 2.2, 2.1.4 Character Key Shortcuts.
  await v.run('letterKeys', { use: 'off' });
  await focusBench(v);
  await v.settled(3); // the page hears of it after the next frame
  await v.page.keyboard.press('f');
  assert.equal((await v.state()).hand.tool, 'pencil');
  await v.page.keyboard.press('Control+Alt+k');
  await v.until('the key', (tool) => tool === 'fill', async () => {
    await v.page.keyboard.press('f');
    return (await v.state()).hand.tool;
  });
});

onThePage('letters typed into a field stay there', {}, async (v) => {
  await v.page.click('#more');
  const field = v.page.locator('dialog[open] input[type="text"]').first();
  await field.fill('');
  await field.pressSequentially('fbp? ferry');
  assert.equal(await field.inputValue(), 'fbp? ferry');
  assert.equal((await v.state()).hand.tool, 'pencil');
});

onThePage('Tab goes through every control in reading order, shows where it is, and is never caught', {}, async (v) => {
  await draw(v, ['AABB', 'AABB', '..C.', '....']);
  await v.planned();
  await v.run('under', { under: 'B', over: 'A' }); // so that there is something to take back
  await v.until('the button', (n) => n === 1, () => v.page.locator('[data-name="fewest"]').count());
  await v.planned();
  await v.settled(20);
  // The page remembers the elements themselves: places in the document shift
  // while the plan's last numbers come in.
  await v.page.evaluate(() => { window.visited = []; });
  const seen = [];
  for (let i = 0; i < 120; i++) { // from wherever the keyboard is now, once round
    await v.page.keyboard.press('Tab');
    const at = await v.page.evaluate(() => {
      const e = document.activeElement;
      if (!e || e === document.body) return null;
      if (window.visited.includes(e)) return 'again';
      window.visited.push(e);
      return { name: e.id || e.getAttribute('data-name') || e.textContent.trim(), outline: getComputedStyle(e).outlineStyle, width: parseFloat(getComputedStyle(e).outlineWidth) };
    });
    if (at === 'again') break;
    if (at) seen.push(at); // else the browser's own controls
  }
  assert.deepEqual(seen.filter((s) => s.outline === 'none' || s.width < 2).map((s) => s.name), [], 'no mark where the keyboard is');
  const { turns, missing } = await v.page.evaluate(() => {
    const { visited } = window;
    const before = (a, b) => (a.compareDocumentPosition(b) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
    const name = (e) => e.id || e.textContent.trim() || e.outerHTML.slice(0, 80);
    return {
      // Once round, the order turns back to the top at one place only.
      turns: visited.filter((e, i) => !before(e, visited[(i + 1) % visited.length])).map(name),
      // Every control that can be seen is among them, or in a toolbar that is.
      missing: [...document.querySelectorAll('button, input, select, a[href], textarea')].filter((e) =>
        !e.disabled && e.checkVisibility({ visibilityProperty: true }) && !visited.includes(e) && !e.closest('[role="toolbar"]')).map(name),
    };
  });
  assert.equal(turns.length, 1, `reading order: ${seen.map((s) => s.name).join(', ')}; turns back after ${turns.join(', ')}`);
  assert.deepEqual(missing, []);
});

onThePage('in the toolbar the arrow keys go round', {}, async (v) => {
  const names = await v.page.locator('#tool-bar button').evaluateAll((all) => all.map((b) => b.getAttribute('data-name')));
  await v.page.locator('#tool-bar button').first().focus();
  for (const name of [...names.slice(1), names[0]]) {
    await v.page.keyboard.press('ArrowRight');
    assert.equal(await v.page.evaluate(() => document.activeElement.getAttribute('data-name')), name);
  }
  await v.page.keyboard.press('ArrowRight');
  await v.page.keyboard.press('Enter');
  assert.equal((await v.state()).hand.tool, names[1]);
});

onThePage('a dialog holds the keyboard, Escape closes it and gives it back', {}, async (v) => {
  for (const id of ['title', 'more', 'relief-size', 'files']) {
    await v.page.focus(`#${id}`);
    await v.page.keyboard.press('Enter');
    await v.page.waitForSelector('dialog[open]');
    for (let i = 0; i < 30; i++) {
      await v.page.keyboard.press('Tab');
      assert.ok(await v.page.evaluate(() => document.activeElement === document.body || document.activeElement.closest('dialog') !== null), id);
    }
    await v.page.keyboard.press('Escape');
    await v.page.waitForSelector('dialog', { state: 'detached' });
    assert.equal(await v.page.evaluate(() => document.activeElement?.id), id);
  }
});

onThePage('every command has a control, but for what a pointer or a script does', {}, async (v) => {
  const folder = new URL('../../../web/js/', import.meta.url);
  const source = readdirSync(folder).map((name) => readFileSync(new URL(name, folder), 'utf8')).join('\n');
  // Given to the tools and the canvas by the pointer, or to remedies and tests.
  const byPointer = ['begin', 'extend', 'end', 'letGo', 'draw', 'rub', 'line', 'box', 'oval', 'fill', 'pick', 'paintCells', 'mark', 'move', 'zoom', 'pan', 'cursor', 'useTool'];
  const groups = await v.run('keys');
  const without = groups.flatMap((g) => g.commands).filter((c) => !byPointer.includes(c.command))
    .filter((c) => !source.includes(`'${c.command}'`) && c.keys.length === 0).map((c) => c.command);
  assert.deepEqual(without, ['order']); // by hand: dragging a card moves it in the order
});
