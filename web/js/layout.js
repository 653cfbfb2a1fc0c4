// Tells the canvas where on the page it may draw, and in which colours.

import { byId, make } from './dom.js';

/** @typedef {import('./bridge.js').Page} Page */

const roles = ['bench', 'card', 'sheet', 'edge', 'ink', 'signal', 'chosen'];

/** @param {Page} page */
export function setUpLayout(page) {
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const still = matchMedia('(prefers-reduced-motion: reduce)');
  page.arrange = () => {
    const style = getComputedStyle(document.documentElement);
    const colours = Object.fromEntries(roles.map((role) => [role, style.getPropertyValue(`--${role}`).trim()]));
    page.editor.core.arrange(JSON.stringify({
      bench: box('bench'), relief: box('relief'), ratio: devicePixelRatio, colours,
      marks: page.marks, motion: still.matches ? 'still' : 'moving',
    }));
  };
  const watch = new ResizeObserver(page.arrange);
  // What lies above the relief moves it without changing its size.
  for (const id of ['bench', 'relief', 'page', 'intro', 'side', 'relief-panel']) watch.observe(byId(id));
  dark.addEventListener('change', page.arrange);
  still.addEventListener('change', page.arrange);
  window.addEventListener('resize', page.arrange);
  watchPixels(page);
  setUpPulls(page);
  page.arrange();
}

/** A window that moves to another screen, and a page that is zoomed, change how
 * many pixels the canvas has; Ebiten hears of that as of another size.
 * @param {Page} page */
function watchPixels(page) {
  const canvas = /** @type {HTMLCanvasElement} */ (document.querySelector('body > canvas'));
  const fit = () => {
    if (canvas.width === document.body.clientWidth && canvas.height === document.body.clientHeight) return;
    window.dispatchEvent(new Event('resize'));
    page.arrange();
  };
  const observer = new ResizeObserver(fit);
  try {
    observer.observe(canvas, { box: 'device-pixel-content-box' });
  } catch {
    observer.observe(canvas); // a browser that doesn't know device pixels tells of CSS ones
  }
  // Not every browser tells of it at once: then the next change of anything does.
  page.editor.listen(fit);
  window.addEventListener('focus', fit);
}

/** Where an element is, CSS pixels; nothing where it isn't shown.
 * @param {string} id */
function box(id) {
  const { left, top, width, height } = byId(id).getBoundingClientRect();
  return { x: left, y: top, w: width, h: height };
}

/** On a phone relief and stack pull up as sheets.
 * @param {Page} page */
function setUpPulls(page) {
  const side = byId('side');
  /** @type {[string, string][]} */
  const panels = [['stack', 'Stack'], ['relief', 'Relief']];
  const buttons = panels.map(([name, word]) => make('button', {
    type: 'button', 'aria-expanded': 'false', 'aria-controls': 'side', onclick: () => {
      const out = side.getAttribute('data-pulled') === name;
      if (out) side.removeAttribute('data-pulled');
      else side.setAttribute('data-pulled', name);
      buttons.forEach((button, i) => button.setAttribute('aria-expanded', String(!out && panels[i][0] === name)));
      page.arrange();
    },
  }, word));
  byId('pulls').append(...buttons);
  page.editor.listen((view) => {
    const words = view.plan.problem ? 'Stack' : `Stack · ${view.plan.parts} parts`;
    if (buttons[0].textContent !== words) buttons[0].textContent = words;
  });
}
