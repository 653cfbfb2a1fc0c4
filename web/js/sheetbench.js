// The sheets as they lie on the bench: drawn as SVG, moved and zoomed by
// fingers, mouse and keys; a part is pointed at by a tap and dragged.

import { byId, draw } from './dom.js';
import { say } from './editor.js';
import { Sheets } from './sheets.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').Sheet} Sheet
 *  @typedef {import('./types').SheetPart} Part
 *  @typedef {{x: number, y: number}} Spot */

/** Colours for sprites: ours, light enough for dark numbers. */
const tints = ['#f3c36b', '#8fc7d2', '#e99b84', '#a9c98a', '#c3b1de', '#ecd7a4', '#7fb5a5', '#e7b3c4', '#b9c4d6', '#d8b08c', '#cfd97a', '#9db2e0'];

/** @param {number} index of the sprite */
export const tintOf = (index) => tints[index % tints.length];

const gap = 16; // mm between sheets
let words = 10; // mm over a sheet, for its name; more where that would be too small to read
const closest = 60;

export class SheetBench {
  #page;
  #sheets;
  #svg = /** @type {SVGSVGElement} */ (/** @type {unknown} */ (byId('sheet-bench')));
  /** Where each sheet lies, mm.
   * @type {Spot[]} */
  #spots = [];
  #size = { width: 1, height: 1 };
  /** What is in the middle and how close.
   * @type {{x: number, y: number, zoom: number}} */
  #look = { x: 0, y: 0, zoom: 1 };
  #drawn = '';
  #kept = '';
  /** @type {Map<number, Spot>} */
  #down = new Map();
  /** @type {{part: Part, from: Spot, at: Spot, moved: number} | null} */
  #drag = null;
  #travelled = 0;
  /** @type {Part | null} */
  #pressed = null;

