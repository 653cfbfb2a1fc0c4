// Files go to the system's share sheet where there is one, else to the downloads.

import { download } from './dialogs.js';

/** @param {string} name
 * @param {Uint8Array} data
 * @param {string} type */
export const fileOf = (name, data, type) => new File([/** @type {BlobPart} */ (data)], name, { type });

/** Whether the system takes files of that name and type.
 * @param {string} name
 * @param {string} type */
export function canShare(name, type) {
  return navigator.canShare?.({ files: [fileOf(name, new Uint8Array(1), type)] }) === true;
}

/** Offers a file to the system. It has to follow soon on a press: where that
 * was too long ago, the answer is "later".
 * @param {File} file
 * @returns {Promise<'shared' | 'left' | 'later'>} */
export async function share(file) {
  try {
    await navigator.share({ files: [file] });
    return 'shared';
  } catch (error) {
    return /** @type {Error} */ (error).name === 'AbortError' ? 'left' : 'later';
  }
}

/** To the share sheet on a touch screen, else to the downloads.
 * @param {string} name
 * @param {Uint8Array} data
 * @param {string} type */
export async function give(name, data, type) {
  if (matchMedia('(pointer: coarse)').matches && canShare(name, type) && await share(fileOf(name, data, type)) !== 'later') return;
  download(name, data, type);
}
