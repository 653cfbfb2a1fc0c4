// What the page costs: nothing at rest; how soon it answers is measured and
// told, never asserted.
import assert from 'node:assert/strict';
import { measured, numbers, onThePage } from './suite.mjs';

const ms = (x) => `${x.toFixed(x < 10 ? 1 : 0)} ms`;
const middle = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];

/** Cells that make n × n patches of random keys. */
function scene(side, keys, seed) {
  const random = numbers(seed);
  const blocks = Array.from({ length: 64 }, () => keys[random(keys.length)]);
  const cells = [];
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) cells.push([x, y, random(9) ? blocks[((y * 8) / side | 0) * 8 + ((x * 8) / side | 0)] : keys[random(keys.length)]]);
  }
  return cells;
}

onThePage('at rest no frame is drawn and hardly any time is used', {}, async (v, t) => {
  await v.run('draw', { points: [2, 2, 20, 9] });
  await v.planned();
  await v.until('saving', (s) => s.saved);
  await v.settled(240); // the relief comes after the final numbers, on a loaded machine seconds after
  await v.cdp.send('Performance.enable');
  const metrics = async () => Object.fromEntries((await v.cdp.send('Performance.getMetrics')).metrics.map((m) => [m.name, m.value]));
  // The page is left alone for some seconds by its own clock.
  const pause = (seconds) => v.page.evaluate((s) => new Promise((resolve) => { setTimeout(resolve, 1000 * s); }), seconds);
  await pause(2);
  const frames = await v.drawn();
  const began = await metrics();
  await pause(5);
  const ended = await metrics();
  await v.cdp.send('Performance.disable');
  assert.equal(await v.drawn(), frames, 'no frame is drawn');
  const share = (100 * (ended.TaskDuration - began.TaskDuration)) / (ended.Timestamp - began.Timestamp);
  measured(t, `at rest the page's thread is busy ${share.toFixed(2)} % of the time`);
  assert.ok(share < 10, `${share} %`); // under 1 % on a machine at rest; here others may be at work
});

onThePage('an edit is in the plan soon: 32 × 32 cells, 8 colours', {}, async (v, t) => {
  await v.run('new', { width: 32, height: 32 });
  const keys = (await v.state()).palette.map((e) => e.key).slice(0, 8);
  await v.run('paintCells', { cells: scene(32, keys, 3) });
  await v.planned();
  const edits = [];
  for (let i = 0; i < 5; i++) {
    edits.push(await v.page.evaluate(async ([x, y, key]) => {
      const page = window.sheetsprite;
      const [was] = [page.state()];
      const began = performance.now();
      await page.run('box', { x0: x, y0: y, x1: x + 2, y1: y + 2, body: 'filled', key });
      const go = performance.now() - began;
      let first = 0;
      for (;;) {
        const { plan } = page.state();
        const now = performance.now() - began;
        if (!first && (plan.parts !== was.plan.parts || plan.heights !== was.plan.heights || !plan.stale)) first = now;
        if (!plan.stale) return { go, first, last: now };
        await new Promise((resolve) => { setTimeout(resolve, 2); });
      }
    }, [3 + 5 * i, 4 + 4 * i, keys[i]]));
  }
  measured(t, `an edit, inside the program: ${ms(middle(edits.map((e) => e.go)))}; first numbers after ${ms(middle(edits.map((e) => e.first)))}, the final plan after ${ms(middle(edits.map((e) => e.last)))} (middle of ${edits.length})`);
  const last = await v.planned();
  assert.ok(last.plan.parts > 0);
});

onThePage('while forty sprites are planned again, drawing goes on', {}, async (v, t) => {
  await v.run('new', { width: 64, height: 64 });
  const keys = (await v.state()).palette.map((e) => e.key);
  await v.run('paintCells', { cells: scene(64, keys.slice(0, 3), 5) });
  /** How many long tasks a stroke comes with, and the longest. */
  const strokes = async (row) => {
    await v.page.evaluate(() => {
      window.long = [];
      window.watch = new PerformanceObserver((list) => { for (const e of list.getEntries()) window.long.push(e.duration); });
      window.watch.observe({ type: 'longtask' });
    });
    await v.page.mouse.move(...await v.at(3, row));
    await v.page.mouse.down();
    for (let i = 0; i < 20; i++) await v.page.mouse.move(...await v.at(3 + i, row + (i % 7)));
    await v.page.mouse.up();
    const long = await v.page.evaluate(() => { window.watch.disconnect(); return window.long; });
    return `${long.length}${long.length ? `, the longest ${ms(Math.max(...long))}` : ''}`;
  };
  await v.planned();
  const alone = await strokes(3);
  for (let i = 1; i < 40; i++) await v.run('copySprite');
  await v.run('setJoin', { mm: 1.2 }); // all forty change
  const planning = await strokes(20);
  measured(t, `long tasks during a stroke of twenty moves: ${alone} with one sprite of 64 × 64; ${planning} while forty are planned again`);
  assert.equal((await v.state()).sprites.length, 40);
});
