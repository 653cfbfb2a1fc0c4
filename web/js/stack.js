// The stack seen from the side, which is the palette too; under it the number
// of parts and what to know before cutting.

import { byId, draw, make, refill, write } from './dom.js';
import { count, length, span } from './lengths.js';
import { showCard } from './card.js';
import { weigh } from './cost.js';
import { dragging, letDrag } from './drag.js';
import { air, gapUnder, showGaps, tape } from './gaps.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').View} View
 *  @typedef {import('./types').Side} Side
 *  @typedef {import('./types').Entry} Entry */

const rowHeight = 44;

/** @param {Page} page */
export function setUpStack(page) {
  const { editor } = page;
  const stack = byId('stack');
  const cards = draw('svg', { class: 'cards', role: 'img', 'aria-label': 'The cards from the side, with a ruler in millimetres', preserveAspectRatio: 'none' });
  const leads = draw('svg', { class: 'leads', 'aria-hidden': 'true', preserveAspectRatio: 'none' });
  const labels = make('ul', { class: 'labels', 'aria-label': 'Cards, the highest first; choose one to draw with' });
  const gaps = make('button', {
    type: 'button', id: 'gaps', 'aria-label': 'Foam and tape between the cards', 'aria-haspopup': 'dialog',
    onclick: (/** @type {MouseEvent} */ event) => showGaps(page, event.detail ? nearestGap(cards, event.clientY) : 0),
  });
  stack.append(make('div', { class: 'side-view' }, cards, gaps), leads, labels);

  let seen = '';
  editor.listen((view) => {
    const rows = stackRows(view);
    if (stack.dataset.sprite !== view.sprite.name) { // another sprite's list begins at its top
      stack.dataset.sprite = view.sprite.name;
      byId('stack-scroll').scrollTop = 0;
    }
    if (!dragging.on) refill(labels, JSON.stringify([rows, view.hand.key]), () => rows.map((row) => label(page, row, view)));
    // What changes the room for the stack goes before it.
    showCount(page, view);
    showFindings(page, view);
    // Measuring makes the page lay itself out: only for another stack.
    const told = JSON.stringify([editor.core.side(), view.style, view.settings.cover, rows]);
    if (told !== seen) drawSide(page, cards, leads, labels, rows);
    seen = told;
  });
  const again = () => drawSide(page, cards, leads, labels, stackRows(editor.view));
  new ResizeObserver(again).observe(byId('stack-scroll'));
  byId('stack-scroll').addEventListener('scroll', again, { passive: true });
}

/** @typedef {{entry: Entry | null, parts: number, heights: number[], notes: string, used: boolean, name: string, colour: string, stock: string}} Row */

/** @param {View} view
 * @returns {Row[]} */
function stackRows(view) {
  return view.stack.map((s) => {
    const entry = view.palette.find((e) => e.key === s.key) ?? null;
    const notes = [
      entry && entry.name !== entry.stockName ? entry.stockName : '',
      s.pinned, s.spare && 'spared', s.outline && 'outline on top',
    ].filter(Boolean).join(', ');
    return {
      entry, parts: s.parts, heights: s.heights, notes, used: s.heights.length > 0,
      name: entry ? entry.name : 'Backer', colour: entry ? entry.colour : '', stock: s.stock,
    };
  });
}

/** @param {Page} page
 * @param {Row} row
 * @param {View} view */
function label(page, row, view) {
  const key = row.entry?.key ?? '';
  const words = make('span', { class: 'words' }, make('b', {}, row.name), make('small', {}, row.notes || (row.used ? ' ' : 'not in this sprite')));
  const parts = make('span', { class: 'parts' }, row.used ? String(row.parts) : '', make('small', {}, row.used ? (row.parts === 1 ? 'part' : 'parts') : ''));
  const chip = make('span', { class: 'chip', 'aria-hidden': 'true' });
  chip.style.background = row.colour || 'transparent';
  const button = make('button', {
    type: 'button', class: 'card-row', 'data-name': key || 'backer', 'aria-pressed': String(key !== '' && key === view.hand.key),
    disabled: key === '', onclick: () => page.editor.do('choose', { key }),
    ondblclick: () => row.entry && showCard(page, key),
  }, chip, words, parts);
  holdToOpen(button, () => row.entry && showCard(page, key));
  if (key && row.used) letDrag(page, button, key, page.editor.changed);
  return make('li', row.used ? {} : { class: 'unused' }, button);
}

/** A long press opens what else there is to a card.
 * @param {HTMLElement} button
 * @param {() => void} open */
