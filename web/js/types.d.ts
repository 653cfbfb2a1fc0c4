// The view model that the editor gives (package editor, State) and the
// functions of the WebAssembly (package shell).

export interface Entry {
  key: string; name: string; colour: string; stock: string; stockName: string; kind: string;
  card: string; thickness: number; laser: string; typical: boolean; used: number;
}
export interface StackEntry {
  key: string; stock: string; heights: number[]; parts: number;
  pinned: '' | 'lowest' | 'highest'; spare: '' | 'spare'; outline: '' | 'on top'; over: string[];
}
export interface Remedy { text: string; command: string; args: string; asks: string[]; sure: boolean }
export interface Finding {
  code: string; severity: string; text: string; count: number;
  places: { x: number; y: number }[]; remedies: Remedy[];
}
export interface Hand {
  view: string; tool: string; key: string; bothSides: string; body: string; reach: string;
  outlineSide: string; outlineCorners: string; units: 'mm' | 'in'; pxPerMm: number;
  relief: { turn: number; tilt: number; apart: number; show: 'all' | 'one' | 'up-to'; layer: number; size: 'fit' | 'real'; card: string };
  sheets: { x: number; y: number; zoom: number; sprite: string; copy: number; part: string; sheet: string; at: number };
  cut: string[] | null; pace: 'typical' | 'mine'; awake: 'on' | 'off'; intro: number; letterKeys: string; sprite: string; frame: number;
}
export interface View {
  revision: number; view: string; project: string;
  palette: Entry[]; sprites: string[];
  sprite: { name: string; width: number; height: number; cell: number; rows?: string[]; size: [number, number]; copies: number; frame: number; frames: number; index: number };
  grid: { x: number; y: number; cell: number };
  preview: { x: number; y: number; width: number; height: number; pxPerMm: number };
  stack: StackEntry[];
  style: { style: string; extraHeights: number; order: string; foam: number; float: number; floatBy: number;
    foamStock: string; floatStock: string; foamLift: number; floatLift: number; refused: number[]; whole: { height: number; stock: string }[]; jigs: { height: number; stock: string }[] };
  plan: { stale: boolean; parts: number; heights: number; top: number; findings: Finding[]; patches: number; tweezers: number; seconds: number; problem: string };
  settings: Record<string, any>;
  choice: { copies: number[]; some: '' | 'some'; parts: string[] };
  laid: { found: number; moved: number; locked: number };
  assembly: AssemblyState | null;
  calibration: { pxPerMm: number };
  undo: number; redo: number; undoTitle: string; redoTitle: string; saved: boolean; former: string;
  hand: Hand;
  cursor: { x: number; y: number } | null;
  selection: { x: number; y: number; width: number; height: number; float: string } | null;
  copied: boolean; drawing: boolean;
  picture: Record<string, any> | null;
  shelf: { stocks: number; edition: number };
}

/** The sheets (package editor/sheets, Model); mm, y down. */
export interface Sheets {
  revision: number; machine: { name: string; kind: string; unit: string };
  sheets: Sheet[]; parts: SheetPart[]; stocks: SheetStock[]; better: '' | 'no more';
  findings: { code: string; severity: string; text: string; parts: string[]; remedies: { text: string; command: string; args: any }[] }[];
}
export interface Sheet {
  stock: string; name: string; colour: string; thick: number; number: number; of: number; supply: number;
  width: number; height: number; inner: [number, number, number, number]; offcut: string; face: 'up' | 'down'; kerf: number;
  power: number; speed: number; passes: number; cut: number; travel: number; seconds: number; parts: number;
  files: string[]; print: string;
  strokes: { d: string; kind: 'cut' | 'inner' | 'place' | 'number'; part: number; from: [number, number]; to: [number, number]; pass: number }[];
}
export interface SheetPart {
  sprite: string; index: number; copy: number; number: string; of: string; stock: string; key: string; sheet: number; d: string;
  x: number; y: number; width: number; height: number; label: [number, number, number]; size: [number, number]; turn: number;
  layer: number; level: number; on: string; numbered: string; held: '' | 'found' | 'moved' | 'locked'; cell: [number, number]; order: number;
}
export interface SheetStock { id: string; name: string; colour: string; needed: number; offcuts: number; shelf: number; waste: number; grams: number; seconds: number }

/** How far the maker is (package editor, AssemblyState). */
export interface AssemblyState {
  sprite: string; copy: number; step: number; steps: number; parts: ('' | 'out' | 'stuck' | 'lost')[]; left: number; all: number;
  learnt: '' | 'learnt'; mine: number; copies: { sprite: string; copy: number; of: number; parts: number; stuck: number; lost: number }[];
}

