import { nearestDrills } from '../data/drills.ts';
import type { Jig } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { clampSupplies } from './clamp-parts.ts';
import type { Post, Supply } from './plan.ts';
import type { Built } from './ring-build.ts';
import { isBedded, rules } from './rules.ts';
import type { SectorPlan } from './sectors.ts';

const size = (mm: Mm): string => `${Number(mm.toFixed(2))} mm`;

/** What to buy besides the sheet. */
export function suppliesOf(jig: Jig, built: Built): Supply[] {
  const supplies: Supply[] = [];
  const bushing = jig.collar.bushing;
  const bits = countBy(built.posts.flatMap((p) => p.bores.map((b) => b.bit)));
  for (const [bit, quantity] of bits) {
    if (bushing) {
      const inside = bit <= bushing.inside && bushing.inside - bit <= rules.bushingSlack ? bushing.inside : bit;
      supplies.push({
        what: isBedded(jig.collar) ? 'drill bushing, bedded in glue' : 'drill bushing, pressed in',
        quantity,
        size: `${drillOf(inside)} x ${Number(bushing.outside.toFixed(2))} x ${size(bushing.length)}`,
      });
    }
    supplies.push({ what: 'index pin: the shank of a bit, or a steel pin', quantity: 2, size: size(bit) });
  }
  const pins = built.frames.reduce((sum, f) => sum + f.pins.length * (1 + f.rings.length), 0);
  if (pins > 0) {
    const band = built.frames[0]?.band ?? 0;
    supplies.push({ what: 'dowel pin through two ring layers', quantity: pins, size: `${rules.pin} x ${size(band)}` });
  }
  supplies.push(...merged(built.frames.flatMap(clampSupplies)));
  const sectors = built.frames.filter((f) => f.arc !== undefined).length;
  if (sectors > 0)
    supplies.push({
      what: 'elastic cord with two hooks, to tie a sector on',
      quantity: 1,
      size: `${Math.ceil((2 * Math.PI * jig.shell.radius) / 100) * 100} mm`,
    });
  const glued = built.posts.length * 2 * 2 + pins / 2;
  if (built.parts.length > 0)
    supplies.push({ what: 'wood glue', quantity: 1, size: `${Math.ceil(glued / 10) * 10} ml` });
  if (built.parts.length > 0)
    supplies.push({ what: 'screw clamp for the backing block', quantity: 2, size: '100 mm opening' });
  return supplies;
}

/** A bore as the drill list has it: by its size, and by its name where that is another. */
function drillOf(diameter: Mm): string {
  const { nearest } = nearestDrills(diameter);
  const mm = `${Number(diameter.toFixed(2))}`;
  return Math.abs(nearest.diameter - diameter) < tolerance.same && !nearest.name.endsWith('mm')
    ? `${mm} (${nearest.name})`
    : mm;
}

/** Alike things on one line. */
function merged(supplies: readonly Supply[]): Supply[] {
  const lines = new Map<string, Supply>();
  for (const s of supplies) {
    const key = `${s.what} ${s.size}`;
    lines.set(key, { ...s, quantity: s.quantity + (lines.get(key)?.quantity ?? 0) });
  }
  return [...lines.values()];
}

function countBy(values: readonly number[]): [number, number][] {
  const counts = new Map<number, number>();
  for (const v of values) counts.set(v, (counts.get(v) ?? 0) + 1);
  return [...counts].sort((a, b) => a[0] - b[0]);
}

/** Order of assembly and of drilling, one sentence a step. */
export function stepsOf(jig: Jig, built: Built, sectors: readonly SectorPlan[]): string[] {
  const frame = built.frames[0];
  if (frame === undefined) return [];
  const steps: string[] = [];
  const glued = built.frames.find((f) => f.layers > 1);
  if (glued !== undefined) {
    const over =
      glued.joints.length > 0
        ? 'with its joints between those of layer a'
        : 'with its face grain across that of layer a';
    const pins = glued.pins.length > 0 ? ', tap the dowel pins in' : '';
    steps.push(
      `Lay each ring out on a flat board, layer a below, layer b on it ${over}; glue the faces${pins}, and weight it flat until dry.`,
    );
  }
  steps.push(
    'Put every outer plate into the guide rings from inside, lettering outwards and its arrow up, until its back meets the bottom of the notch; the rings enter its side slots.',
    'Put every inner plate in behind it until it rests on the step of the notch.',
    'Push the bits through both plates of a post while you glue: they hold the bores in line.',
    'Press all feet into the lip together until every shoulder stands on the lip; glue, and let dry standing on the lip. The shoulders, not the thickness of the sheet, set the heights.',
  );
  if (jig.collar.bushing) {
    steps.push(
      isBedded(jig.collar)
        ? "Bed the bushings in glue, their inner ends flush with the inner plate: a beam's cut tapers, so let a bit through both plates line them up."
        : 'Press the bushings in square, their inner ends flush with the inner plate.',
    );
  }
  if (built.frames.some((f) => f.clamp !== undefined && f.holds.length > 0)) {
    steps.push(
      'Glue a nut into the hexagon of each clamping ear and its outer plate over it; push the ears into the notches of the last ring from inside until their backs meet the bottom, glue, then put the shoes in before them, loose. Rub the shoes with wax.',
    );
  }
  steps.push('Draw the strainer line on the shell, square to the bearing edge.');
  const held = built.frames.filter((f) => f.holds.length > 0);
  if (built.frames.some((f) => f.arc === undefined))
    steps.push(
      'Slide the collar on until the bearing edge rests on the lip all round, and turn it until its 0 mark meets the line; one collar is on the shell at a time.',
      ...(held.length === 0 ? [] : [held.some((f) => f.clamp) ? BOLTS : WEDGES]),
      'Drill one hole, pin it with a bit; drill the one most nearly opposite, pin it; then drill the rest, with the backing block clamped inside, never held by hand.',
    );
  steps.push(...sectors.map(sectorStep));
  const opened = built.posts.flatMap((p: Post) => p.bores).filter((b) => b.opensTo !== undefined);
  if (opened.length > 0) {
    const list = [...new Set(opened.map((b) => size(b.opensTo as Mm)))].join(', ');
    steps.push(`Lift the collar off and open the holes to their sizes (${list}).`);
  }
  if (jig.collar.cut === 'router')
    steps.push(`The inside corners are relieved for a cutter of ${size(2 * frame.stock.relief - 0.2)} or less.`);
  return steps;
}

const WEDGES = 'Drive the three wedges evenly until the shell no longer moves in the last ring.';
const BOLTS =
  'Turn the three clamping bolts in by hand, evenly, until their shoes hold the shell in the middle of the last ring; back each off as far to take the collar off.';

/** How a sector finds its place. */
function sectorStep(s: SectorPlan): string {
  const name = `Sector ${s.tag}`;
  if (s.steps > 0) {
    return `${name}: tie it to the shell with its lip on the edge and its 0 mark on the strainer line, and drill ${s.posts[0]?.id}. Then step both ways from there, half the row each way: pin the hole just drilled in the one line of plates, drill through the other. Where the two ways meet, measure before drilling the last.`;
  }
  const places = [...new Set(s.serves.flatMap((p) => p.fittings))].join(', ');
  if (s.index.length > 0)
    return `${name} (${places}): pin it in the drilled hole of the lug next to it (${s.index[0]?.id} or one like it), tie it on, and drill.`;
  return `${name} (${places}): draw the fitting's line on the shell, set the tick of the plates to it, tie it on with its lip on the edge, and drill.`;
}
