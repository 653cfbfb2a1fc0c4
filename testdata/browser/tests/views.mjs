// Every view and every sheet of questions, on each size of glass: nothing
// serious for the accessibility engine (axe-core), targets that a finger hits,
// nothing wider than the glass; and a picture of each, to look at.
import assert from 'node:assert/strict';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { screenshots } from '../harness.mjs';
import { draw, onThePage } from './suite.mjs';

/** A little lighthouse on a rock, so that there is something to look at. */
const lighthouse = [
  '......AA........', '.....ACCA.......', '.....AAAA.......', '.....ADDA.......', '.....ADDA.......', '....AAAAAA......',
  '.....ABBA.......', '.....ACCA.......', '.....ABBA.......', '.....ACCA.......', '....ABBBBA......', '....ACCCCA......',
  '....ABBBBA......', '...AAAAAAAA..AA.', '..AGGGGGGGGAAGGA', '.AGGGGGGGGGGGGGA', 'AEEEEEEEEEEEEEEA', 'AEEEEEEEEEEEEEEA',
];

const sizes = {
  portrait: { width: 820, height: 1180 }, landscape: { width: 1180, height: 820 },
  phone: { width: 390, height: 844 }, desk: { width: 1920, height: 1080 },
  dark: { width: 1180, height: 820, colorScheme: 'dark' },
  'dark-phone': { width: 390, height: 844, colorScheme: 'dark' },
  'zoomed-400': { width: 320, height: 256 }, // 1280 × 1024 at 400 %: WCAG 2.2, 1.4.10 Reflow
};

/** What can be looked at, and how one gets there. */
const views = {
  draw: async () => {},
  stack: (v) => pull(v, 'stack'),
  sprites: (v) => v.page.click('#title'),
  project: (v) => v.page.click('#more'),
  files: (v) => v.page.click('#files'),
  size: async (v) => {
    await pull(v, 'relief');
    await v.page.click('#relief-size');
  },
  glass: async (v) => {
    await v.page.click('#more');
    await v.page.getByRole('button', { name: 'Fit to this glass' }).click();
  },
  outline: (v) => v.page.click('[data-name="outline"]'),
  change: (v) => v.page.click('[data-name="change"]'),
  cutting: async (v) => {
    await v.page.click('#files');
    await v.page.getByRole('button', { name: 'How it is cut' }).click();
  },
  gaps: async (v) => {
    await pull(v, 'stack');
    await v.page.click('#gaps');
  },
  picture: (v) => v.page.click('[data-name="picture"]'),
  card: async (v) => {
    await pull(v, 'stack');
    await v.page.dblclick('.card-row[data-name="A"]');
  },
  layers: async (v) => {
    await pull(v, 'relief');
    await v.page.getByRole('button', { name: 'Layers' }).click();
  },
  sheets: async (v) => {
    await v.run('showView', { view: 'Sheets' });
    const { list, parts } = await v.page.evaluate(() => window.sheetsprite.sheets());
    await v.run('pointAt', { sprite: parts[0].sprite, copy: 1, part: parts[0].number });
    await v.run('showSheet', { sheet: list[0].print, at: 12 });
  },
  assemble: async (v) => {
    await v.run('showView', { view: 'Assemble' });
    await v.page.evaluate(() => window.sheetsprite.steps());
    await v.run('goToStep', { step: 3 });
    await v.run('showView', { view: 'Assemble' });
    await v.until('the step', (t) => t.startsWith('Step 3'), () => v.page.textContent('#step-title'));
  },
  together: async (v) => {
    const { assembly } = await v.state();
    await v.run('goToStep', { step: assembly.steps + 1 });
    await v.until('the end', (t) => t === 'Lighthouse is together', () => v.page.textContent('#step-title'));
  },
  'begin-again': (v) => v.page.locator('[data-name="anew"]').click(),
  tonight: async (v) => {
    await v.run('showView', { view: 'Sheets' });
    await v.page.click('[data-name="Cut tonight…"]');
  },
  bench: async (v) => {
    await v.page.click('[data-name="My bench…"]');
    await v.page.click('dialog summary');
  },
  keys: async (v) => {
    await v.run('showView', { view: 'Draw' });
    await v.page.click('#more');
    await v.page.getByRole('button', { name: 'All keys' }).click();
  },
  'turned-apart': async (v) => {
    await v.run('turnRelief', { turn: 35, tilt: 40 });
    await v.run('pullApart', { by: 0.7 });
    await pull(v, 'relief');
    const larger = v.page.getByRole('button', { name: 'Larger' });
    if (await larger.isVisible()) await larger.click();
  },
};

