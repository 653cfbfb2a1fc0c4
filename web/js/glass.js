// Takes pointer, wheel and key events that are meant for the canvas before
// Ebiten sees them, and hands them to the editor in batches.

/** @typedef {import('./types').Core} Core */

const kinds = { pointerdown: 0, pointermove: 1, pointerup: 2, pointercancel: 3 };
const hover = 4;
const leave = 5;
const devices = /** @type {Record<string, number>} */ ({ mouse: 0, pen: 1, touch: 2 });

/** Numbers in a row of a batch: kind, device, id, buttons, key held, x, y, time, pressure. */
export const sampleFields = 9;

/** Listens for the page's whole life.
 * @param {HTMLCanvasElement} canvas
 * @param {Core} core
 * @param {() => void} lost what to do when the drawing context is lost */
export function takeGlass(canvas, core, lost) {
  canvas.tabIndex = -1;
  canvas.setAttribute('aria-hidden', 'true'); // #bench speaks for it
  /** @type {Set<number>} */
  const down = new Set();
  let held = 0;

  /** @param {PointerEvent} event */
  const onPointer = (event) => {
    const mine = event.target === canvas || down.has(event.pointerId);
    if (!mine) return;
    event.stopImmediatePropagation();
    if (event.type === 'pointerdown') {
      event.preventDefault();
      const active = document.activeElement;
      if (active instanceof HTMLElement && active !== document.body) active.blur();
      down.add(event.pointerId);
      capture(canvas, event.pointerId);
    }
    const pressed = down.has(event.pointerId);
    const all = event.type === 'pointermove' ? event.getCoalescedEvents() : [];
    const events = all.length ? all : [event];
    const batch = new Float64Array(events.length * sampleFields);
    const kind = event.type === 'pointermove' && !pressed ? hover : kinds[/** @type {keyof typeof kinds} */ (event.type)];
    events.forEach((e, i) => {
      batch.set([kind, devices[e.pointerType] ?? 0, e.pointerId, e.buttons, held, e.clientX, e.clientY, e.timeStamp, e.pressure], i * sampleFields);
    });
    if (event.type === 'pointerup' || event.type === 'pointercancel') down.delete(event.pointerId);
    core.input(batch);
  };
  for (const type of Object.keys(kinds)) window.addEventListener(type, /** @type {EventListener} */ (onPointer), { capture: true });

  canvas.addEventListener('pointerleave', (e) => {
    if (!down.has(e.pointerId)) core.input(new Float64Array([leave, devices[e.pointerType] ?? 0, e.pointerId, 0, held, e.clientX, e.clientY, e.timeStamp, 0]));
  });

  const swallow = (/** @type {Event} */ event) => {
    if (event.target === canvas) event.stopImmediatePropagation();
  };
  for (const type of ['mousedown', 'mouseup', 'mousemove', 'touchstart', 'touchend', 'touchmove', 'keydown', 'keyup']) {
    window.addEventListener(type, swallow, { capture: true });
  }
  window.addEventListener('contextmenu', (e) => { if (e.target === canvas) e.preventDefault(); }, { capture: true });
  window.addEventListener('wheel', (e) => {
    if (e.target !== canvas) return;
    e.stopImmediatePropagation();
    e.preventDefault();
    const step = e.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? 1 : 24;
    core.wheel(e.clientX, e.clientY, e.deltaX * step, e.deltaY * step, e.ctrlKey || e.metaKey ? 1 : 0);
  }, { capture: true, passive: false });

  // Keys that change what pointing does: the space bar moves, Alt takes up a colour.
  document.addEventListener('keydown', (e) => {
    if (e.code === 'Space' && onNothing(e.target) && !document.querySelector('#page:is([data-view="Sheets"], [data-view="Assemble"])')) {
      held = 1;
      e.preventDefault();
    } else if (e.key === 'Alt') held = 2;
  });
  document.addEventListener('keyup', (e) => { if (e.code === 'Space' || e.key === 'Alt') held = 0; });
  window.addEventListener('blur', () => { held = 0; });

  // Ebiten would reload the page at once; the drawing is saved first.
  window.addEventListener('webglcontextlost', (e) => {
    e.stopImmediatePropagation();
    e.preventDefault();
    lost();
  }, { capture: true });
}

/** Whether the keyboard is on no control that has a use for the key.
 * @param {EventTarget | null} target */
function onNothing(target) {
  return target === document.body || target === document.documentElement;
}

/** A pointer may be gone again before it can be captured; that is no fault.
 * @param {HTMLElement} element
 * @param {number} id */
function capture(element, id) {
  try {
    element.setPointerCapture(id);
  } catch {
    // Pointers made by scripts can't be captured; their events come here all the same.
  }
}
