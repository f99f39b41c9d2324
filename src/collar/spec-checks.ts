import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import { tolerance } from '../units/tolerance.ts';
import { careful, gravest, lineAt, unchecked } from './level.ts';
import { cutWidth, LEAST_CUTTER, rules, widestCutter } from './rules.ts';

/** Sheet of a name may be this much thicker than its name before it is another sheet (6 mm ply measures 5.4 to 6.3; common practice, no source). */
const THICKER = 1.1;
const PLY_UP = 1.05;

/** What forbids a collar altogether, whatever its posts. */
export function checkSpec(jig: Jig): Fact[] {
  const { collar, shell } = jig;
  const level = gravest(jig);
  const facts: Fact[] = [];
  if (shell.edges === 'uncut') {
    facts.push({
      level,
      id: 'no-rim',
      at: 'shell',
      measured: null,
      limit: null,
      unit: '',
      ...lineAt(jig, 'shell.edges', 'shell'),
    });
  }
  const oval = (shell.round ?? 0) / 4;
  const need = oval + rules.slide;
  if (collar.clearance < need - tolerance.noise) {
    facts.push({
      level,
      id: 'collar-binds',
      at: 'collar',
      measured: collar.clearance,
      limit: need,
      unit: 'mm',
      facts: { oval, round: shell.round ?? 0, slide: rules.slide },
      ...lineAt(jig, 'collar.clearance', 'collar'),
    });
  }
  const kerf = collar.sheet.kerf ?? collar.material.kerf;
  if (collar.cut === 'router' && kerf < LEAST_CUTTER) {
    facts.push({
      level: careful(jig),
      id: 'cutter-not-said',
      at: 'collar',
      measured: kerf,
      limit: LEAST_CUTTER,
      unit: 'mm',
      facts: { material: collar.material.name, sheet: collar.sheet.name, assumed: cutWidth(collar) },
      ...lineAt(jig, 'collar.cut', 'collar'),
    });
  }
  if (collar.cut === 'router' && kerf > widestCutter(collar) + tolerance.noise) {
    facts.push({
      level,
      id: 'cutter-wider-than-slot',
      at: 'collar',
      measured: kerf,
      limit: widestCutter(collar),
      unit: 'mm',
      facts: { slot: collar.thickness + collar.material.fit },
      ...lineAt(jig, 'collar.cut', 'collar'),
    });
  }
  if (shell.round === undefined) facts.push(unchecked('collar', 'does an oval shell pass the collar', 'shell.round'));
  const nominal = collar.material.thickness;
  const assumed = jig.assumptions.some((a) => a.key === 'collar.thickness');
  const slot =
    assumed || collar.thickness > nominal * THICKER
      ? nominal + collar.material.fit
      : collar.thickness + collar.material.fit;
  if (collar.material.fit < 0 || collar.thickness > nominal * THICKER) {
    facts.push({
      level,
      id: 'sheet-thicker-than-slot',
      at: 'collar',
      measured: collar.thickness,
      limit: collar.material.fit < 0 ? slot : nominal * THICKER,
      unit: 'mm',
      facts: { material: collar.material.name, nominal, fit: collar.material.fit },
      ...lineAt(jig, 'collar.thickness', 'collar'),
    });
  } else if (assumed) {
    facts.push({
      ...unchecked('collar', 'does the sheet slide into its slots', 'collar.thickness, measured'),
      measured: nominal * PLY_UP,
      limit: slot,
      unit: 'mm',
    });
  }
  return [...facts, ...checkBushing(jig)];
}

function checkBushing(jig: Jig): Fact[] {
  const b = jig.collar.bushing;
  if (b === undefined) return [];
  const at = 'collar';
  const line = lineAt(jig, 'collar.bushing', 'collar');
  if (b.outside - b.inside < 2 * rules.bushingWall - tolerance.noise) {
    const limit = b.inside + 2 * rules.bushingWall;
    return [
      {
        level: gravest(jig),
        id: 'bushing-wall-thin',
        at,
        measured: b.outside,
        limit,
        unit: 'mm',
        facts: { inside: b.inside },
        ...line,
      },
    ];
  }
  if (b.length < jig.collar.thickness) {
    const limit = jig.collar.thickness;
    return [
      { level: careful(jig), id: 'bushing-shorter-than-plate', at, measured: b.length, limit, unit: 'mm', ...line },
    ];
  }
  return [];
}