/** On small glass a panel pulls up. */
async function pull(v, panel) {
  const handle = v.page.locator('#pulls button', { hasText: new RegExp(panel, 'i') });
  if (await handle.isVisible()) await handle.click();
}

/** What is wrong with the controls that can be seen. Text fields stand in rows;
 * ticks and sliders are hit by their labels too. */
const faultsOfTargets = (v) => v.page.evaluate(() => {
  const root = document.querySelector('dialog[open]') ?? document;
  const small = [];
  for (const e of root.querySelectorAll('button, input, select')) {
    if (!e.checkVisibility({ visibilityProperty: true }) || e.type === 'checkbox' && e.closest('label')) continue;
    const { width, height } = e.getBoundingClientRect();
    if (width < 43.5 || height < 43.5) small.push(`${e.id || e.getAttribute('data-name') || e.textContent.trim() || e.getAttribute('aria-label') || e.type}: ${width.toFixed(0)} × ${height.toFixed(0)}`);
  }
  return small;
});

for (const [size, options] of Object.entries(sizes)) {
  onThePage(`every view at ${options.width} × ${options.height}${options.colorScheme ? `, ${options.colorScheme}` : ''}`, options, async (v) => {
    mkdirSync(screenshots, { recursive: true });
    await draw(v, lighthouse);
    await v.run('renameSprite', { to: 'Lighthouse' });
    await v.planned();
    const wrong = [];
    for (const [view, go] of Object.entries(views)) {
      await v.page.evaluate(() => {
        for (const dialog of document.querySelectorAll('dialog')) dialog.close();
        document.querySelector('#pulls [aria-expanded="true"]')?.click();
      });
      await go(v);
      await v.settled(6);
      await v.page.screenshot({ path: join(screenshots, `${view}-${size}.png`) });
      for (const finding of await v.serious()) wrong.push(`${view}: ${finding}`);
      for (const target of await faultsOfTargets(v)) wrong.push(`${view}: too small for a finger: ${target}`);
      const wide = await v.page.evaluate(() => {
        const dialog = document.querySelector('dialog[open]');
        return document.documentElement.scrollWidth > innerWidth || dialog !== null && dialog.scrollWidth > dialog.clientWidth + 1;
      });
      // The bank card on the glass is as large as a bank card: on small glass one scrolls.
      if (wide && !(view === 'glass' && options.width < 400)) wrong.push(`${view}: wider than the glass`);
    }
    assert.deepEqual(wrong, []);
  });
}

onThePage('zoomed to 400 %, one can draw, and every control can be brought into view', { width: 320, height: 256 }, async (v) => {
  const { grid, sprite, hand } = await v.state();
  assert.ok(grid.cell >= 3, `cells of ${grid.cell} px`);
  for (const cell of [[0, 0], [sprite.width - 1, sprite.height - 1]]) {
    const [x, y] = await v.at(...cell);
    await v.page.mouse.click(x, y);
    assert.equal((await v.row(cell[1]))[cell[0]], hand.key);
  }
  const buttons = v.page.locator('button:visible:enabled');
  for (let i = 0; i < await buttons.count(); i++) {
    const hit = await buttons.nth(i).evaluate((e) => {
      e.focus();
      e.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      const b = e.getBoundingClientRect();
      const there = document.elementFromPoint(b.x + b.width / 2, b.y + b.height / 2);
      return there === e || e.contains(there) ? '' : `${e.id || e.textContent}: ${there?.tagName} ${there?.id}`;
    });
    assert.equal(hit, '');
  }
});

onThePage('with less motion asked for, nothing moves by itself', {}, async (v) => {
  await v.page.emulateMedia({ reducedMotion: 'reduce' });
  try {
    const moving = await v.page.evaluate(() => [...document.querySelectorAll('*')].filter((e) => {
      const { transitionDuration, animationDuration } = getComputedStyle(e);
      return `${transitionDuration}, ${animationDuration}`.split(',').some((d) => parseFloat(d) > 0.01);
    }).map((e) => e.id || e.className));
    assert.deepEqual(moving, []);
  } finally {
    await v.page.emulateMedia({ reducedMotion: null });
  }
});
