import type { Hoop, Rods } from '../model/jig.ts';
import type { Thread } from '../model/thread.ts';
import { readAngle } from '../units/length.ts';
import { MM_PER_INCH, wrapDeg } from '../units/scalar.ts';
import { type KeyPath, show } from './complaint.ts';
import { type Reader, SIZE, SMALL } from './reader.ts';
import { resolveThread } from './resolve-pattern.ts';
import type { RawJig } from './schema.ts';

/** Pitch taken for turns when no thread is known: 24 threads to the inch (12-24, common practice, no source). */
const USUAL_PITCH = MM_PER_INCH / 24;

export function resolveRods(raw: NonNullable<RawJig['rods']>, lugThread: Thread | undefined, r: Reader): Rods {
  const at = (key: string) => ['rods', key];
  const thread = raw.thread === undefined ? undefined : resolveThread(raw.thread, at('thread'), r);
  const length =
    typeof raw.length === 'object'
      ? {
          ...(raw.length.top === undefined ? {} : { top: r.length(raw.length.top, ['rods', 'length', 'top'], SIZE) }),
          ...(raw.length.bottom === undefined
            ? {}
            : { bottom: r.length(raw.length.bottom, ['rods', 'length', 'bottom'], SIZE) }),
        }
      : raw.length === undefined
        ? {}
        : { top: r.length(raw.length, at('length'), SIZE), bottom: r.length(raw.length, at('length'), SIZE) };
  const threaded = r.optional(raw.threaded, at('threaded'), SIZE);
  const washer = r.optional(raw.washer, at('washer'), { sign: 'zero', max: 50 });
  if (washer === undefined) r.assume('rods.washer', '0 mm', 'no washer under the rod head given');
  return {
    length,
    ...(thread === undefined ? {} : { thread }),
    ...(threaded === undefined ? {} : { threaded }),
    washer: washer ?? 0,
    travel: travel(raw.travel, thread ?? lugThread, r),
    stock: (raw.stock ?? []).map((s, i) => r.length(s, ['rods', 'stock', i], SIZE)).sort((a, b) => a - b),
  };
}

/** From finger tight to full tension: a length, or turns of the rod's pitch. */
function travel(raw: string | number | undefined, thread: Thread | undefined, r: Reader): number {
  const pitch = thread?.pitch ?? USUAL_PITCH;
  const said = /^(.*?)\s*turns?\s*$/i.exec(typeof raw === 'string' ? raw : '')?.[1];
  if (raw === undefined)
    r.assume('rods.travel', '3 turns', 'from finger tight to full tension, common practice, no source');
  else if (said === undefined) return r.length(raw, ['rods', 'travel'], { sign: 'zero', max: 100 });
  // Turns are a bare number, as an angle may be: read like one.
  const turns = said === undefined ? ({ ok: true, value: 3 } as const) : readAngle(said);
  const bad = turns.ok ? (turns.value < 0 || /[a-z°]/i.test(said ?? '') ? 'no turns' : undefined) : turns.why;
  if (bad !== undefined)
    r.complain(
      ['rods', 'travel'],
      `${show(raw)}: ${bad}`,
      'turns such as 3 turns or 2 1/2 turns, or a length such as 3 mm',
      'count the turns from finger tight to full tension',
    );
  const n = turns.ok ? turns.value : 3;
  if (n > 40)
    r.complain(['rods', 'travel'], show(raw), 'at most 40 turns', 'count the turns from finger tight to full tension');
  if (thread === undefined)
    r.assume('rods.thread', '24 threads to the inch, for turning turns into mm', 'no rod thread given');
  return n * pitch;
}

type RawHoop = NonNullable<NonNullable<RawJig['hoops']>['top']>;

export function resolveHoop(raw: RawHoop, path: KeyPath, r: Reader): Hoop {
  const at = (key: string) => [...path, key];
  const ear = r.optional(raw.ear, at('ear'), { sign: 'any', max: 300 });
  const skirt = r.optional(raw.skirt, at('skirt'), { sign: 'zero', max: 300 });
  const earCircle = r.optional(raw['ear-circle'], at('ear-circle'), SIZE);
  const inside = r.optional(raw.inside, at('inside'), SIZE);
  return {
    ...(ear === undefined ? {} : { ear }),
    ...(skirt === undefined ? {} : { skirt }),
    ...(raw.ears === undefined ? {} : { ears: raw.ears }),
    ...(earCircle === undefined ? {} : { earCircle }),
    ...(inside === undefined ? {} : { inside }),
    gates: (raw.gates ?? []).map((g, i) => ({
      at: wrapDeg(r.angle(g.at, [...path, 'gates', i, 'at'])),
      width: r.length(g.width, [...path, 'gates', i, 'width'], SMALL),
    })),
  };
}
