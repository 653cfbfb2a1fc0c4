// Starts Chromium and opens the page whose address is in SHEETSPRITE_ADDRESS.
import { readFileSync } from 'node:fs';
import { chromium } from 'playwright-core';

const address = process.env.SHEETSPRITE_ADDRESS;
if (!address) throw new Error('SHEETSPRITE_ADDRESS is not set: run go run ./cmd/check');
export const screenshots = new URL('../../screenshots/', import.meta.url).pathname;

/** One browser for a test file; software drawing, as no machine here has a GPU. */
export async function launch() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', timeout: 120_000,
    args: ['--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
  });
}

/** A visit in a profile of its own. What goes wrong on the console is gathered. */
export async function visit(browser, { width = 1180, height = 820, ...more } = {}) {
  const context = await browser.newContext({ viewport: { width, height }, acceptDownloads: true, ...more });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const faults = [];
  await page.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', (e) => console.error(`policy: ${e.violatedDirective} ${e.blockedURI}`));
  });
  page.on('console', (m) => { if (m.type() === 'error') faults.push(m.text()); });
  page.on('pageerror', (e) => faults.push(String(e)));
  const cdp = await context.newCDPSession(page);
  const visit = { context, page, cdp, faults, ...hands(page, cdp) };
  await visit.load();
  return visit;
}

/** What tests do with a page. The page's policy refuses code made of strings,
 * so waiting is by asking again. */
function hands(page, cdp) {
  const state = () => page.evaluate(() => window.sheetsprite.state());
  const run = (name, args) => page.evaluate(([n, a]) => window.sheetsprite.run(n, a), [name, args]);
  const frame = () => page.evaluate(() => new Promise((resolve) => { requestAnimationFrame(() => resolve(undefined)); }));
  const until = async (what, test, look = state) => {
    for (const end = Date.now() + 90_000; Date.now() < end; await frame()) {
      const got = await look();
      if (test(got)) return got;
    }
    throw new Error(`waited in vain for ${what}`);
  };
  const drawn = () => page.evaluate(() => window.sheetsprite.frames());
  return {
    state, run, until, frame, drawn,
    text: (what, selector, pattern) => until(what, (t) => pattern.test(t), () => page.textContent(selector)),
    /** Until the canvas has drawn nothing through so many of the page's frames. */
    settled: async (frames = 60) => {
      for (let quiet = 0, last = -1; quiet < frames; await frame()) {
        const now = await drawn();
        quiet = now === last ? quiet + 1 : 0;
        last = now;
      }
    },
    load: async () => {
      await page.goto(address, { timeout: 120_000 });
      await page.evaluate(() => window.sheetsprite.ready);
    },
    planned: () => until('the final plan', (s) => !s.plan.stale),
    /** CSS pixels of a cell's middle. */
    at: async (column, row) => {
      const { grid } = await state();
      return [grid.x + (column + 0.5) * grid.cell, grid.y + (row + 0.5) * grid.cell];
    },
    row: async (n) => (await state()).sprite.rows[n],
    touch: (type, ...points) => cdp.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(([x, y, id = 0]) => ({ x, y, id })) }),
    /** A touch that comes some seconds from now, as its time stamp says. */
    touchLater: (seconds, type, ...points) => cdp.send('Input.dispatchTouchEvent', {
      type, timestamp: Date.now() / 1000 + seconds, touchPoints: points.map(([x, y, id = 0]) => ({ x, y, id })),
    }),
    pen: (type, [x, y], buttons) => cdp.send('Input.dispatchMouseEvent', {
      type, x, y, buttons, button: type === 'mouseMoved' ? 'none' : 'left', pointerType: 'pen', clickCount: 1, force: 0.5,
    }),
    /** Findings of the accessibility engine that are serious or worse. */
    serious: async () => {
      if (!await page.evaluate(() => 'axe' in window)) {
        const source = readFileSync(new URL('node_modules/axe-core/axe.min.js', import.meta.url), 'utf8');
        await cdp.send('Runtime.evaluate', { expression: source });
      }
      return page.evaluate(async () => (await window.axe.run()).violations
        .filter((v) => v.impact === 'serious' || v.impact === 'critical')
        .map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 100)).join(' | ')}`));
    },
  };
}
