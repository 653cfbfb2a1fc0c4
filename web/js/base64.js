// Bytes as text, for commands that take a picture.

/** @param {Uint8Array} data */
export function base64(data) {
  let text = '';
  for (let i = 0; i < data.length; i += 0x8000) text += String.fromCharCode(...data.subarray(i, i + 0x8000));
  return btoa(text);
}