/** How all is put together (package editor/assembly, Model); mm, y down. */
export interface Assembly { revision: number; sprites: AssemblySprite[]; sheets: AssemblySheet[]; laid: '' | 'laid' }
export interface AssemblySprite {
  name: string; letters: string; index: number; copies: number; width: number; height: number; top: number; heights: number;
  stocks: { id: string; name: string; colour: string; face: 'up' | 'down' }[]; parts: AssemblyPart[]; steps: AssemblyStep[];
}
export interface AssemblyPart {
  number: string; stock: number; level: number; on: number; d: string; size: [number, number];
  label: [number, number, number]; middle: [number, number]; pads: string; lifts: string[]; places: { sheet: number; d: string; more: { sheet: number; d: string }[] }[]; pieces: string[]; seams: string;
}
export interface AssemblyStep {
  parts: number[]; stock: number; level: number; lift: 'tape' | 'foam' | 'spacer'; thick: number; back: number; pads: number;
  apart: { part: number; carries: number }[];
  frame: { sheets: number[] } | null; pins: { thick: number; through: number[][] } | null; ends: number[]; jig: { name: string; pack: number } | null;
}
export interface AssemblySheet { name: string; colour: string; number: number; of: number; width: number; height: number; face: 'up' | 'down'; offcut: string }

/** The bench (package editor, BenchState). */
export interface Bench {
  machine: {
    name: string; kind: 'laser' | 'knife' | 'hand'; bedWidth: number; bedHeight: number; left: number; right: number; bottom: number; top: number;
    origin: string; thickest: number; unit: string; fullPower: number; acceleration: number; travelSpeed: number; beam: string; marks: string;
    bladeOffset: number; overcut: number;
  };
  machines: string[]; own: '' | 'own' | 'other';
  stocks: BenchStock[];
}
export interface BenchStock {
  id: string; name: string; colour: string; laser: string; kerf: number; measured: string; power: number; speed: number;
  markPower: number; markSpeed: number; passes: number; order: string;
  sheets: { width: number; height: number; count: number }[]; offcuts: { width: number; height: number; count: number }[];
}

/** A stock on the maker's own shelf (package editor, OwnStock). */
export interface OwnStock {
  id: string; name: string; kind: string; colour: string; weight: number; thickness: number; kerf: number; leastStrip: number;
  core: string; sides: '' | 'one' | 'both'; grain: '' | 'long' | 'short' | 'none'; laser: string; typical: boolean;
  sheets: { width: number; height: number; count: number }[]; offcuts: { width: number; height: number; count: number }[]; used: boolean;
}

/** The drawing matched to the shelf (the maker's program, matchAnswer). */
export interface Match {
  colours: { key: string; name: string; drawn: string; to: string; toName: string; toColour: string; difference: number; cells: number }[];
  stocks: number; mean: number; proven: boolean;
  sprites: { name: string; width: number; height: number; rows: string[] }[];
}

/** A part of the relief that is pointed at. */
export interface Pointed { stock: string; colour: string; layer: number; height: number; width: number; depth: number; on: string; count: number }

/** One card of the stack's side view, from the planned relief; mm over the board. */
export interface Side { layer: number; height: number; stock: string; name: string; colour: string; bottom: number; top: number; left: number; right: number; parts: number }

export interface CommandInfo { name: string; title: string; group: string; keys: { press: string; title: string; args: string }[]; args: { name: string; kind: string; about: string; oneOf?: string[]; need: string }[] }

/** What the WebAssembly gives. Texts are JSON unless said otherwise. */
export interface Core {
  run(name: string, args: string): string;      // {"result": …} or {"error": "…"}
  panels(): string;                             // View without rows
  state(): string;                              // View
  side(): string;                               // Side[]
  layers(): string;                             // {name, parts, x, y} of each layer, lowest first; CSS pixels
  input(batch: Float64Array): void;
  wheel(x: number, y: number, dx: number, dy: number, zoom: number): void;
  arrange(layout: string): void;
  pointPart(order: number): boolean;            // whether the relief has it
  pointed(): string;                            // Pointed or null
  planRequest(): Uint8Array | null;
  planArrived(summary: Uint8Array): void;
  weighing(name: string, args: string): Uint8Array | string; // what the worker is to plan, or {"error": …}
  weighed(summary: Uint8Array): string;         // {parts, seconds, top, problem}
  forgetWorker(): void;
  sheetsArrived(places: Uint8Array): void;
  assemblyArrived(steps: Uint8Array): void;
  numbersArrived(numbers: Uint8Array): void;
  open(project: Uint8Array | null, session: Uint8Array | null): string; // {"error": …} where the saved project can't be read
  projectFile(): Uint8Array;
  session(): Uint8Array;
  saved(kept: number): void;
  kept(): number; // counts what has to be saved: the revision and numbers that parts got
  revision(): number;
  pictures(): Uint8Array;
  restorePictures(list: Uint8Array): void;
  shelf(): Uint8Array;                          // the maker's own, a bench file without machines
  restoreShelf(bench: Uint8Array): void;
  machines(): Uint8Array;                       // a bench file, empty where there are none
  restoreMachines(bench: Uint8Array): void;
  thumbnail(index: number): { width: number; height: number; pixels: Uint8ClampedArray } | null;
  frames(): number;
}

/** What the page gives to the WebAssembly. */
export interface Host {
  attach(core: Core): void;
  wake(): void;
  changed(): void;
  say(words: string): void;
}

declare global {
  class Go {
    importObject: WebAssembly.Imports;
    run(instance: WebAssembly.Instance): Promise<void>;
  }
  interface Window { sheetspriteHost?: Host; sheetsprite: any }
}
