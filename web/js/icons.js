// The page's own line drawings, on a square of 24.

import { draw } from './dom.js';

const lines = /** @type {Record<string, string>} */ ({
  pencil: 'M4 20l1-5L16.5 3.5a2 2 0 0 1 3 0l1 1a2 2 0 0 1 0 3L9 19z M14 6l4 4',
  rub: 'M4 15L14 5l6 6-8 8H8z M9 10l6 6 M6 21h14',
  fill: 'M5 12l8-8 7 7-8 8z M3 12h15 M20 16c1 1.6 1.6 2.6 1.6 3.4a1.6 1.6 0 0 1-3.2 0c0-.8.6-1.8 1.6-3.4z',
  line: 'M4 20L20 4',
  box: 'M4 6h16v12H4z',
  oval: 'M12 6c4.4 0 8 2.7 8 6s-3.6 6-8 6-8-2.7-8-6 3.6-6 8-6z',
  move: 'M4 8V4h4 M16 4h4v4 M20 16v4h-4 M8 20H4v-4 M9 12h6 M12 9v6',
  pick: 'M13 8l3 3-9 9H4v-3z M12 6l6 6 M15 9l3-3a2 2 0 0 1 3-3 2 2 0 0 1-3 3',
  both: 'M12 3v18 M9 7v10L3 17z M15 7v10l6 0z',
  change: 'M4 7h11 M12 4l3 3-3 3 M20 17H9 M12 14l-3 3 3 3',
  outline: 'M3 3h18v18H3z M7 7h10v10H7z',
  picture: 'M3 5h18v14H3z M3 16l5-5 4 4 3-3 6 6 M15.5 9.5h.01',
  undo: 'M9 5L4 10l5 5 M4 10h10a6 6 0 0 1 0 12h-2',
  redo: 'M15 5l5 5-5 5 M20 10H10a6 6 0 0 0 0 12h2',
  more: 'M5 12h.01 M12 12h.01 M19 12h.01',
  close: 'M6 6l12 12 M18 6L6 18',
  whole: 'M4 9V4h5 M15 4h5v5 M20 15v5h-5 M9 20H4v-5',
});

/** @param {string} name
 * @returns {SVGElement} */
export function icon(name) {
  const svg = draw('svg', { viewBox: '0 0 24 24', 'aria-hidden': 'true', focusable: 'false' });
  svg.append(draw('path', { d: lines[name], ...(name === 'more' ? { 'stroke-width': 3 } : {}) }));
  return svg;
}
