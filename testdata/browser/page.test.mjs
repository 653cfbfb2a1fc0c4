// The page in a real browser, through its automation surface and real events.
// One file for the runner, so that all tests share a browser; each topic has a
// file of its own.
import './tests/server.mjs';
import './tests/first.mjs';
import './tests/drawing.mjs';
import './tests/stack.mjs';
import './tests/sideview.mjs';
import './tests/bundle.mjs';
import './tests/size.mjs';
import './tests/files.mjs';
import './tests/pictures.mjs';
import './tests/shelf.mjs';
import './tests/keys.mjs';
import './tests/cost.mjs';
import './tests/views.mjs';
import './tests/sheets.mjs';
import './tests/assemble.mjs';
import './tests/bench.mjs';
import './tests/random.mjs';
