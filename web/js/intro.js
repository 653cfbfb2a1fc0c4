// The introduction: three short steps beside the drawing, never over it, shown
// on a first visit and again when asked for.

import { byId, make, refill } from './dom.js';
import { icon } from './icons.js';

/** @typedef {import('./bridge.js').Page} Page */

/** What each step says: what to do, and why. */
const steps = [
  ['Draw on the grid.', 'Each colour becomes a layer of card.'],
  ['Watch the Stack.', 'It counts the parts you will glue. Drag a card, tap a gap.'],
  ['Get the cutting files.', 'One download has all a cutter needs.'],
];

/** Shows the step that the editor holds; it is kept with what is in hand, so
 * an introduction that was left stays away. What a step speaks of is ringed by
 * the style, from data-intro.
 * @param {Page} page */
export function setUpIntro(page) {
  const { editor } = page;
  const box = byId('intro');
  const go = (/** @type {number} */ step) => {
    const held = box.contains(document.activeElement);
    editor.do('showStep', { step });
    if (!step && held) byId('bench').focus();
  };
  box.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    go(0);
  });
  // From the drawing too, where nothing else is there to be left.
  document.addEventListener('keydown', (event) => {
    const { view } = editor;
    if (event.key !== 'Escape' || event.defaultPrevented || box.hidden || view.selection || view.drawing || document.querySelector('dialog[open]')) return;
    event.preventDefault();
    go(0);
  });
  const words = make('p', { id: 'intro-words', role: 'status' });
  const acts = make('div', { class: 'acts' });
  const close = make('button', {
    type: 'button', class: 'icon', 'aria-label': 'Leave the introduction', title: 'Leave the introduction', onclick: () => go(0),
  }, icon('close'));
  box.append(words, acts, close);

  editor.listen((view) => {
    const { intro } = view.hand;
    const said = steps[intro - 1];
    box.hidden = !said;
    if (!said) {
      byId('page').removeAttribute('data-intro');
      return;
    }
    byId('page').setAttribute('data-intro', String(intro));
    refill(words, String(intro), () => [
      make('span', { class: 'step' }, `${intro} of ${steps.length}`), ' ', make('b', {}, said[0]), ' ', said[1]]);
    const last = intro === steps.length;
    refill(acts, String(intro), () => [
      ...(intro > 1 ? [make('button', { type: 'button', class: 'back', 'data-name': 'back', onclick: () => go(intro - 1) }, 'Back')] : []),
      make('button', { type: 'button', class: 'firm', 'data-name': 'on', onclick: () => go(last ? 0 : intro + 1) }, last ? 'Done' : 'Next')]);
  });
}

/** Begins anew, with the keyboard on it.
 * @param {Page} page */
export function showIntro(page) {
  page.editor.do('showStep', { step: 1 });
  const box = byId('intro');
  const focus = () => /** @type {HTMLElement | null} */ (box.querySelector('[data-name="on"]'))?.focus();
  if (!box.hidden) focus();
  else new MutationObserver((_, observer) => { observer.disconnect(); focus(); }).observe(box, { attributes: true, attributeFilter: ['hidden'] });
}