function holdToOpen(button, open) {
  let timer = 0;
  const stop = () => { clearTimeout(timer); timer = 0; };
  button.addEventListener('pointerdown', (event) => {
    const { clientX, clientY } = event;
    timer = window.setTimeout(open, 550);
    button.onpointermove = (e) => { if (Math.hypot(e.clientX - clientX, e.clientY - clientY) > 8) stop(); };
  });
  for (const type of ['pointerup', 'pointercancel', 'pointerleave']) button.addEventListener(type, stop);
  button.addEventListener('contextmenu', (event) => { event.preventDefault(); if (!dragging.on) open(); });
}

/** Draws the cards to one scale of height, a ruler beside them, and lines from
 * each card to its label.
 * @param {Page} page
 * @param {SVGElement} cards
 * @param {SVGElement} leads
 * @param {HTMLElement} labels
 * @param {Row[]} rows */
function drawSide(page, cards, leads, labels, rows) {
  /** @type {Side[]} */
  const sides = JSON.parse(page.editor.core.side());
  const used = rows.filter((row) => row.used).length;
  const scroll = byId('stack-scroll');
  const height = Math.max(150, Math.min(scroll.clientHeight - 4, Math.max(used, 4) * rowHeight + 8));
  const width = cards.clientWidth || 104;
  const { style } = page.editor.view;
  const print = JSON.stringify([sides, style, page.editor.view.settings.cover, height, width, rows.map((row) => row.name), labels.clientHeight, scroll.scrollTop]);
  if (cards.getAttribute('data-print') === print) return;
  cards.setAttribute('data-print', print);
  cards.setAttribute('viewBox', `0 0 ${width} ${height}`);
  leads.setAttribute('viewBox', `0 0 22 ${height}`);
  for (const svg of [cards, leads]) svg.style.height = `${height}px`;
  cards.replaceChildren();
  leads.replaceChildren();
  const top = sides.reduce((z, side) => Math.max(z, side.top), 0);
  const cover = page.editor.view.settings.cover || top + air;
  const most = Math.max(top + air, cover, 1);
  const ground = height - 12;
  const y = (/** @type {number} */ mm) => ground - (mm / most) * (ground - 14);
  const ruler = 26;

  const step = [0.5, 1, 2, 5, 10, 20, 50].find((s) => most / s <= 6) ?? 100;
  for (let mm = 0; mm <= most + 1e-9; mm += step) {
    cards.append(draw('path', { d: `M${ruler} ${y(mm)}h6`, stroke: 'var(--quiet)', 'stroke-width': 1.2 }));
    cards.append(draw('text', { x: ruler - 5, y: y(mm) + 4, 'text-anchor': 'end', 'font-size': 11, fill: 'var(--quiet)' }, String(Number(mm.toFixed(1)))));
  }
  if (top > 0) {
    cards.append(draw('path', { d: `M${ruler + 8} ${y(cover)}H${width}`, stroke: 'var(--chosen)', 'stroke-width': 1.4, 'stroke-dasharray': '4 3' }));
    cards.append(draw('text', { x: ruler + 12, y: y(cover) - 4, 'font-size': 11, fill: 'var(--chosen)' }, 'cover'));
  }
  cards.append(draw('path', { d: `M${ruler + 8} ${y(0) + 1}H${width}`, stroke: 'var(--ink)', 'stroke-width': 2 }));

  const left = ruler + 12;
  const span = width - left - 4;
  const wide = sides.reduce((x, side) => Math.max(x, side.right), 1);
  /** @type {Map<string, number>} */
  const middle = new Map();
  for (const side of sides) {
    const x0 = left + (side.left / wide) * span;
    const w = Math.max(((side.right - side.left) / wide) * span, 3);
    const h = Math.max(y(side.bottom) - y(side.top), 2.5);
    const gap = gapUnder(style, side.height);
    const [g0, g1] = [y(side.bottom), y(side.bottom - gap)];
    const pads = gap > tape ? [[0.08, 0.3], [0.62, 0.3]] : [[0.06, 0.88]]; // foam stands in pads, tape is flat
    for (const [from, wide] of pads) cards.append(draw('rect', { x: x0 + w * from, y: g0, width: w * wide, height: g1 - g0, class: gap > tape ? 'foam' : 'tape', 'data-height': side.height }));
    cards.append(draw('rect', { x: x0, y: y(side.top), width: w, height: h, rx: 0.8, fill: side.colour, stroke: 'var(--ink)', 'stroke-opacity': 0.45, 'stroke-width': 0.8 }));
    middle.set(side.stock, y(side.top) + h / 2); // the highest one stays
  }

  // All is measured before anything is added, or the page lays itself out each time.
  const box = cards.getBoundingClientRect();
  const items = [...labels.children].map((item) => item.getBoundingClientRect());
  rows.forEach((row, i) => {
    const from = middle.get(row.stock);
    if (!row.used || from === undefined || !items[i]) return;
    const to = items[i].top - box.top + items[i].height / 2;
    if (to < 4 || to > height - 4) return; // scrolled away
    leads.append(draw('path', { d: `M0 ${from}L11 ${to}H22`, fill: 'none', stroke: 'var(--quiet)', 'stroke-opacity': 0.6, 'stroke-width': 1 }));
  });
}

