import { planCollar } from '../collar/collar.ts';
import type { CollarPlan } from '../collar/plan.ts';
import type { Part } from '../model/drawing.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { SheetMaterial, SheetProfile } from '../model/sheet.ts';
import { nest } from '../nest/nest.ts';
import { cardPages, cardParts, type RodFit } from '../wrap/cards.ts';
import { planWrap } from '../wrap/wrap.ts';
import { toDxf } from '../write/dxf.ts';
import { toSvg } from '../write/svg.ts';
import type { Branch, MadeFile } from './made.ts';

export interface PrinterScale {
  /** What the 100 mm rulers measured across and up. */
  readonly across: number;
  readonly up: number;
}

export interface WrapInput {
  readonly digest: string;
  readonly printer?: PrinterScale | undefined;
  /** What the fit check found: the rod cards show the lengths that fit. */
  readonly checked: readonly Fact[];
}

/** The wrap whole, in panels nested on the laser's sheets, and tiled for paper; with the cards to hold against the real thing. */
export async function makeWrap(jig: Jig, layout: Layout, { digest, printer, checked }: WrapInput): Promise<Branch> {
  const { value: wrap, facts } = planWrap(jig, layout, { digest });
  const cards = cardParts(jig, rodFits(jig, checked));
  const sheets = sheetFiles(
    'wrap-sheet',
    'the wrap in panels, and cards to check hardware with, nested on a sheet',
    [...wrap.panels, ...cards],
    jig.wrap.sheet,
    jig.wrap.material,
    jig,
    digest,
  );
  const { toPdf } = await import('../write/pdf.ts');
  const pdf = await toPdf(wrap.paper, jig.wrap.paper, {
    title: `${jig.name}: wrap template`,
    more: cardPages(cards, jig.wrap.paper, jig.name),
    ...(printer === undefined ? {} : { scaleX: 100 / printer.across, scaleY: 100 / printer.up }),
  });
  const whole: MadeFile[] = [
    { name: 'wrap.dxf', data: toDxf(wrap.whole), what: 'the whole wrap template, flat, 1:1, for a laser or plotter' },
    { name: 'wrap.svg', data: toSvg(wrap.whole), what: 'the same as SVG' },
    {
      name: 'wrap.pdf',
      data: pdf,
      what: `the same for ${jig.wrap.paper.name}, 1:1, tiled, and the cards: print without scaling`,
    },
  ];
  return { files: [...whole, ...sheets.files], facts: [...facts, ...sheets.facts], notMade: [] };
}

/** Rod lengths that fit each row's end, from the check's windows. */
function rodFits(jig: Jig, facts: readonly Fact[]): RodFit[] {
  const windows = new Map(facts.filter((f) => f.id === 'rod-window').map((f) => [f.at, f.facts]));
  return jig.rows.flatMap((row) =>
    (['top', 'bottom'] as const).flatMap((side) => {
      const own =
        jig.ends === 'both'
          ? windows.get(`${row.name}-lugs-${side}`)
          : row.edge === side
            ? windows.get(`${row.name}-lugs`)
            : undefined;
      const [shortest, longest] = [Number(own?.['shortest']), Number(own?.['longest'])];
      if (!(shortest <= longest)) return [];
      const stock = (jig.rods?.stock ?? []).filter((l) => l >= shortest && l <= longest);
      return [{ row: row.name, side, shortest, longest, stock }];
    }),
  );
}

export interface CollarBranch extends Branch {
  readonly plan: CollarPlan;
}

/** The drilling collar's flat parts, nested on sheets; assembled as a solid when asked. */
export async function makeCollar(jig: Jig, layout: Layout, digest: string, solid: boolean): Promise<CollarBranch> {
  const { value: plan, facts } = planCollar(jig, layout, { digest });
  if (!plan.made)
    return { files: [], facts, notMade: [{ what: 'collar', why: 'see the findings about the collar' }], plan };
  const level = jig.collar.asked ? (f: Fact) => f : asNote;
  const sheets = sheetFiles(
    'collar-sheet',
    "the drilling collar's flat parts",
    plan.parts,
    jig.collar.sheet,
    jig.collar.material,
    jig,
    digest,
  );
  const solids: MadeFile[] = [];
  if (solid) {
    const { toThreeMf } = await import('../write/threemf.ts');
    const data = toThreeMf(plan.parts, plan.placements, { title: `${jig.name}: drilling collar` });
    solids.push({ name: 'collar.3mf', data, what: 'the assembled collar as a solid, to look at' });
  }
  return { files: [...sheets.files, ...solids], facts: [...facts, ...sheets.facts.map(level)], notMade: [], plan };
}

/** Nobody asked for it in the jig file: what stands in its way is worth a note, no more. */
const asNote = (f: Fact): Fact => (f.level === 'note' ? f : { ...f, level: 'note' });

export function sheetFiles(
  prefix: string,
  what: string,
  parts: readonly Part[],
  sheet: SheetProfile,
  material: SheetMaterial,
  jig: Jig,
  digest: string,
): { files: MadeFile[]; facts: readonly Fact[] } {
  const { value: sheets, facts } = nest(parts, sheet, { kerf: sheet.kerf ?? material.kerf, title: jig.name, digest });
  const files = sheets.flatMap((s, i): MadeFile[] => {
    const text = `${what}, sheet ${i + 1} of ${sheets.length}: ${material.name} on ${sheet.name}, ${Math.round(s.use * 100)} % used, about ${Math.max(1, Math.round(s.seconds / 60))} min to cut`;
    return [
      { name: `${prefix}-${i + 1}.dxf`, data: toDxf(s.drawing), what: text },
      { name: `${prefix}-${i + 1}.svg`, data: toSvg(s.drawing), what: text },
    ];
  });
  return { files, facts };
}
