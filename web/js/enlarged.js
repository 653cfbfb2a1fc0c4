// Whether a small picture looks enlarged: then its grid is looked for, else a
// pixel is a cell.

/** As many colours as a drawing with a cell a pixel has, about. */
const fewColours = 64;

/** Lines between pixels, of those between the first and the last change, along
 * which something changes: of a drawing with a pixel a cell nearly all, of one
 * enlarged by s one in s. */
const mostChanges = 0.7;

/** A quick look that errs towards yes: who asks then has the grid looked for.
 * @param {ImageData} picture
 * @returns {boolean} */
export function mayBeEnlarged({ data, width, height }) {
  const pixels = new Uint32Array(data.buffer, data.byteOffset, width * height);
  if (new Set(pixels).size > fewColours) return true;
  /** @param {number} count of lines of pixels
   * @param {number} long
   * @param {number} step between them
   * @param {number} along */
  const share = (count, long, step, along) => {
    let first = -1, last = -1, changes = 0;
    for (let i = 1; i < count; i++) {
      let same = true;
      for (let j = 0; j < long && same; j++) same = pixels[i * step + j * along] === pixels[(i - 1) * step + j * along];
      if (same) continue;
      if (first < 0) first = i;
      last = i;
      changes++;
    }
    return changes < 3 ? 1 : changes / (last - first + 1);
  };
  return share(width, height, 1, width) <= mostChanges && share(height, width, width, 1) <= mostChanges;
}
