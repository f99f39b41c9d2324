import { planCollar } from '../collar/collar.ts';
import type { CollarPlan } from '../collar/plan.ts';
import { laserFacts } from '../drawing/laser.ts';
import type { Part } from '../model/drawing.ts';
import { asNote } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { SheetMaterial, SheetProfile } from '../model/sheet.ts';
import { nest } from '../nest/nest.ts';
import { cardPages, cardParts, type RodFit } from '../wrap/cards.ts';
import { planWrap } from '../wrap/wrap.ts';
import { toDxf } from '../write/dxf.ts';
import { toSvg } from '../write/svg.ts';
import type { Branch, MadeFile, NotMade } from './made.ts';

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
  readonly flavour?: DxfFlavour | undefined;
}

export type DxfFlavour = 'polylines' | 'plain';

/** The wrap whole, in panels nested on the laser's sheets, and tiled for paper; with the cards to hold against the real thing. */
export async function makeWrap(jig: Jig, layout: Layout, input: WrapInput): Promise<Branch> {
  const { digest, printer, checked, flavour } = input;
  const { value: wrap, facts } = planWrap(jig, layout, { digest });
  const cards = cardParts(jig, rodFits(jig, checked));
  const { sheet, material, paper, asked } = jig.wrap;
  const common = { sheet, material, title: jig.name, digest, flavour };
  const panels = sheetFiles('wrap-sheet', 'the wrap in panels, nested on a sheet', wrap.panels, common);
  const cardSheets = sheetFiles('card-sheet', 'cards to check hardware with, nested on a sheet', cards, common);
  const lines = sheet.lines;
  const whole: MadeFile[] = [
    {
      name: 'wrap.dxf',
      data: toDxf(wrap.whole, { flavour, lines }),
      what: 'the whole wrap template, flat, 1:1, for a laser or plotter',
    },
    { name: 'wrap.svg', data: toSvg(wrap.whole, { lines }), what: 'the same as SVG' },
  ];
  const notMade: NotMade[] = [];
  if (facts.some((f) => f.id === 'paper-too-small'))
    notMade.push({ what: 'wrap.pdf', why: 'the page has no room for a tile' });
  else {
    const { toPdf } = await import('../write/pdf.ts');
    const data = await toPdf(wrap.paper, paper, {
      title: `${jig.name}: wrap template`,
      more: cardPages(cards, paper, jig.name),
      ...(printer === undefined ? {} : { scaleX: 100 / printer.across, scaleY: 100 / printer.up }),
    });
    whole.push({
      name: 'wrap.pdf',
      data,
      what: `the same for ${paper.name}, 1:1, tiled, and the cards: print without scaling`,
    });
  }
  // A card that does not fit is a pity, not a reason to stop drilling.
  const own = asked ? panels.facts : panels.facts.map(asNote);
  return {
    files: [...whole, ...panels.files, ...cardSheets.files],
    facts: [...facts, ...own, ...cardSheets.facts.map(asNote)],
    notMade,
  };
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

export interface CollarInput {
  readonly digest: string;
  /** Also assembled, as 3MF. */
  readonly solid: boolean;
  readonly flavour?: DxfFlavour | undefined;
}

export interface CollarBranch extends Branch {
  readonly plan: CollarPlan;
}

/** The drilling collar's flat parts, nested on sheets; assembled as a solid when asked. */
export async function makeCollar(jig: Jig, layout: Layout, input: CollarInput): Promise<CollarBranch> {
  const { digest, solid, flavour } = input;
  const { sheet, material, cut, asked } = jig.collar;
  const planned = planCollar(jig, layout, { digest });
  const plan = planned.value;
  const facts = [...planned.facts, ...(cut === 'laser' ? leveled(laserFacts(material.name, 'collar'), asked) : [])];
  if (!plan.made)
    return { files: [], facts, notMade: [{ what: 'collar', why: 'see the findings about the collar' }], plan };
  const sheets = sheetFiles('collar-sheet', "the drilling collar's flat parts", plan.parts, {
    sheet,
    material,
    title: jig.name,
    digest,
    flavour,
  });
  const solids: MadeFile[] = [];
  if (solid) {
    const { toThreeMf } = await import('../write/threemf.ts');
    const data = toThreeMf(plan.parts, plan.placements, { title: `${jig.name}: drilling collar` });
    solids.push({ name: 'collar.3mf', data, what: 'the assembled collar as a solid, to look at' });
  }
  return { files: [...sheets.files, ...solids], facts: [...facts, ...leveled(sheets.facts, asked)], notMade: [], plan };
}

const leveled = (facts: readonly Fact[], asked: boolean): readonly Fact[] => (asked ? facts : facts.map(asNote));

interface SheetJob {
  readonly sheet: SheetProfile;
  readonly material: SheetMaterial;
  readonly title: string;
  readonly digest: string;
  readonly flavour?: DxfFlavour | undefined;
}

function sheetFiles(
  prefix: string,
  what: string,
  parts: readonly Part[],
  job: SheetJob,
): { files: MadeFile[]; facts: readonly Fact[] } {
  const { sheet, material, title, digest, flavour } = job;
  const { value: sheets, facts } = nest(parts, sheet, { kerf: sheet.kerf ?? material.kerf, title, digest });
  const files = sheets.flatMap((s, i): MadeFile[] => {
    const minutes = Math.max(1, Math.round(s.seconds / 60));
    const text = `${what}, sheet ${i + 1} of ${sheets.length}: ${material.name} on ${sheet.name}, ${Math.round(s.use * 100)} % used, about ${minutes} min to cut`;
    return [
      { name: `${prefix}-${i + 1}.dxf`, data: toDxf(s.drawing, { flavour, lines: sheet.lines }), what: text },
      { name: `${prefix}-${i + 1}.svg`, data: toSvg(s.drawing, { lines: sheet.lines }), what: text },
    ];
  });
  return { files, facts };
}
