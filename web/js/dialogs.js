// Sheets of questions: the browser's own dialogs, one at a time.

import { make } from './dom.js';
import { icon } from './icons.js';

/** Opens a dialog with a heading and a way out; it is taken away when closed.
 * @param {string} title
 * @param {(Node | string)[]} held
 * @returns {HTMLDialogElement} */
export function open(title, held) {
  const dialog = /** @type {HTMLDialogElement} */ (make('dialog', { 'aria-labelledby': 'dialog-title' }));
  const close = make('button', { type: 'button', class: 'icon', 'aria-label': 'Close', onclick: () => dialog.close() }, icon('close'));
  dialog.append(make('div', { class: 'inside' },
    make('div', { class: 'top' }, make('h2', { id: 'dialog-title' }, title), close), ...held));
  dialog.addEventListener('click', (event) => { if (event.target === dialog) dialog.close(); });
  dialog.addEventListener('close', () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
  return dialog;
}

/** A number's field with its label.
 * @param {string} label
 * @param {string} value
 * @param {(text: string) => void} changed
 * @param {Record<string, any>} [more] */
export function field(label, value, changed, more = {}) {
  const input = /** @type {HTMLInputElement} */ (make('input', { type: 'text', inputmode: 'decimal', size: 5, value, autocomplete: 'off', ...more }));
  input.addEventListener('change', () => changed(input.value));
  return { input, row: make('label', {}, label, input) };
}

/** A choice of a few.
 * @param {string} label
 * @param {string} value
 * @param {[string, string][]} choices value and words
 * @param {(value: string) => void} chosen */
export function choice(label, value, choices, chosen) {
  const select = /** @type {HTMLSelectElement} */ (make('select', { onchange: () => chosen(select.value) },
    ...choices.map(([v, words]) => make('option', { value: v, selected: v === value }, words))));
  return make('label', {}, label, select);
}

/** Hands a file to the browser to keep.
 * @param {string} name
 * @param {Uint8Array} data
 * @param {string} type */
export function download(name, data, type) {
  const address = URL.createObjectURL(new Blob([/** @type {BlobPart} */ (data)], { type }));
  const link = /** @type {HTMLAnchorElement} */ (make('a', { href: address, download: name }));
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Asks for a file.
 * @param {string} accept
 * @param {Record<string, any>} [more]
 * @returns {Promise<File | null>} */
export function chooseFile(accept, more = {}) {
  return new Promise((resolve) => {
    const input = /** @type {HTMLInputElement} */ (make('input', { type: 'file', accept, ...more }));
    input.hidden = true;
    document.body.append(input);
    const done = (/** @type {File | null} */ file) => { input.remove(); resolve(file); };
    input.onchange = () => done(input.files?.[0] ?? null);
    input.addEventListener('cancel', () => done(null));
    input.click();
  });
}
