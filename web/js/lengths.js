// Lengths as a maker reads them.

const inch = 25.4; // mm, exact

/** @param {number} mm
 * @param {'mm'|'in'} units
 * @returns {string} the number without its unit, with sensible digits */
export function digits(mm, units) {
  const value = units === 'in' ? mm / inch : mm;
  const places = units === 'in' ? (value < 1 ? 3 : 2) : value < 10 ? 2 : 1;
  return String(Number(value.toFixed(places)));
}

/** @param {number} mm
 * @param {'mm'|'in'} units */
export function length(mm, units) {
  return `${digits(mm, units)} ${units}`;
}

/** @param {number} width
 * @param {number} height
 * @param {'mm'|'in'} units */
export function size(width, height, units) {
  return `${digits(width, units)} × ${digits(height, units)} ${units}`;
}

/** What a field holds, in mm.
 * @param {string} text
 * @param {'mm'|'in'} units
 * @returns {number} NaN where it is no number */
export function toMm(text, units) {
  const value = Number(text.replace(',', '.'));
  return text.trim() === '' ? NaN : units === 'in' ? value * inch : value;
}

/** Time to glue, roughly.
 * @param {number} seconds */
export function span(seconds) {
  const minutes = Math.round(seconds / 60);
  if (seconds > 0 && minutes < 1) return '1 min';
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

/** @param {number} n
 * @param {string} one */
export function count(n, one) {
  return `${n} ${one}${n === 1 ? '' : 's'}`;
}
