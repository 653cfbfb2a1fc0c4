// What comes of a picture, drawn: one sprite, or several in rows.

/** @typedef {import('./regrid.js').Found} Found */

/** The longer side of what is drawn, pixels. */
const longest = 640;

/** @param {HTMLCanvasElement} canvas
 * @param {Found[]} found
 * @param {{grid: number, x: number, y: number} | null} marked */
export function drawFound(canvas, found, marked) {
  const { places, width, height } = inRows(found);
  const side = Math.max(1, Math.floor(longest / Math.max(width, height)));
  canvas.width = width * side;
  canvas.height = height * side;
  const c = canvas.getContext('2d');
  if (!c) return;
  found.forEach(({ w, cells, palette }, i) => {
    const { x, y } = places[i];
    cells.forEach((cell, at) => {
      if (cell === 0) return;
      c.fillStyle = palette[cell - 1];
      c.fillRect((x + at % w) * side, (y + Math.floor(at / w)) * side, side, side);
    });
  });
  if (!marked) return;
  const { x, y } = places[marked.grid];
  for (const [colour, wide] of /** @type {[string, number][]} */ ([['#000', 5], ['#ffd9a0', 2.5]])) {
    c.strokeStyle = colour;
    c.lineWidth = wide;
    c.strokeRect((x + marked.x) * side, (y + marked.y) * side, side, side);
  }
}

/** Where several drawings go, in cells: in rows about as long as all are high.
 * @param {{w: number, h: number}[]} list */
function inRows(list) {
  if (list.length === 1) return { places: [{ x: 0, y: 0 }], width: list[0].w, height: list[0].h };
  const gap = 2;
  const area = list.reduce((sum, { w, h }) => sum + (w + gap) * (h + gap), 0);
  const most = Math.max(Math.sqrt(area), ...list.map(({ w }) => w));
  let x = 0, y = 0, high = 0, width = 0;
  const places = list.map(({ w, h }) => {
    if (x > 0 && x + w > most) [x, y, high] = [0, y + high + gap, 0];
    const place = { x, y };
    x += w + gap;
    high = Math.max(high, h);
    width = Math.max(width, x - gap);
    return place;
  });
  return { places, width, height: y + high };
}
