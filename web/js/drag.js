// A card of the stack is dragged over or under another: by its row with a mouse
// or a pen, by its colour with a finger, since a finger elsewhere scrolls.

import { make } from './dom.js';
import { layOver, overCost, overWords } from './cost.js';

/** @typedef {import('./bridge.js').Page} Page */

/** How far a pointer goes before it drags, CSS pixels. */
const slack = 8;

/** Whether a card is being dragged: its row must stay till then. */
export const dragging = { on: false };

/** Lets a row be dragged, and moved by keys.
 * @param {Page} page
 * @param {HTMLElement} row
 * @param {string} key
 * @param {() => void} dropped when a drag has ended */
export function letDrag(page, row, key, dropped) {
  row.setAttribute('aria-keyshortcuts', 'Alt+ArrowUp Alt+ArrowDown');
  row.addEventListener('keydown', (event) => {
    const up = event.key === 'ArrowUp';
    if (!event.altKey || (!up && event.key !== 'ArrowDown')) return;
    event.preventDefault();
    const rows = allRows();
    const next = rows[rows.indexOf(row) + (up ? -1 : 1)];
    const other = next?.getAttribute('data-name');
    if (other && isCard(next)) layOver(page, up ? other : key, up ? key : other);
  });
  row.addEventListener('pointerdown', (event) => {
    const onChip = event.target instanceof Element && event.target.closest('.chip') !== null;
    if (event.button !== 0 || !event.isPrimary || (event.pointerType === 'touch' && !onChip)) return;
    follow(page, row, key, event, dropped);
  });
}

/** Every row of the stack's cards, the highest first. */
const allRows = () => /** @type {HTMLElement[]} */ ([...document.querySelectorAll('#stack .card-row')]);

/** Whether another card may lie over or under it: not the backer, nor a colour
 * that the sprite doesn't use.
 * @param {Element} row */
const isCard = (row) => !row.hasAttribute('disabled') && row.closest('.unused') === null;

/** Follows a pointer until it is let go.
 * @param {Page} page
 * @param {HTMLElement} row
 * @param {string} key
 * @param {PointerEvent} start
 * @param {() => void} dropped */
function follow(page, row, key, start, dropped) {
  const words = make('div', { class: 'drag-words', 'aria-hidden': 'true' });
  /** @type {{under: string, over: string} | null} */
  let wish = null;
  let lift = false;
  let weighed = ''; // what was asked for last, and what is said of it
  let cost = '';
  const weigh = (/** @type {{under: string, over: string}} */ { under, over }) => {
    const asked = `${under} ${over}`;
    if (asked === weighed) return;
    [weighed, cost] = [asked, `${overWords(page, under, over)}: counting…`];
    void overCost(page, under, over).then((said) => {
      if (asked !== weighed || !said || !lift) return;
      cost = said;
      if (last) aim(last);
    });
  };
  /** @type {PointerEvent | null} */
  let last = null;

  const aim = (/** @type {PointerEvent} */ event) => {
    last = event;
    const rows = allRows();
    for (const each of rows) each.classList.remove('drop-over', 'drop-under');
    wish = null;
    const target = rows.find((each) => {
      const { left, right, top, bottom } = each.getBoundingClientRect();
      return event.clientX >= left - 160 && event.clientX <= right && event.clientY >= top && event.clientY < bottom;
    });
    const other = target?.getAttribute('data-name');
    if (target && other && target !== row && isCard(target)) {
      const { top, height } = target.getBoundingClientRect();
      const over = event.clientY < top + height / 2;
      target.classList.add(over ? 'drop-over' : 'drop-under');
      wish = over ? { under: other, over: key } : { under: key, over: other };
    }
    if (wish) weigh(wish);
    words.textContent = wish ? cost : 'drop it on another card';
    const { width, height } = words.getBoundingClientRect();
    words.style.left = `${Math.max(6, Math.min(event.clientX - width / 2, innerWidth - width - 6))}px`;
    words.style.top = `${Math.max(6, event.clientY - height - 26)}px`;
    scrollNear(event.clientY);
  };
  const move = (/** @type {PointerEvent} */ event) => {
    if (event.pointerId !== start.pointerId) return;
    if (!lift) {
      if (document.querySelector('dialog[open]')) return end(); // it was held, and has opened
      if (Math.hypot(event.clientX - start.clientX, event.clientY - start.clientY) <= slack) return;
      lift = true;
      dragging.on = true;
      row.classList.add('lifted');
      document.body.append(words);
      try { row.setPointerCapture(event.pointerId); } catch { /* a pointer made by a script */ }
    }
    aim(event);
  };
  const up = (/** @type {PointerEvent} */ event) => {
    if (event.pointerId !== start.pointerId) return;
    if (lift) aim(event); // where it is let go counts, not the last move before
    const asked = wish;
    const was = lift;
    end();
    if (!was) return;
    // Letting go is not a tap that chooses the card.
    const swallow = (/** @type {Event} */ click) => { click.stopImmediatePropagation(); click.preventDefault(); };
    row.addEventListener('click', swallow, { capture: true });
    setTimeout(() => row.removeEventListener('click', swallow, { capture: true }), 0);
    if (asked) layOver(page, asked.under, asked.over);
  };
  const cancel = (/** @type {PointerEvent} */ event) => { if (event.pointerId === start.pointerId) end(); };
  const escape = (/** @type {KeyboardEvent} */ event) => {
    if (!lift || event.key !== 'Escape') return;
    event.preventDefault();
    event.stopImmediatePropagation();
    end();
  };
  const end = () => {
    window.removeEventListener('pointermove', move);
    window.removeEventListener('pointerup', up);
    window.removeEventListener('pointercancel', cancel);
    window.removeEventListener('keydown', escape, { capture: true });
    for (const each of allRows()) each.classList.remove('drop-over', 'drop-under', 'lifted');
    words.remove();
    wish = null;
    if (!lift) return;
    lift = false;
    dragging.on = false;
    dropped();
  };
  window.addEventListener('pointermove', move);
  window.addEventListener('pointerup', up);
  window.addEventListener('pointercancel', cancel);
  window.addEventListener('keydown', escape, { capture: true });
}

/** Near its upper or lower end the list scrolls on.
 * @param {number} y */
function scrollNear(y) {
  const list = document.getElementById('stack-scroll');
  if (!list) return;
  const { top, bottom } = list.getBoundingClientRect();
  if (y < top + 22) list.scrollTop -= 12;
  else if (y > bottom - 22) list.scrollTop += 12;
}
