// What every test file of the page begins with: one browser for the file, a
// visit of its own for each test, and a console that must stay quiet.
import { after, before, test } from 'node:test';
import assert from 'node:assert/strict';
import { launch, visit } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(async () => { await browser?.close(); });

/** A test with a visit of its own and no fault on the console; v is what
 * harness.mjs gives, t is the runner's. */
export function onThePage(name, options, body) {
  test(name, async (t) => {
    const v = await visit(browser, options);
    try {
      await body(v, t);
      assert.deepEqual(v.faults, []);
    } finally {
      await v.context.close();
    }
  });
}

/** The file's browser; there is one only while tests run. */
export const theBrowser = () => browser;

/** A figure that depends on the machine: told, and asserted nowhere. The whole
 * test run prints these lines. */
export function measured(t, what) {
  t.diagnostic(`measured: ${what}`);
}

/** A project of one sprite with the given rows; keys are those of a new project. */
export async function draw(v, rows) {
  await v.run('new', { width: rows[0].length, height: rows.length });
  await v.run('paintCells', {
    cells: rows.flatMap((row, y) => [...row].flatMap((key, x) => (key === '.' ? [] : [[x, y, key]]))),
  });
  assert.deepEqual((await v.state()).sprite.rows, rows);
}

/** Numbers that look random and are the same in every run (mulberry32: a small
 * generator in the public domain; from memory). */
export function numbers(seed) {
  let a = seed >>> 0;
  return (below) => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4294967296) * below);
  };
}
