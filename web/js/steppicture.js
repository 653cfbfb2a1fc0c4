// A step, large: what is new in its colour with its number, what is there
// already in grey, and dashed where pads go; as the guide draws it.

import { byId, draw } from './dom.js';

/** @typedef {import('./assembly.js').Assembly} Assembly
 *  @typedef {import('./assembly.js').Build} Build
 *  @typedef {{part: number, text: string, x: number, y: number, high: number}} Label */

const margin = 14; // CSS pixels about the drawing
const gutter = 74; // beside it, for numbers that find no room on their part
const roomy = 320; // how wide the glass is from which on there is room for them
const least = 11; // CSS pixels that a number is high, at least
const most = 24;

/** The colour of a text on a colour: dark on light, light on dark, by BT.601's luma.
 * @param {string} hex */
export function contrast(hex) {
  const v = parseInt(hex.slice(1), 16);
  return 299 * (v >> 16) + 587 * (v >> 8 & 255) + 114 * (v & 255) < 128_000 ? '#ffffff' : '#1f2a33';
}

/** The thin line about a card: seen on it and beside it.
 * @param {string} hex */
export const edge = (hex) => (contrast(hex) === '#ffffff' ? '#9aa2aa' : '#5a636d');

export class StepPicture {
  #assembly;
  #svg = byId('step-picture');
  #drawn = '';

