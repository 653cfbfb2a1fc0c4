// The picture with the grid found laid over it; its corners, or spots with
// names, can be moved, with a round glass that shows what lies under the finger.

import { make } from './dom.js';

/** @typedef {import('./gridpicture.js').Picture} Picture
 *  @typedef {{X: number, Y: number}} Point
 *  @typedef {{Size: number, Start: number, Cells: number}} Axis */

/** What is shown over the picture, in its working pixels.
 * @typedef {object} Laid
 * @property {{X: Axis, Y: Axis}[]} grids one, or those of several sprites
 * @property {Point[] | null} corners of a grid that isn't straight, or that are being set
 * @property {boolean} setting whether the corners can be moved
 * @property {{grid: number, x: number, y: number} | null} cell the cell that is looked at */

const radius = 56; // of the round glass, CSS pixels
const times = 4; // it shows as much larger than the picture stands there

export class GridLens {
  /** @type {HTMLCanvasElement} */
  canvas;
  /** @type {Picture} */
  #picture;
  /** @type {Laid} */
  #laid = { grids: [], corners: null, setting: false, cell: null };
  #held = -1;
  #picked = 0;
  /** @type {(corners: Point[]) => void} */
  #moved;
  /** @type {string[]} */
  #names;

  /** @param {Picture} picture
   * @param {(corners: Point[]) => void} moved called when a corner has been let go
   * @param {string[]} [names] of spots by themselves, instead of a grid's corners */
  constructor(picture, moved, names = []) {
    this.#picture = picture;
    this.#moved = moved;
    this.#names = names;
    this.canvas = /** @type {HTMLCanvasElement} */ (make('canvas', {
      class: 'grid-picture', tabindex: 0, role: 'img', 'aria-label': names.length > 0
        ? `The picture. ${names.map((name, i) => `Key ${i + 1} chooses the spot ${name}`).join(', ')}; arrows move it.`
        : 'The picture with the grid over it. While corners are set: keys 1 to 4 choose one, arrows move it.',
    }));
    this.canvas.addEventListener('pointerdown', (event) => this.#down(event));
    this.canvas.addEventListener('pointermove', (event) => this.#move(event));
    for (const kind of ['pointerup', 'pointercancel']) this.canvas.addEventListener(kind, () => this.#up());
    this.canvas.addEventListener('keydown', (event) => this.#key(event));
  }

  /** @param {Partial<Laid>} laid */
  show(laid) {
    this.#laid = { ...this.#laid, ...laid };
    this.draw();
  }

  /** CSS pixels a pixel of the picture. */
  get #scale() {
    return this.canvas.clientWidth / this.#picture.pixels.width;
  }

  draw() {
    const { pixels, bitmap } = this.#picture;
    const ratio = window.devicePixelRatio || 1;
    const width = this.canvas.clientWidth || 300;
    this.canvas.width = Math.round(width * ratio);
    this.canvas.height = Math.round(width * ratio * pixels.height / pixels.width);
    const c = this.canvas.getContext('2d');
    if (!c) return;
    c.scale(ratio, ratio);
    const scale = width / pixels.width;
    c.imageSmoothingEnabled = scale < 1;
    c.drawImage(bitmap, 0, 0, width, width * pixels.height / pixels.width);
    this.#drawGrid(c, scale);
    if (this.#laid.setting) this.#drawCorners(c, scale);
    if (this.#held >= 0) this.#drawGlass(c, scale, width);
  }

  /** @param {CanvasRenderingContext2D} c
   * @param {number} scale */
  #drawGrid(c, scale) {
    const { grids, corners, setting, cell } = this.#laid;
    if (setting) return;
    grids.forEach((grid, i) => {
      const at = corners ? fromSquare(corners) : (/** @type {number} */ u, /** @type {number} */ v) => ({
        X: grid.X.Start + u * grid.X.Size * grid.X.Cells, Y: grid.Y.Start + v * grid.Y.Size * grid.Y.Cells,
      });
      const line = (/** @type {number} */ u, /** @type {number} */ v, /** @type {number} */ u2, /** @type {number} */ v2) => {
        const a = at(u, v), b = at(u2, v2);
        c.moveTo(a.X * scale, a.Y * scale);
        c.lineTo(b.X * scale, b.Y * scale);
      };
      c.beginPath();
      for (let i = 0; i <= grid.X.Cells; i++) line(i / grid.X.Cells, 0, i / grid.X.Cells, 1);
      for (let i = 0; i <= grid.Y.Cells; i++) line(0, i / grid.Y.Cells, 1, i / grid.Y.Cells);
      // Where cells are small here, full lines would hide them.
      const end = at(1, 0), start = at(0, 0);
      const fine = Math.min(1, scale * Math.hypot(end.X - start.X, end.Y - start.Y) / grid.X.Cells / 12);
      c.globalAlpha = Math.max(0.4, fine);
      twoTone(c, fine, 1.5 * fine);
      c.globalAlpha = 1;
      if (cell?.grid !== i) return;
      const [l, t, r, b] = [cell.x / grid.X.Cells, cell.y / grid.Y.Cells, (cell.x + 1) / grid.X.Cells, (cell.y + 1) / grid.Y.Cells];
      c.beginPath();
      line(l, t, r, t); line(r, t, r, b); line(r, b, l, b); line(l, b, l, t);
      twoTone(c, 3);
    });
  }

  /** @param {CanvasRenderingContext2D} c
   * @param {number} scale */
  #drawCorners(c, scale) {
    const corners = this.#laid.corners ?? [];
    if (this.#names.length === 0) {
      c.beginPath();
      corners.forEach((p, i) => (i ? c.lineTo(p.X * scale, p.Y * scale) : c.moveTo(p.X * scale, p.Y * scale)));
      c.closePath();
      twoTone(c, 1.5);
    }
    corners.forEach((p, i) => {
      c.beginPath();
      c.arc(p.X * scale, p.Y * scale, i === this.#picked ? 11 : 8, 0, 2 * Math.PI);
      twoTone(c, 2.5);
      if (!this.#names[i]) return;
      c.font = '600 15px system-ui, sans-serif';
      c.textAlign = 'center';
      c.lineWidth = 4;
      c.strokeStyle = 'rgb(0 0 0 / 75%)';
      c.fillStyle = '#ffd9a0';
      c.strokeText(this.#names[i], p.X * scale, p.Y * scale - 18);
      c.fillText(this.#names[i], p.X * scale, p.Y * scale - 18);
    });
  }

  /** @param {CanvasRenderingContext2D} c
   * @param {number} scale
   * @param {number} width */
  #drawGlass(c, scale, width) {
    const p = (this.#laid.corners ?? [])[this.#held];
    if (!p) return;
    const x = p.X * scale, y = p.Y * scale;
    const right = x + 2 * radius + 20 < width; // beside the finger, where there is room
    const gx = right ? x + radius + 20 : x - radius - 20;
    const gy = Math.min(Math.max(y - radius - 20, radius + 2), this.canvas.clientHeight - radius - 2);
    c.save();
    c.beginPath();
    c.arc(gx, gy, radius, 0, 2 * Math.PI);
    c.clip();
    c.fillStyle = '#444';
    c.fillRect(gx - radius, gy - radius, 2 * radius, 2 * radius);
    c.imageSmoothingEnabled = false;
    const zoom = scale * times;
    c.drawImage(this.#picture.bitmap, gx - p.X * zoom, gy - p.Y * zoom, this.#picture.pixels.width * zoom, this.#picture.pixels.height * zoom);
    c.beginPath();
    c.moveTo(gx - radius, gy); c.lineTo(gx + radius, gy);
    c.moveTo(gx, gy - radius); c.lineTo(gx, gy + radius);
    twoTone(c, 1);
    c.restore();
    c.beginPath();
    c.arc(gx, gy, radius, 0, 2 * Math.PI);
    twoTone(c, 3);
  }

  /** @param {PointerEvent} event */
  #down(event) {
    const corners = this.#laid.corners;
    if (!this.#laid.setting || !corners) return;
    const at = corners.map((p) => Math.hypot(p.X * this.#scale - event.offsetX, p.Y * this.#scale - event.offsetY));
    const nearest = at.indexOf(Math.min(...at));
    this.#held = this.#picked = nearest;
    this.canvas.setPointerCapture(event.pointerId);
    this.#move(event);
  }

  /** @param {PointerEvent} event */
  #move(event) {
    if (this.#held < 0) return;
    this.#put(this.#held, event.offsetX / this.#scale, event.offsetY / this.#scale);
  }

  #up() {
    if (this.#held < 0) return;
    this.#held = -1;
    this.draw();
    this.#moved(this.#laid.corners ?? []);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const corners = this.#laid.corners;
    if (!this.#laid.setting || !corners) return;
    const by = /** @type {Record<string, [number, number]>} */ ({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] })[event.key];
    if (/^[1-4]$/.test(event.key) && Number(event.key) <= corners.length) this.#picked = Number(event.key) - 1;
    else if (by) {
      const p = corners[this.#picked], step = event.shiftKey ? 10 : 1;
      this.#put(this.#picked, p.X + by[0] * step, p.Y + by[1] * step);
      this.#moved(this.#laid.corners ?? []);
    } else return;
    event.preventDefault();
    this.draw();
  }

  /** @param {number} corner
   * @param {number} x
   * @param {number} y */
  #put(corner, x, y) {
    const { width, height } = this.#picture.pixels;
    const corners = [...(this.#laid.corners ?? [])];
    corners[corner] = { X: Math.min(Math.max(x, 0), width), Y: Math.min(Math.max(y, 0), height) };
    this.show({ corners });
  }
}

/** Draws the path light on dark, so that it shows on any picture.
 * @param {CanvasRenderingContext2D} c
 * @param {number} wide
 * @param {number} more how much wider the dark below is */
function twoTone(c, wide, more = 1.5) {
  c.strokeStyle = 'rgb(0 0 0 / 55%)';
  c.lineWidth = wide + more;
  c.stroke();
  c.strokeStyle = '#ffd9a0';
  c.lineWidth = wide;
  c.stroke();
}

/** Takes the unit square to four corners, clockwise from the upper left (P.
 * Heckbert, "Fundamentals of texture mapping and image warping", 1989).
 * @param {Point[]} c */
export function fromSquare(c) {
  const dx1 = c[1].X - c[2].X, dx2 = c[3].X - c[2].X, sx = c[0].X - c[1].X + c[2].X - c[3].X;
  const dy1 = c[1].Y - c[2].Y, dy2 = c[3].Y - c[2].Y, sy = c[0].Y - c[1].Y + c[2].Y - c[3].Y;
  const det = dx1 * dy2 - dx2 * dy1 || 1e-9;
  const g = (sx * dy2 - dx2 * sy) / det, h = (dx1 * sy - sx * dy1) / det;
  return (/** @type {number} */ u, /** @type {number} */ v) => {
    const w = g * u + h * v + 1;
    return {
      X: ((c[1].X - c[0].X + g * c[1].X) * u + (c[3].X - c[0].X + h * c[3].X) * v + c[0].X) / w,
      Y: ((c[1].Y - c[0].Y + g * c[1].Y) * u + (c[3].Y - c[0].Y + h * c[3].Y) * v + c[0].Y) / w,
    };
  };
}
