import type * as z from 'zod';
import { findMethod, HARDWARE_TERMS, METHOD_IDS, sizeText } from '../data/methods.ts';
import type { Accuracy, ErrorTerm } from '../model/accuracy.ts';
import type { Method } from '../model/jig.ts';
import { readAngle, readLength } from '../units/length.ts';
import { type KeyPath, ofProfile, show } from './complaint.ts';
import { fromValidator } from './issue.ts';
import type { ProfileFiles, Reader } from './reader.ts';
import { accuracyProfileSchema } from './schema-profile.ts';
import type { accuracySchema } from './schema-workshop.ts';

type RawAccuracy = z.infer<typeof accuracySchema>;
type RawTerm = NonNullable<RawAccuracy['tape']>[number];
type Section = Method | 'hardware';

/** One list of own terms, and where it stands for complaints. */
interface Given {
  readonly raw: Omit<RawAccuracy, 'profile'>;
  readonly path: (section: Section, i: number) => KeyPath;
  readonly source: string;
}

/** The built-in tables of error terms with what the workshop's profile and the jig file put in their place, in that order. */
export function resolveAccuracy(
  raw: RawAccuracy | undefined,
  method: Method | undefined,
  files: ProfileFiles,
  r: Reader,
): { readonly accuracy?: Accuracy } {
  if (method !== undefined && raw?.[method] === undefined && raw?.profile === undefined)
    r.assume(
      `accuracy.${method}`,
      'the built-in error terms',
      'common practice, no source: measure your own work and put your figures in their place',
    );
  if (!raw) return {};
  const given: Given[] = [];
  if (raw.profile !== undefined) {
    const profile = profileOf(raw.profile, files, r);
    if (profile) given.push({ raw: profile, path: () => ['accuracy', 'profile'], source: raw.profile });
  }
  given.push({ raw, path: (section, i) => ['accuracy', section, i], source: 'the jig file' });
  const level = given.findLast((g) => g.raw.level !== undefined)?.raw.level;
  const changed = METHOD_IDS.filter((m) => given.some((g) => g.raw[m] ?? g.raw.hardware));
  const hardware = merged('hardware', HARDWARE_TERMS, given, r);
  const terms = Object.fromEntries(
    changed.map((m) => [m, [...merged(m, findMethod(m).terms, given, r), ...hardware]] as const),
  );
  return { accuracy: { ...(level === undefined ? {} : { level: level / 100 }), terms } };
}

function profileOf(name: string, files: ProfileFiles, r: Reader): Given['raw'] | undefined {
  const path = ['accuracy', 'profile'];
  if (!(name in files)) {
    r.complain(path, `the name ${show(name)}`, 'a YAML file beside the jig', 'write profile: accuracy in it');
    return undefined;
  }
  const parsed = accuracyProfileSchema.safeParse(files[name]);
  if (parsed.success) return parsed.data;
  const issues = fromValidator(accuracyProfileSchema, files[name], parsed.error.issues);
  r.issues.push(...issues.map((issue) => ofProfile(name, path, issue)));
  return undefined;
}

function merged(section: Section, base: readonly ErrorTerm[], given: readonly Given[], r: Reader): ErrorTerm[] {
  const out = [...base];
  for (const g of given) {
    const seen = new Set<string>();
    (g.raw[section] ?? []).forEach((raw, i) => {
      const path = g.path(section, i);
      if (seen.has(raw.id)) r.complain(path, `the term ${show(raw.id)} twice`, 'each term once', 'remove one of them');
      seen.add(raw.id);
      const at = out.findIndex((t) => t.id === raw.id);
      const builtIn = base.find((t) => t.id === raw.id);
      const term = ownTerm(raw, out[at], builtIn, g.source, path, r);
      if (!term) return;
      if (at < 0) out.push(term);
      else out[at] = term;
    });
  }
  return out;
}

function ownTerm(
  raw: RawTerm,
  before: ErrorTerm | undefined,
  builtIn: ErrorTerm | undefined,
  file: string,
  path: KeyPath,
  r: Reader,
): ErrorTerm | undefined {
  const { axis, each, spread } = { ...before, ...raw };
  if (!axis || !each || !spread) {
    r.complain(
      path,
      `the term ${show(raw.id)}, which no table has, without ${axis ? '' : 'axis, '}${each ? '' : 'each, '}${spread ? '' : 'spread'}`,
      'an added term says axis, each and spread',
      `add them, or name a built-in term`,
    );
    return undefined;
  }
  const size = sizeOf(raw.size, before?.unit ?? (axis === 'lean' ? 'deg' : 'mm'), axis, path, r);
  if (!size) return undefined;
  return {
    id: raw.id,
    what: raw.what ?? before?.what ?? raw.id,
    axis,
    each,
    spread,
    ...size,
    source: raw.source ?? `the builder's own, from ${file}`,
    own: builtIn === undefined ? {} : { builtIn: sizeText(builtIn) },
  };
}

/** Largest sizes that can be an error at all (derived: half a hole pattern, and well beyond any hand). */
const MOST = { mm: 20, deg: 20, stretch: 0.05 } as const;

/** `0.2 mm`, `0.3 deg`, `0.1 %` of the distance, or a bare number in the term's own unit (% for a stretch). */
function sizeOf(
  raw: string | number,
  unit: ErrorTerm['unit'],
  axis: ErrorTerm['axis'],
  path: KeyPath,
  r: Reader,
): Pick<ErrorTerm, 'size' | 'unit'> | undefined {
  const text = String(raw).trim();
  const is = text.endsWith('%') ? 'stretch' : /(deg(rees?)?|°)$/i.test(text) ? 'deg' : /\d$/.test(text) ? unit : 'mm';
  const reading =
    is === 'mm' ? readLength(raw, r.units) : readAngle(is === 'stretch' ? text.replace(/\s*%$/, '') : raw);
  const refuse = (found: string, allowed: string) => {
    r.complain(path, `${show(raw)}: ${found}`, allowed, 'write a number and one unit');
    return undefined;
  };
  if (!reading.ok) return refuse(reading.why, '0.2 mm, 0.3 deg or 0.1 %');
  const size = is === 'stretch' ? reading.value / 100 : reading.value;
  if (size < 0 || size > MOST[is])
    return refuse('it is no error a hand makes', `0 to ${MOST.mm} mm, ${MOST.deg} deg or ${100 * MOST.stretch} %`);
  if (axis === 'lean' && is !== 'deg') return refuse('a lean is an angle', 'degrees');
  if (is === 'deg' && axis !== 'lean' && axis !== 'around')
    return refuse('an angle along the shell', 'mm or %, or degrees with axis: around or lean');
  return { size, unit: is };
}
