// What every file of tests begins with: one browser and one open page for all
// of them, since loading the page costs more than most tests do, and a console
// that must stay quiet.
import { after, before, test } from 'node:test';
import assert from 'node:assert/strict';
import { launch, visit } from '../harness.mjs';

let browser;
/** The visit that tests share. */
let shared;
before(async () => { browser = await launch(); });
after(async () => { await browser?.close(); });

const usual = { width: 1180, height: 820, colorScheme: 'light' };

/** A test on an empty project in the shared visit; options are the size of the
 * glass and the colour scheme. v is what harness.mjs gives, t is the runner's. */
export function onThePage(name, options, body) {
  test(name, async (t) => {
    shared ??= await visit(browser, { ...usual, hasTouch: true });
    const { page, faults } = shared;
    faults.length = 0;
    const { width, height, colorScheme } = { ...usual, ...options };
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height });
    await tidyUp(shared);
    await body(shared, t);
    assert.deepEqual(faults, []);
  });
}

/** A test of a first visit: a profile of its own, which shows the demo. */
export function onAFirstVisit(name, options, body) {
  test(name, async (t) => {
    const v = await visit(browser, { ...usual, ...options });
    try {
      await body(v, t);
      assert.deepEqual(v.faults, []);
    } finally {
      await v.context.close();
    }
  });
}

/** Whatever the test before left open or chosen is put back. */
async function tidyUp(v) {
  await v.page.evaluate(() => {
    for (const dialog of document.querySelectorAll('dialog')) dialog.close();
    for (const button of document.querySelectorAll('#relief-head-act [aria-pressed="true"], #pulls [aria-expanded="true"]')) button.click();
    document.activeElement?.blur();
  });
  for (const [name, args] of [
    ['new', { width: 24, height: 24 }], ['showView', { view: 'Draw' }], ['lookAtSheets', { x: 0, y: 0, zoom: 1 }], ['pointAt', {}], ['setPace', { pace: 'typical' }], ['keepAwake', { awake: 'on' }], ['showSheet', { sheet: '' }], ['tool', { tool: 'pencil' }], ['bothSides', { sides: 'off' }],
    ['letterKeys', { use: 'on' }], ['units', { units: 'mm' }], ['calibrate', { pxPerMm: 0 }], ['showSize', { size: 'fit' }],
    ['turnRelief', { turn: 0, tilt: 0 }], ['pullApart', { by: 0 }], ['showLayers', { show: 'all', layer: 1 }], ['showStep', { step: 0 }],
  ]) await v.run(name, args);
  await v.run('choose', { key: (await v.state()).palette[0].key });
  await v.run('fit');
}

/** The browser, for what needs more than a page. */
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
