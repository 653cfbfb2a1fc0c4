// Drawing at random for a while: no fault on the console, and the page's memory
// is watched once undo is as full as it gets. SHEETSPRITE_DRAW_SECONDS says for how long; 1800 is the half hour
// that is run by hand before a release.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { measured, numbers, onThePage, theBrowser } from './suite.mjs';

const seconds = Number(process.env.SHEETSPRITE_DRAW_SECONDS ?? 30);

/** Memory of the processes that hold pages, MB: what the kernel says. */
async function memory() {
  const cdp = await theBrowser().newBrowserCDPSession();
  const { processInfo } = await cdp.send('SystemInfo.getProcessInfo');
  await cdp.detach();
  let kB = 0;
  for (const { type, id } of processInfo) {
    if (type !== 'renderer') continue;
    kB += Number(/^VmRSS:\s+(\d+)/m.exec(readFileSync(`/proc/${id}/status`, 'utf8'))[1]);
  }
  return kB / 1024;
}

onThePage(`${seconds} s of drawing at random`, {}, async (v, t) => {
  await v.run('new', { width: 32, height: 32 });
  const random = numbers(2026);
  const { palette } = await v.state();
  const pick = (list) => list[random(list.length)];
  let { grid } = await v.state();
  const cell = () => [grid.x + (random(34) - 0.5) * grid.cell, grid.y + (random(34) - 0.5) * grid.cell];
  const drag = async () => {
    await v.page.mouse.move(...cell());
    await v.page.mouse.down();
    for (let n = 1 + random(4); n > 0; n--) await v.page.mouse.move(...cell(), { steps: 1 + random(3) });
    await v.page.mouse.up();
  };
  const finger = async () => {
    await v.touch('touchStart', cell());
    for (let n = 1 + random(3); n > 0; n--) await v.touch('touchMove', cell());
    await v.touch(random(8) ? 'touchEnd' : 'touchCancel');
  };
  const pen = async () => {
    await v.pen('mousePressed', cell(), 1);
    for (let n = 1 + random(3); n > 0; n--) await v.pen('mouseMoved', cell(), 1);
    await v.pen('mouseReleased', cell(), 0);
  };
  const keys = palette.map((e) => e.key);
  const pair = () => {
    const under = random(keys.length);
    return { under: keys[under], over: keys[(under + 1 + random(keys.length - 1)) % keys.length] };
  };
  const acts = [
    drag, drag, drag, drag, drag, finger, finger, pen, pen,
    () => v.run('choose', { key: pick(keys) }),
    () => v.run('tool', { tool: pick(['pencil', 'pencil', 'pencil', 'rub', 'fill', 'line', 'box', 'oval', 'move', 'pick']) }),
    () => v.run('bothSides', { sides: pick(['off', 'off', 'left-right', 'top-bottom', 'all-four']) }),
    () => v.page.keyboard.press(pick(['Control+z', 'Control+z', 'Control+Shift+z', 'Control+y'])),
    () => v.run('shift', { dx: random(3) - 1, dy: random(3) - 1 }),
    () => v.run('under', pair()),
    () => v.run('fewest'),
    () => v.run('turnRelief', { turn: random(90) - 45, tilt: random(60) }),
    () => v.run('pullApart', { by: random(11) / 10 }),
    () => v.run('fit'),
  ];
  // Undo keeps ten thousand steps: as many come first, so that from here on
  // each new step makes the oldest go.
  const full = 10_000;
  for (let n = 0; n < full; n += 200) {
    await v.page.evaluate(async ([from, list]) => {
      for (let i = from; i < from + 200; i++) {
        const [x, y] = [(i * 7) % 32, (i * 13 + (i >> 5)) % 32];
        await window.sheetsprite.run('draw', { points: [x, y, (x + 5) % 32, (y + i) % 32] });
        if (i % 3 === 0) await window.sheetsprite.run('choose', { key: list[i % list.length] });
      }
    }, [n, keys]);
    await v.frame();
  }
  await v.planned();
  const seen = [];
  let steps = 0;
  const began = performance.now();
  for (let next = 0; performance.now() - began < 1000 * seconds; steps++) {
    if (steps % 10 === 0) ({ grid } = await v.state()); // fingers move it
    // What can't be done at the moment (nothing to undo, cards in a circle) is said, and is no fault.
    await pick(acts)().catch((e) => { if (!/^page\.evaluate: Error: /.test(e.message)) throw e; });
    if (performance.now() - began >= 1000 * next) {
      seen.push(await memory());
      next += Math.max(10, seconds / 15);
    }
  }
  const s = await v.planned();
  assert.equal(s.plan.problem, '');
  measured(t, `${steps} steps at random in ${seconds} s; memory of the page's process, MB: ${seen.map((mb) => mb.toFixed(0)).join(' ')}`);
  // The drawing is sound: the command and the page agree on what it is.
  const { text } = await v.run('save');
  await v.run('open', { project: text });
  assert.deepEqual((await v.state()).sprite.rows, s.sprite.rows);
});