/** The height whose gap is drawn nearest to a place on the glass; 0 for none.
 * @param {Element} cards
 * @param {number} y */
function nearestGap(cards, y) {
  let best = 0;
  let least = Infinity;
  for (const gap of cards.querySelectorAll('[data-height]')) {
    const { top, bottom } = gap.getBoundingClientRect();
    const off = Math.max(top - y, y - bottom, 0);
    if (off < least) [best, least] = [Number(gap.getAttribute('data-height')), off];
  }
  return best;
}

/** The heart: how many parts, how long, what it would be otherwise.
 * @param {Page} page
 * @param {View} view */
function showCount(page, view) {
  const { plan } = view;
  const number = byId('count-number');
  if (plan.problem) {
    refill(number, plan.problem, () => [plan.problem]);
    write(byId('count-patch'), '');
  } else {
    refill(number, `${plan.parts} ${plan.seconds}`, () => [make('b', {}, String(plan.parts)), ` ${plan.parts === 1 ? 'part' : 'parts'}, ${span(plan.seconds)}`]);
    const patch = byId('count-patch');
    const tweezers = plan.tweezers ? ` · ${plan.tweezers} for tweezers` : '';
    refill(patch, `${plan.patches}${tweezers}`, () => ['each patch by itself: ', make(plan.patches > plan.parts ? 's' : 'span', {}, String(plan.patches)), tweezers]);
  }
  write(byId('stack-note'), plan.stale ? 'counting…' : plan.heights ? `${count(plan.heights, 'height')}, ${length(plan.top, view.hand.units)} high` : '');
  const changed = view.style.style !== 'fewest' || view.stack.some((s) => s.pinned || s.spare || s.outline || s.over.length);
  refill(byId('count-act'), String(changed), () => changed
    ? [make('button', { type: 'button', class: 'firm', 'data-name': 'fewest', onclick: () => weigh(page, 'Fewest parts', 'fewest') }, 'Fewest')]
    : []);
}

/** Which finding is in view, of which list, and whether all of it is. */
let turned = { print: '', at: 0, open: false };

/** One finding at a time in one line: tapped it shows its place and opens, with
 * its remedy; beside it the way to the next.
 * @param {Page} page
 * @param {View} view */
function showFindings(page, view) {
  const list = view.plan.findings;
  const print = list.map((finding) => finding.text).join();
  if (turned.print !== print) turned = { print, at: 0, open: false };
  const { at, open } = turned;
  const again = () => showFindings(page, page.editor.view);
  const box = byId('findings');
  box.toggleAttribute('data-open', open);
  refill(box, `${at} ${open} ${JSON.stringify(list)}`, () => {
    const finding = list[at];
    if (!finding) return [];
    const text = make('button', {
      type: 'button', class: 'text', 'data-name': 'finding', 'aria-expanded': String(open),
      onclick: () => { turned.open = !open; page.mark(open ? [] : finding.places); again(); },
    }, make('span', {}, finding.text));
    const next = make('button', {
      type: 'button', class: 'next-finding', 'data-name': 'next', title: 'The next thing before you cut',
      onclick: () => { turned.at = (at + 1) % list.length; again(); },
    }, `${at + 1} of ${list.length}`);
    const remedies = open ? finding.remedies.filter((r) => !r.asks?.length).slice(0, 2) : [];
    return [text, ...(list.length > 1 ? [next] : []), ...remedies.map((remedy, i) => make('button', {
      type: 'button', class: 'remedy', 'data-name': `remedy-${i}`,
      onclick: () => page.editor.do(remedy.command, remedy.args ? JSON.parse(remedy.args) : undefined),
    }, remedy.text))];
  });
}