  /** @param {Assembly} assembly */
  constructor(assembly) {
    this.#assembly = assembly;
    this.#svg.addEventListener('click', (e) => {
      const part = /** @type {Element} */ (e.target).closest('[data-part]')?.getAttribute('data-part');
      if (part) this.#assembly.point(Number(part));
    });
  }

  /** Brings the picture in step. */
  show() {
    const { build } = this.#assembly;
    const { clientWidth: w, clientHeight: h } = this.#svg;
    if (!w || !h) return;
    const print = build ? JSON.stringify([this.#assembly.model?.revision, build.sprite.name, build.copy, build.step, build.states, build.lit, w, h]) : '';
    if (print === this.#drawn) return;
    this.#drawn = print;
    this.#svg.replaceChildren(...(build ? this.#draw(build, w, h) : []));
  }

  /** @param {Build} build
   * @param {number} w
   * @param {number} h
   * @returns {Node[]} */
  #draw(build, w, h) {
    const { sprite, now } = build;
    const fresh = now?.parts ?? [];
    let { scale, out } = this.#fit(build, fresh, w, h, 0);
    const beside = w >= roomy;
    if (out.length && beside) ({ scale, out } = this.#fit(build, fresh, w, h, gutter));
    const x = (w - sprite.width * scale) / 2;
    const y = (h - sprite.height * scale) / 2;
    const at = (/** @type {number} */ mx, /** @type {number} */ my) => ({ x: x + mx * scale, y: y + my * scale });
    const group = draw('g', { transform: `translate(${x} ${y}) scale(${scale})` });
    sprite.parts.forEach((part, i) => {
      const { colour } = sprite.stocks[part.stock];
      const shown = !now || fresh.includes(i);
      if (!shown && !build.placed.has(i)) return;
      const path = draw('path', { d: part.d, 'data-part': i, class: shown ? 'new' : build.states[i] === 'stuck' ? 'lying' : 'lying missing' });
      if (shown) {
        path.style.fill = colour;
        path.style.stroke = edge(colour);
      }
      if (build.states[i] === 'lost') path.classList.add('lost');
      group.append(path);
    });
    for (const i of fresh) {
      const pads = draw('path', { d: sprite.parts[i].pads, class: 'pads' });
      const seams = draw('path', { d: sprite.parts[i].seams, class: 'seam' });
      for (const line of [pads, seams]) line.style.stroke = contrast(sprite.stocks[sprite.parts[i].stock].colour);
      group.append(pads, seams);
    }
    // Of a single new part one sees that it is meant.
    if (build.lit >= 0 && (fresh.length > 1 || fresh[0] !== build.lit)) group.append(draw('path', { d: sprite.parts[build.lit].d, class: 'ring' }));
    const labels = fresh.filter((i) => !out.includes(i)).map((i) => {
      const [mx, my, high] = sprite.parts[i].label;
      const { colour } = sprite.stocks[sprite.parts[i].stock];
      const px = Math.min(most, high * scale);
      const p = at(mx, my);
      const label = draw('g', { 'data-part': i });
      label.append(draw('text', { x: p.x, y: p.y + px * 0.36, 'font-size': px.toFixed(1), class: 'number', fill: contrast(colour) }, sprite.parts[i].number));
      if (build.states[i] === 'stuck') label.append(tick(p.x, p.y + px * 0.95, contrast(colour)));
      return label;
    });
    return [group, ...labels, ...this.#gutters(build, beside ? out : [], at, x, x + sprite.width * scale, h)];
  }

  /** How large the drawing may be, and which numbers find no room on it then.
   * @param {Build} build
   * @param {number[]} fresh
   * @param {number} w
   * @param {number} h
   * @param {number} side room left and right */
  #fit({ sprite }, fresh, w, h, side) {
    const scale = Math.max(0.1, Math.min((w - 2 * margin - 2 * side) / sprite.width, (h - 2 * margin) / sprite.height));
    return { scale, out: fresh.filter((i) => sprite.parts[i].label[2] * scale < least) };
  }

  /** Numbers beside the drawing with a line to their part: the left half of them
   * on the left.
   * @param {Build} build
   * @param {number[]} list
   * @param {(x: number, y: number) => {x: number, y: number}} at
   * @param {number} left
   * @param {number} right
   * @param {number} h
   * @returns {Node[]} */
  #gutters(build, list, at, left, right, h) {
    const { parts } = build.sprite;
    const sorted = list.toSorted((a, b) => parts[a].middle[0] - parts[b].middle[0]);
    const half = sorted.length >> 1;
    return [sorted.slice(0, half), sorted.slice(half)].flatMap((side, n) => {
      side.sort((a, b) => parts[a].middle[1] - parts[b].middle[1]);
      const step = Math.min(34, (h - 2 * margin) / Math.max(1, side.length));
      const ys = side.map((i) => at(0, parts[i].middle[1]).y);
      for (let k = 1; k < ys.length; k++) ys[k] = Math.max(ys[k], ys[k - 1] + step);
      for (let k = ys.length - 1, low = h - margin; k >= 0; k--, low -= step) ys[k] = Math.min(ys[k], low);
      return side.map((i, k) => {
        const p = at(...parts[i].middle);
        const text = n ? right + gutter - 6 : left - gutter + 6;
        const inner = n ? right + 8 : left - 8;
        const stuck = build.states[i] === 'stuck';
        const wide = parts[i].number.length * 9 + (stuck ? 20 : 4);
        const from = n ? text - wide : text + wide;
        const label = draw('g', { 'data-part': i, class: 'gutter' });
        label.append(
          draw('rect', { x: n ? inner : text - 4, y: ys[k] - step / 2, width: Math.max(1, Math.abs(text - inner) + 4), height: step }),
          draw('path', { d: `M${from} ${ys[k]}L${inner} ${ys[k]}L${p.x} ${p.y}`, class: 'lead' }),
          draw('circle', { cx: p.x, cy: p.y, r: 2.5 }),
          draw('text', { x: text, y: ys[k] + 5, class: n ? 'number right' : 'number left', 'font-size': 14 }, parts[i].number));
        if (stuck) label.append(tick(from + (n ? 10 : -10), ys[k], 'currentcolor'));
        return label;
      });
    });
  }
}

/** A small tick: this one is stuck.
 * @param {number} x
 * @param {number} y
 * @param {string} colour */
function tick(x, y, colour) {
  return draw('path', { d: `M${x - 6} ${y}l4 4l8 -8`, class: 'tick', stroke: colour });
}