  /** @param {Page} page
   * @param {Sheets} sheets */
  constructor(page, sheets) {
    this.#page = page;
    this.#sheets = sheets;
    const svg = this.#svg;
    svg.addEventListener('pointerdown', (e) => this.#press(e));
    svg.addEventListener('pointermove', (e) => this.#move(e));
    for (const end of ['pointerup', 'pointercancel']) svg.addEventListener(end, (e) => this.#lift(/** @type {PointerEvent} */ (e)));
    svg.addEventListener('wheel', (e) => this.#wheel(e), { passive: false });
    svg.addEventListener('keydown', (e) => this.#key(e));
    new ResizeObserver(() => { this.#drawn = ''; this.show(); }).observe(svg);
  }

  /** Brings the picture in step. */
  show() {
    if (byId('sheets').hidden) return;
    const { model } = this.#sheets;
    const { hand } = this.#page.editor.view;
    const box = this.#svg.getBoundingClientRect();
    const print = `${model?.sheets.map((s) => s.print)} ${model?.parts.map((p) => p.held[0])} ${Math.round(box.width)} ${Math.round(box.height)}`;
    if (print !== this.#drawn && box.width > 0) {
      this.#drawn = print;
      this.#arrange(box.width / Math.max(1, box.height));
      this.#draw();
    }
    const kept = JSON.stringify([hand.sheets.x, hand.sheets.y, hand.sheets.zoom]);
    if (kept !== this.#kept && !this.#down.size) {
      this.#kept = kept;
      this.#look = { x: hand.sheets.x, y: hand.sheets.y, zoom: hand.sheets.zoom };
    }
    this.#aim();
    this.#play();
    this.#ring();
  }

  /** Lays the sheets in rows, as wide as suits the glass.
   * @param {number} shape width over height */
  #arrange(shape) {
    const sheets = this.#sheets.model?.sheets ?? [];
    words = 10;
    this.#inRows(shape, sheets);
    words = Math.max(10, 15 * Math.max(this.#size.width / this.#svg.clientWidth, this.#size.height / this.#svg.clientHeight));
    this.#inRows(shape, sheets);
  }

  /** @param {number} shape
   * @param {Sheet[]} sheets */
  #inRows(shape, sheets) {
    const lay = (/** @type {number} */ most) => {
      const spots = [];
      let x = 0;
      let y = 0;
      let row = 0;
      let wide = 0;
      for (const sheet of sheets) {
        if (x > 0 && x + sheet.width > most) { x = 0; y += row + gap + words; row = 0; }
        spots.push({ x, y: y + words });
        x += sheet.width + gap;
        wide = Math.max(wide, x - gap);
        row = Math.max(row, sheet.height);
      }
      return { spots, width: Math.max(1, wide), height: Math.max(1, y + row + words) };
    };
    let best = lay(0);
    let least = Infinity;
    let most = 0;
    for (const sheet of sheets) {
      most += sheet.width + gap;
      const laid = lay(most);
      const scale = Math.max(laid.width / shape, laid.height);
      if (scale < least) { least = scale; best = laid; }
    }
    this.#spots = best.spots;
    this.#size = { width: best.width, height: best.height };
  }

  #draw() {
    const { model } = this.#sheets;
    if (!model) return;
    const groups = model.sheets.map((sheet, i) => {
      const { x, y } = this.#spots[i];
      const group = draw('g', { transform: `translate(${x} ${y})`, 'data-sheet': i });
      group.append(
        draw('text', { x: 0, y: -0.24 * words, class: 'sheet-name' }, title(sheet),
          draw('tspan', { class: 'sheet-words', dx: 3 }, `${sheet.parts} ${sheet.parts === 1 ? 'part' : 'parts'}, ${face(sheet)}`)),
        draw('rect', { class: 'paper', width: sheet.width, height: sheet.height }),
        draw('rect', { class: 'card', width: sheet.width, height: 2, y: 0 }),
        draw('rect', { class: 'inner', x: sheet.inner[0], y: sheet.inner[1], width: sheet.inner[2], height: sheet.inner[3] }));
      /** @type {SVGElement} */ (group.querySelector('.card')).style.fill = sheet.colour;
      return group;
    });
    model.parts.forEach((part, n) => {
      if (part.sheet < 0) return;
      const shape = draw('path', { d: part.d, class: 'part', 'data-part': n });
      shape.style.fill = tintOf(part.index);
      const high = Math.min(4, part.height * 0.7, part.label[2] / (part.number.length * 0.62));
      groups[part.sheet].append(shape);
      if (high >= 0.8) groups[part.sheet].append(draw('text', { x: part.label[0], y: part.label[1] + high * 0.36, 'font-size': high.toFixed(2), class: 'number' }, part.number));
      if (part.held === 'locked') groups[part.sheet].append(draw('path', { class: 'locked', d: lockPath(part.x + part.width - 1.6, part.y + 1.6) }));
    });
    model.sheets.forEach((_, i) => groups[i].append(draw('g', { class: 'route' })));
    this.#svg.replaceChildren(...groups, draw('g', { class: 'picked' }), draw('path', { class: 'ring' }));
  }

  /** The viewBox for what is looked at. */
  #aim() {
    const { clientWidth: w, clientHeight: h } = this.#svg;
    if (!w || !h) return;
    const margin = 10;
    const whole = Math.max((this.#size.width + 2 * margin) / w, (this.#size.height + 2 * margin) / h);
    const middle = this.#look.zoom <= 1 ? { x: this.#size.width / 2, y: this.#size.height / 2 } : this.#look;
    const mmPerPx = whole / Math.max(1, this.#look.zoom);
    this.#svg.setAttribute('viewBox', [middle.x - w * mmPerPx / 2, middle.y - h * mmPerPx / 2, w * mmPerPx, h * mmPerPx].map((v) => v.toFixed(3)).join(' '));
    this.#svg.style.setProperty('--px', `${mmPerPx}px`);
    this.#svg.classList.toggle('far', mmPerPx > 0.55);
  }

  /** How far the show of cutting has come. */
  #play() {
    const { sheet: print, at } = this.#page.editor.view.hand.sheets;
    const { model } = this.#sheets;
    model?.sheets.forEach((sheet, i) => {
      const group = this.#svg.querySelector(`[data-sheet="${i}"]`);
      const route = group?.querySelector('.route');
      if (!group || !route) return;
      const count = sheet.print === print ? Math.min(at, sheet.strokes.length) : 0;
      group.classList.toggle('playing', count > 0);
      group.classList.toggle('chosen', sheet.print === print);
      const lines = Math.ceil(count);
      while (route.childElementCount > lines) route.lastElementChild?.remove();
      for (let n = route.childElementCount; n < lines; n++) {
        const stroke = sheet.strokes[n];
        const before = sheet.strokes[n - 1];
        const travel = before ? `M${before.to.join(' ')}L${stroke.from.join(' ')}` : '';
        route.append(draw('g', {}, draw('path', { d: travel, class: 'travel' }), draw('path', { d: stroke.d, class: `line ${stroke.kind}`, pathLength: 1 })));
      }
      for (const last of route.querySelectorAll('.now')) {
        last.classList.remove('now');
        /** @type {SVGPathElement} */ (last.querySelector('.line')).style.strokeDasharray = '';
        last.querySelector('.head')?.remove();
      }
      route.lastElementChild?.classList.add('now');
      const line = /** @type {SVGPathElement | null} */ (route.querySelector('.now .line'));
      if (line && count < lines) { // cut as far as the share says, with the beam at its end
        const share = count - lines + 1;
        line.style.strokeDasharray = `${share} 1`;
        const { x, y } = line.getPointAtLength(line.getTotalLength() * share);
        line.after(draw('circle', { class: 'head', cx: x, cy: y }));
      }
    });
  }

  /** Rings the part that is pointed at, or that is being dragged. */
  #ring() {
    const ring = this.#svg.querySelector('.ring');
    this.#svg.querySelector('.picked')?.replaceChildren(...(this.#sheets.model?.parts ?? []).filter((p) => p.sheet >= 0 && this.#spots[p.sheet] && this.#sheets.picked?.includes(p.of))
      .map((p) => draw('path', { d: p.d, transform: `translate(${this.#spots[p.sheet].x} ${this.#spots[p.sheet].y})` })));
    const part = this.#drag?.part ?? this.#sheets.pointed;
    if (!ring) return;
    if (!part || part.sheet < 0 || !this.#spots[part.sheet]) {
      ring.setAttribute('d', '');
      return;
    }
    const by = this.#drag ? { x: this.#drag.at.x - this.#drag.from.x, y: this.#drag.at.y - this.#drag.from.y } : { x: 0, y: 0 };
    const { x, y } = this.#spots[part.sheet];
    ring.setAttribute('d', part.d);
    ring.setAttribute('transform', `translate(${x + by.x} ${y + by.y})`);
    ring.classList.toggle('carried', this.#drag !== null && this.#drag.moved > 0);
  }

  /** A place of the glass on the bench, mm.
   * @param {{clientX: number, clientY: number}} e
   * @returns {Spot} */
  #at(e) {
    const box = this.#svg.getBoundingClientRect();
    const view = this.#svg.viewBox.baseVal;
    return { x: view.x + (e.clientX - box.x) / box.width * view.width, y: view.y + (e.clientY - box.y) / box.height * view.height };
  }

  /** @param {PointerEvent} e */
  #press(e) {
    this.#svg.setPointerCapture(e.pointerId);
    this.#down.set(e.pointerId, { x: e.clientX, y: e.clientY });
    if (this.#down.size > 1) {
      this.#drag = null;
      this.#pressed = null;
      this.#ring();
      return;
    }
    this.#travelled = 0;
    const under = /** @type {Element} */ (e.target).getAttribute('data-part');
    this.#pressed = under === null ? null : this.#sheets.model?.parts[Number(under)] ?? null;
    const { pointed } = this.#sheets;
    // A finger moves the bench, unless it holds the part that is pointed at.
    if (this.#pressed && !this.#sheets.picked && (e.pointerType === 'mouse' || this.#pressed === pointed) && !this.#sheets.searching) {
      const at = this.#at(e);
      this.#drag = { part: this.#pressed, from: at, at, moved: 0 };
    }
  }

  /** @param {PointerEvent} e */
  #move(e) {
    const was = this.#down.get(e.pointerId);
    if (!was) return;
    const before = [...this.#down.values()].map((p) => ({ ...p }));
    was.x = e.clientX;
    was.y = e.clientY;
    const now = [...this.#down.values()];
    this.#travelled += Math.hypot(was.x - before[0].x, was.y - before[0].y);
    if (this.#drag) {
      if (this.#travelled > 5) this.#drag.moved = this.#travelled;
      this.#drag.at = this.#at(e);
      this.#ring();
      return;
    }
    if (this.#travelled < 5 && now.length === 1) return;
    const middle = (/** @type {Spot[]} */ list) => ({
      x: list.reduce((sum, p) => sum + p.x, 0) / list.length, y: list.reduce((sum, p) => sum + p.y, 0) / list.length,
    });
    const apart = (/** @type {Spot[]} */ list) => (list.length > 1 ? Math.hypot(list[0].x - list[1].x, list[0].y - list[1].y) : 1);
    this.#pinch(middle(before), middle(now), apart(now) / Math.max(1, apart(before)));
  }

  /** @param {PointerEvent} e */
  #lift(e) {
    if (!this.#down.delete(e.pointerId)) return;
    const drag = this.#drag;
    this.#drag = null;
    if (drag && drag.moved && e.type === 'pointerup') void this.#drop(drag.part, { x: drag.at.x - drag.from.x, y: drag.at.y - drag.from.y }, drag.at);
    else if (this.#travelled < 5 && e.type === 'pointerup' && !this.#down.size) this.point(this.#pressed);
    else this.#keep();
    this.#ring();
  }

  /** @param {Part | null} part */
  point(part) {
    if (part) this.#sheets.toggle(part);
    this.#show(part);
  }

  /** Points at a part and no more: what the keyboard goes by is not picked yet.
   * @param {Part | null} part */
  #show(part) {
    this.#page.editor.do('pointAt', part ? Sheets.named(part) : {});
  }

  /** Moves a part to the free place nearest to where it was dropped.
   * @param {Part} part
   * @param {Spot} by
   * @param {Spot} at where the pointer was */
  async #drop(part, by, at) {
    const { model } = this.#sheets;
    if (!model) return;
    const over = model.sheets.findIndex((sheet, i) => {
      const spot = this.#spots[i];
      return sheet.stock === part.stock && at.x >= spot.x && at.y >= spot.y && at.x <= spot.x + sheet.width && at.y <= spot.y + sheet.height;
    });
    const to = over < 0 ? part.sheet : over;
    const sheet = model.sheets[to];
    const x = part.x + by.x + this.#spots[part.sheet].x - this.#spots[to].x;
    const y = part.y + by.y + this.#spots[part.sheet].y - this.#spots[to].y;
    this.point(part);
    await this.place(part, sheet, x, sheet.height - y - part.height, part.turn);
  }

  /** @param {Part} part
   * @param {Sheet} sheet
   * @param {number} x
   * @param {number} y from below
   * @param {number} turn */
  async place(part, sheet, x, y, turn) {
    try {
      await this.#page.editor.order('movePart', { ...Sheets.named(part), sheet: sheet.supply, x_mm: x, y_mm: y, turn });
    } catch (error) {
      say(/** @type {Error} */ (error).message);
    }
  }

  /** Moves or turns the part that is pointed at.
   * @param {number} dx
   * @param {number} dy up
   * @param {number} turns anticlockwise */
  nudge(dx, dy, turns) {
    const part = this.#sheets.pointed;
    const sheet = part && this.#sheets.model?.sheets[part.sheet];
    if (!part || !sheet) return;
    // Turned about its middle.
    const [w, h] = turns % 2 ? [part.height, part.width] : [part.width, part.height];
    const x = part.x + part.width / 2 - w / 2 + dx;
    const y = sheet.height - part.y - part.height / 2 - h / 2 + dy;
    void this.place(part, sheet, x, y, (part.turn + turns + 4) % 4);
  }

  /** @param {WheelEvent} e */
  #wheel(e) {
    e.preventDefault();
    const step = e.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? 1 : 24;
    const at = { x: e.clientX, y: e.clientY };
    if (e.ctrlKey || e.metaKey) this.#pinch(at, at, 2 ** (-Math.max(-200, Math.min(e.deltaY * step, 200)) / 200));
    else this.#pinch(at, { x: at.x - e.deltaX * step, y: at.y - e.deltaY * step }, 1);
    this.#keep();
  }

  /** @param {Spot} from CSS pixels
   * @param {Spot} to
   * @param {number} factor */
  #pinch(from, to, factor) {
    const box = this.#svg.getBoundingClientRect();
    const view = this.#svg.viewBox.baseVal;
    const mmPerPx = view.width / box.width;
    const held = { x: view.x + (from.x - box.x) * mmPerPx, y: view.y + (from.y - box.y) * mmPerPx };
    const zoom = Math.max(1, Math.min(this.#look.zoom * factor, closest));
    const next = mmPerPx * Math.max(1, this.#look.zoom) / zoom;
    this.#look = { x: held.x - (to.x - box.x - box.width / 2) * next, y: held.y - (to.y - box.y - box.height / 2) * next, zoom };
    this.#aim();
  }

  #keepTimer = 0;

  /** Has the editor keep what is looked at, once it rests. */
  #keep() {
    clearTimeout(this.#keepTimer);
    this.#keepTimer = window.setTimeout(() => {
      this.#kept = JSON.stringify([this.#look.x, this.#look.y, this.#look.zoom]);
      this.#page.editor.do('lookAtSheets', this.#look);
    }, 150);
  }

  /** Closer, further away, or all of it.
   * @param {number} factor 0: all */
  zoom(factor) {
    const box = this.#svg.getBoundingClientRect();
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    if (factor) this.#pinch(at, at, factor);
    else this.#look = { x: 0, y: 0, zoom: 1 };
    this.#page.editor.do('lookAtSheets', this.#look);
  }

  /** @param {number} dx CSS pixels
   * @param {number} dy */
  pan(dx, dy) {
    this.#pinch({ x: 0, y: 0 }, { x: dx, y: dy }, 1);
    this.#page.editor.do('lookAtSheets', this.#look);
  }

  /** Brings a sheet into view.
   * @param {number} index */
  lookAt(index) {
    const sheet = this.#sheets.model?.sheets[index];
    const spot = this.#spots[index];
    if (!sheet || !spot) return;
    const { clientWidth: w, clientHeight: h } = this.#svg;
    const whole = Math.max((this.#size.width + 20) / w, (this.#size.height + 20) / h);
    const close = Math.max((sheet.width + 20) / w, (sheet.height + words + 20) / h);
    this.#page.editor.do('lookAtSheets', { x: spot.x + sheet.width / 2, y: spot.y + (sheet.height - words) / 2, zoom: Math.max(1, whole / close) });
  }

  /** @param {KeyboardEvent} e */
  #key(e) {
    const far = e.shiftKey ? 10 : 1;
    const ways = /** @type {Record<string, [number, number]>} */ ({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] });
    const way = ways[e.key];
    const parts = (this.#sheets.model?.parts ?? []).filter((p) => p.sheet >= 0).sort((a, b) => a.sheet - b.sheet);
    if (way && this.#sheets.pointed && !this.#sheets.picked) this.nudge(way[0] * far, way[1] * far, 0);
    else if (way) this.pan(-way[0] * 60, way[1] * 60);
    else if (e.key === 'Escape' && this.#sheets.pointed) this.point(null);
    else if (e.key.toLowerCase() === 'r' && !e.ctrlKey && !e.metaKey && this.#sheets.pointed) this.nudge(0, 0, e.shiftKey ? -1 : 1);
    else if (e.key === 'Enter' && this.#sheets.picked && this.#sheets.pointed) this.#sheets.toggle(this.#sheets.pointed);
    else if (e.key === ' ' || e.key === 'Enter') {
      const at = parts.findIndex((p) => p === this.#sheets.pointed);
      this.#show(parts[(at + (e.shiftKey ? parts.length - 1 : 1)) % Math.max(1, parts.length)] ?? null);
    } else return;
    e.preventDefault();
    e.stopPropagation();
  }
}

/** @param {Sheet} sheet */
export function title(sheet) {
  return sheet.of > 1 ? `${sheet.name}, ${sheet.number} of ${sheet.of}` : sheet.name;
}

/** @param {Sheet} sheet */
export const face = (sheet) => (sheet.face === 'down' ? 'good face DOWN' : 'good face up');

/** A little padlock.
 * @param {number} x its middle
 * @param {number} y */
const lockPath = (x, y) => `M${x - 1.1} ${y}h2.2v1.7h-2.2zM${x - 0.7} ${y}v-.6a.7 .7 0 0 1 1.4 0v.6`;
