// A first visit: what the contract of DEVELOPERS.md promises of it, and what it
// costs on the wire.
import assert from 'node:assert/strict';
import { createServer, connect } from 'node:net';
import { measured, onAFirstVisit } from './suite.mjs';

onAFirstVisit('a first visit shows the demo, wholly in view, pencil and colour in hand', {}, async (v) => {
  const s = await v.state();
  assert.equal(s.view, 'Draw');
  assert.equal(s.sprite.name, s.sprites[0]);
  assert.equal(s.hand.tool, 'pencil');
  assert.equal(s.hand.bothSides, 'off');
  assert.match(s.hand.key, /^.$/);
  assert.ok(s.palette.some((e) => e.key === s.hand.key));
  assert.ok(s.sprite.rows.some((row) => /[^.]/.test(row)), 'the demo has cells');
  assert.deepEqual([s.undo, s.redo], [0, 0]);
  await nothingOver(v);

  // The introduction can be walked through and never lies over the drawing.
  for (let step = 1; step <= 3; step++) {
    await v.run('showStep', { step });
    await v.frame();
    await nothingOver(v);
  }
  const [x, y] = await v.at(0, 0);
  await v.page.mouse.click(x, y);
  assert.equal((await v.state()).undo, 1, 'a press on the drawing draws while it is shown');
  await v.run('showStep', { step: 0 });
});

for (const [width, height] of [[820, 1180], [390, 844]]) {
  onAFirstVisit(`a first visit at ${width} × ${height} in the dark: nothing over the drawing, and Escape leaves the introduction`, { width, height, colorScheme: 'dark' }, async (v) => {
    for (let step = 1; step <= 3; step++) {
      await v.run('showStep', { step });
      await v.settled(4);
      assert.ok(await v.page.isVisible('#intro'));
      await nothingOver(v);
    }
    await v.page.keyboard.press('Escape');
    await v.until('the introduction gone', (gone) => gone, () => v.page.isHidden('#intro'));
    await nothingOver(v);
  });
}

/** Each cell is on the glass, and the canvas is what a finger there meets. */
async function nothingOver(v) {
  const { grid, sprite } = await v.state();
  const covered = await v.page.evaluate(([g, w, h]) => {
    const found = [];
    for (let y = 0; y < h; y++) {
      for (let x = 0; x < w; x++) {
        const there = document.elementFromPoint(g.x + (x + 0.5) * g.cell, g.y + (y + 0.5) * g.cell);
        if (there?.tagName !== 'CANVAS') found.push([x, y, there?.id ?? 'nothing']);
      }
    }
    return found.slice(0, 5);
  }, [grid, sprite.width, sprite.height]);
  assert.deepEqual(covered, []);
}

/** A wire to the server that counts what comes back through it. */
async function wire() {
  const there = new URL(process.env.SHEETSPRITE_ADDRESS);
  const counted = { bytes: 0, address: '', close: () => proxy.close() };
  const proxy = createServer((near) => {
    const far = connect(Number(there.port), there.hostname);
    far.on('data', (data) => { counted.bytes += data.length; });
    near.pipe(far).pipe(near);
    for (const end of [near, far]) end.on('error', () => { near.destroy(); far.destroy(); });
  });
  await new Promise((resolve) => { proxy.listen(0, '127.0.0.1', resolve); });
  counted.address = `http://127.0.0.1:${proxy.address().port}/`;
  return counted;
}

onAFirstVisit('a first visit transfers at most 3.5 MB, a second one next to nothing', {}, async (v, t) => {
  const counted = await wire();
  try {
    await v.page.goto(counted.address);
    await v.page.evaluate(() => window.sheetsprite.ready);
    await v.planned(); // so the worker is there too
    measured(t, `first visit ${(counted.bytes / 1e6).toFixed(2)} MB on the wire, headers and all`);
    assert.ok(counted.bytes < 3_500_000, `${counted.bytes} bytes`);
    assert.ok(counted.bytes > 1_000_000, 'the programs came through the wire');
    const first = counted.bytes;
    const began = performance.now();
    await v.page.goto(counted.address);
    await v.page.evaluate(() => window.sheetsprite.ready);
    measured(t, `second visit ready after ${((performance.now() - began) / 1000).toFixed(2)} s`);
    await v.planned();
    assert.ok(counted.bytes - first < 200_000, `${counted.bytes - first} bytes again`);
  } finally {
    counted.close();
  }
});
