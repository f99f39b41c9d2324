/**
 * The built program: a few dozen pieces in `dist`, each loaded when it is first asked for. The engine takes a third of a
 * short run to read and compile them, so the build keeps beside them what it compiled (`dist/code`), as a run of the main
 * job left it. What another engine, or the same under other flags, compiled is refused by the engine itself, and a piece
 * without kept code is compiled like any other.
 */
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { Script } from 'node:vm';

// A run is over in a second or two. As eager as it is by default, the engine's optimiser takes a third of the processor's
// time in that and gives little of it back; four times more patient, the main job ends about a sixth sooner.
// Measured with V8 11 (Node 20), and set only there: another engine may not know the word.
if (process.versions.v8.startsWith('11.')) setFlagsFromString('--interrupt-budget=500000');

const DIST = fileURLToPath(new URL('../dist/', import.meta.url));
const CODE = `${DIST}code/`;
/** @type {Map<string, { script: Script, module: { exports: any } }>} */
const loaded = new Map();

/** What the piece `name` of `dist` exports. Throws ENOENT when there is no such piece. */
export function load(name) {
  const known = loaded.get(name);
  if (known !== undefined) return known.module.exports;
  // The build writes ASCII alone, which one byte a letter holds.
  const text = readFileSync(DIST + name, 'latin1');
  const script = new Script(`(function(exports,require,module,__filename){${text}\n})`, {
    filename: DIST + name,
    cachedData: codeOf(name),
  });
  const module = { exports: {} };
  loaded.set(name, { script, module });
  script.runInThisContext()(module.exports, wanted, module, DIST + name);
  return module.exports;
}

/** Nothing is bundled that needs more than other pieces and Node's own modules. */
const wanted = (name) => (name.startsWith('./') ? load(name.slice(2)) : process.getBuiltinModule(name));

/** The only name that does not say what is in the piece: the same code would be taken for another's. */
export const ENTRY = 'cli.cjs';

function codeOf(name) {
  if (name === ENTRY) return undefined;
  try {
    return readFileSync(CODE + name);
  } catch {
    return undefined;
  }
}

/**
 * Keeps what the engine compiled of the pieces loaded so far, every function that has run since; not of those whose kept
 * code it took. Gives the names of the pieces.
 */
export function keepCode() {
  mkdirSync(CODE, { recursive: true });
  const fresh = [...loaded].filter(([name, { script }]) => name !== ENTRY && script.cachedDataRejected !== false);
  for (const [name, { script }] of fresh) {
    writeFileSync(`${CODE}${name}.tmp`, script.createCachedData());
    renameSync(`${CODE}${name}.tmp`, CODE + name);
  }
  return fresh.map(([name]) => name);
}
