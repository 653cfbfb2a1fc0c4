// Small ways to make and find elements.

/** An element that must be on the page.
 * @param {string} id
 * @returns {HTMLElement} */
export function byId(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no #${id}`);
  return found;
}

/** Makes an element: attributes and properties by name, `on…` for listeners,
 * then what it holds.
 * @param {string} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Node | string)} held
 * @returns {HTMLElement} */
export function make(tag, attributes = {}, ...held) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, '');
    else if (value !== false && value !== null && value !== undefined) element.setAttribute(name, String(value));
  }
  element.append(...held);
  return element;
}

const svgSpace = 'http://www.w3.org/2000/svg';

/** Makes an SVG element.
 * @param {string} tag
 * @param {Record<string, string | number>} [attributes]
 * @param {...(Node | string)} held
 * @returns {SVGElement} */
export function draw(tag, attributes = {}, ...held) {
  const element = /** @type {SVGElement} */ (document.createElementNS(svgSpace, tag));
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
  element.append(...held);
  return element;
}

/** Puts children in place of what was there, only where they differ, so that
 * the keyboard stays where it is.
 * @param {Element} parent
 * @param {string} print what decides whether it is the same
 * @param {() => (Node | string)[]} children */
export function refill(parent, print, children) {
  if (parent.getAttribute('data-print') === print) return;
  const focus = document.activeElement instanceof HTMLElement && parent.contains(document.activeElement)
    ? document.activeElement.getAttribute('data-name') : null;
  parent.setAttribute('data-print', print);
  parent.replaceChildren(...children());
  if (focus) /** @type {HTMLElement | null} */ (parent.querySelector(`[data-name="${CSS.escape(focus)}"]`))?.focus();
}

/** Sets text only where it differs, so that screen readers hear changes only.
 * @param {Element} element
 * @param {string} text */
export function write(element, text) {
  if (element.textContent !== text) element.textContent = text;
}
