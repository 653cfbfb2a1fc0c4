// Starts the WebAssembly: waits for the server's build, loads, runs.

import { FrameGate } from './frames.js';

/** @typedef {{state: 'building'|'ready'|'failed', message?: string, web: string, worker: string, maker: string, glue: string}} Programs */

/** Where the programs are; waits while they are being built.
 * @param {(words: string) => void} say
 * @returns {Promise<Programs>} */
export async function findPrograms(say) {
  for (let first = true; ; first = false) {
    const answer = await fetch(first ? 'build.json' : 'build.json?wait=1', { cache: 'no-store' });
    if (!answer.ok) throw new Error(`The editor could not be loaded (${answer.status}). Reload the page to try again.`);
    /** @type {Programs} */
    const programs = await answer.json();
    if (programs.state === 'ready') return programs;
    if (programs.state === 'failed') throw new Error(`The editor could not be built: ${programs.message}`);
    say('Building the editor. The first time takes a minute or so.');
  }
}

/** Runs the editor's program; returns once it has begun.
 * @param {Programs} programs
 * @param {FrameGate} gate */
export async function startEditor(programs, gate) {
  ownDeviceSize();
  askForPlainContext();
  noGamepads();
  const wasm = WebAssembly.compileStreaming(fetch(programs.web));
  await import(new URL(programs.glue, document.baseURI).href);
  const go = new Go();
  const instance = await WebAssembly.instantiate(await wasm, go.importObject);
  // Ebiten takes requestAnimationFrame at its start and keeps what it took.
  // Replaced any longer, others' callbacks would be lost.
  const real = window.requestAnimationFrame;
  window.requestAnimationFrame = gate.request;
  try {
    void go.run(instance);
  } finally {
    window.requestAnimationFrame = real;
  }
}

/** Ebiten reads the device's pixel ratio once and the body's size in CSS pixels
 * each time. Told to leave the ratio alone, it is given the size in device
 * pixels instead, so that zooming the page or moving its window to another
 * screen stays sharp. */
function ownDeviceSize() {
  const root = document.documentElement;
  Object.defineProperty(document.body, 'clientWidth', { get: () => Math.round(root.clientWidth * devicePixelRatio) });
  Object.defineProperty(document.body, 'clientHeight', { get: () => Math.round(window.innerHeight * devicePixelRatio) });
}

/** Ebiten asks for gamepads with every frame, which takes the browser a while. */
function noGamepads() {
  Object.defineProperty(navigator, 'getGamepads', { value: () => [], configurable: true });
}

/** Multisampling and depth cost a third of a frame and give a flat picture nothing. */
function askForPlainContext() {
  const original = HTMLCanvasElement.prototype.getContext;
  // @ts-ignore: the overloads of getContext
  HTMLCanvasElement.prototype.getContext = function (kind, options) {
    if (kind !== 'webgl2') return original.call(this, kind, options);
    HTMLCanvasElement.prototype.getContext = original;
    return original.call(this, kind, { ...options, antialias: false, depth: false });
  };
}
