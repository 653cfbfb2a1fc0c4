'use strict';
// The planning's own thread: Go without a canvas. A classic worker, because
// Go's wasm_exec.js is a classic script.

/** Messages that came before Go was ready.
 * @type {any[]} */
const early = [];
/** @type {((message: any) => void) | null} */
let hear = null;

// Go calls this with the function that takes messages.
globalThis.sheetspriteWorker = (/** @type {(message: any) => void} */ take) => {
  hear = take;
  for (const message of early.splice(0)) take(message);
};

self.onmessage = (event) => {
  if (event.data.kind === 'start') {
    start(event.data).catch((error) => self.postMessage({ kind: 'fell', words: String(error?.message ?? error) }));
  } else if (hear) hear(event.data);
  else early.push(event.data);
};

/** @param {{glue: string, wasm: string}} programs */
async function start({ glue, wasm }) {
  importScripts(glue);
  const go = new Go();
  const { instance } = await WebAssembly.instantiateStreaming(fetch(wasm), go.importObject);
  await go.run(instance);
  self.postMessage({ kind: 'fell', words: 'the program ended' });
}
