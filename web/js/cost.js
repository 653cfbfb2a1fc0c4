// What a change of the stack costs: parts, time and height, before and after.

import { byId, make, refill } from './dom.js';
import { say } from './editor.js';
import { count, digits, span } from './lengths.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./planner.js').Figures} Figures
 *  @typedef {{words: string, before: Figures, revision: number, refused: boolean}} Change */

/** @type {Change | null} the newest change, until something else is changed */
let change = null;

/** @param {Page} page
 * @returns {Figures} of the newest plan */
function figures(page) {
  const view = JSON.parse(page.editor.core.panels());
  const { parts, seconds, top, problem } = view.plan;
  return { parts, seconds, top, problem };
}

/** Runs a command of the stack and shows what it costs, or why it can't be.
 * @param {Page} page
 * @param {string} words what was asked for
 * @param {string} command
 * @param {unknown} [args] */
export function weigh(page, words, command, args) {
  const { editor } = page;
  const before = figures(page);
  // Weighed on top of a change that isn't planned yet: what that was weighed against.
  const from = editor.view.plan.stale && change && !change.refused ? change.before : before;
  try {
    editor.run(command, args);
    change = { words, before: from, revision: editor.core.revision(), refused: false };
  } catch (error) {
    const why = /** @type {Error} */ (error).message;
    change = { words: `${words}: ${why}`, before, revision: editor.core.revision(), refused: true };
    if (!document.querySelector('dialog[open]')) say(change.words);
  }
  editor.changed();
}

/** A card over another.
 * @param {Page} page
 * @param {string} under key
 * @param {string} over key */
export function layOver(page, under, over) {
  weigh(page, overWords(page, under, over), 'under', { under, over });
}

/** What it would cost to lay a card over another, in words; '' where something
 * else was asked for since.
 * @param {Page} page
 * @param {string} under key
 * @param {string} over key
 * @returns {Promise<string>} */
export async function overCost(page, under, over) {
  const words = overWords(page, under, over);
  try {
    const after = await page.planner.weigh('under', { under, over });
    return after ? comparison(page, words, figures(page), after) : '';
  } catch (error) {
    return `${words}: ${/** @type {Error} */ (error).message}`;
  }
}

/** @param {Page} page
 * @param {string} under key
 * @param {string} over key */
export function overWords(page, under, over) {
  const name = (/** @type {string} */ key) => page.editor.view.palette.find((e) => e.key === key)?.name ?? key;
  return `${name(over)} over ${name(under)}`;
}

/** Shows the newest change in a place of its own, with a way back.
 * @param {Page} page
 * @param {HTMLElement} place */
export function showCost(page, place) {
  if (change && page.editor.core.revision() !== change.revision) change = null;
  const text = change ? costText(page, change) : '';
  const undo = change !== null && !change.refused;
  place.hidden = text === '';
  refill(place, `${text} ${undo}`, () => [
    make('span', { role: 'status' }, text),
    ...(undo ? [make('button', { type: 'button', 'data-name': 'take-back', onclick: () => page.editor.do('undo') }, 'Undo')] : [])]);
}

/** @param {Page} page
 * @param {Change} what
 * @returns {string} */
function costText(page, { words, before, refused }) {
  if (refused) return words;
  if (page.editor.view.plan.stale) return `${words}: counting…`;
  return comparison(page, words, before, figures(page));
}

/** @param {Page} page
 * @param {string} words
 * @param {Figures} before
 * @param {Figures} after */
function comparison(page, words, before, after) {
  const { hand } = page.editor.view;
  if (after.problem) return `${words}: ${after.problem}`;
  const arrow = (/** @type {string} */ a, /** @type {string} */ b) => (a === b ? b : `${a} → ${b}`);
  const tall = (/** @type {Figures} */ f) => `${digits(f.top, hand.units)} ${hand.units}`;
  if (before.parts === after.parts && before.seconds === after.seconds && before.top === after.top) {
    return `${words}: costs nothing`;
  }
  const list = [
    before.parts === after.parts ? count(after.parts, 'part') : `${before.parts} → ${count(after.parts, 'part')}`,
    arrow(span(before.seconds), span(after.seconds)),
    arrow(tall(before), tall(after)) + ' tall',
  ];
  return `${words}: ${list.join(', ')}`;
}

/** The place in the stack's panel.
 * @param {Page} page */
export function setUpCost(page) {
  page.editor.listen(() => showCost(page, byId('cost')));
}
