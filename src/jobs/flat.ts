import type { CollarPlan } from '../collar/plan.ts';
import { isUnderKerf } from '../drawing/kerf-summed.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { SheetMaterial, SheetProfile } from '../model/sheet.ts';
import type { NestedSheet } from '../nest/nest.ts';
import { toDxf } from '../write/dxf.ts';
import { toSvg } from '../write/svg.ts';
import { layCollar, layWrap } from './laid.ts';
import type { Branch, MadeFile, NotMade } from './made.ts';

export interface PrinterScale {
  /** What the 100 mm rulers of the first page measured across and up. */
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

/** Why something is not made. */
const UNDER_KERF = 'a feature is narrower than the kerf: see the finding';

export type DxfFlavour = 'polylines' | 'plain';

/** The wrap whole, in panels nested on the laser's sheets, and tiled for paper; with the cards to hold against the real thing. */
export async function makeWrap(jig: Jig, layout: Layout, input: WrapInput): Promise<Branch> {
  const { digest, printer, checked, flavour } = input;
  const stretch = printer && { x: 100 / printer.across, y: 100 / printer.up };
  const { wrap, panels, cardSheets, facts } = layWrap(jig, layout, checked, digest, stretch);
  const { sheet, material, paper } = jig.wrap;
  const common = { sheet, material, flavour };
  const lines = sheet.lines;
  const notMade: NotMade[] = [];
  const whole: MadeFile[] = [];
  if (wrap.spoilt) notMade.push({ what: 'wrap.dxf, wrap.svg and the wrap on sheets', why: UNDER_KERF });
  else
    whole.push(
      {
        name: 'wrap.dxf',
        data: toDxf(wrap.whole, { flavour, lines }),
        what: 'the whole wrap template, flat, 1:1, for a laser or plotter; its 100 mm check line lies outside the cut, below the bottom edge',
      },
      { name: 'wrap.svg', data: toSvg(wrap.whole, { lines }), what: 'the same as SVG' },
    );
  if (facts.some((f) => f.id === 'paper-too-small'))
    notMade.push({ what: 'wrap.pdf', why: 'the page has no room for a tile' });
  else {
    const { toPdf } = await import('../write/pdf.ts');
    const data = await toPdf(wrap.paper, paper, {
      title: `${jig.name}: wrap template`,
      more: wrap.cardPages,
      stretch,
    });
    whole.push({
      name: 'wrap.pdf',
      data,
      what: `the wrap template for ${paper.name}, 1:1, tiled, and the cards: print without scaling`,
    });
  }
  return {
    files: [
      ...whole,
      ...sheetFiles('wrap-sheet', 'the wrap in panels, nested on a sheet', panels, common),
      ...sheetFiles('card-sheet', 'cards to check hardware with, nested on a sheet', cardSheets, common),
    ],
    facts,
    notMade,
  };
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
  const { sheet, material } = jig.collar;
  const { plan, sheets, facts } = layCollar(jig, layout, digest);
  if (!plan.made)
    return { files: [], facts, notMade: [{ what: 'collar', why: 'see the findings about the collar' }], plan };
  const notMade: NotMade[] = facts.some(isUnderKerf) ? [{ what: 'collar-sheet files', why: UNDER_KERF }] : [];
  const files = sheetFiles('collar-sheet', "the drilling collar's flat parts", sheets, { sheet, material, flavour });
  if (solid) {
    const { toThreeMf } = await import('../write/threemf.ts');
    const data = toThreeMf(plan.parts, plan.placements, { title: `${jig.name}: drilling collar` });
    files.push({ name: 'collar.3mf', data, what: 'the assembled collar as a solid, to look at' });
  }
  return { files, facts, notMade, plan };
}

interface SheetJob {
  readonly sheet: SheetProfile;
  readonly material: SheetMaterial;
  readonly flavour?: DxfFlavour | undefined;
}

const sheetFiles = (prefix: string, what: string, sheets: readonly NestedSheet[], job: SheetJob): MadeFile[] =>
  sheets.flatMap((s, i): MadeFile[] => {
    const { sheet, material, flavour } = job;
    const minutes = Math.max(1, Math.round(s.seconds / 60));
    const text = `${what}, sheet ${i + 1} of ${sheets.length}: ${material.name} on ${sheet.name}, ${Math.round(s.use * 100)} % used, about ${minutes} min to cut${s.assumed.length === 0 ? '' : ` (assumed: speed of ${s.assumed.join(', ')})`}`;
    return [
      { name: `${prefix}-${i + 1}.dxf`, data: toDxf(s.drawing, { flavour, lines: sheet.lines }), what: text },
      { name: `${prefix}-${i + 1}.svg`, data: toSvg(s.drawing, { lines: sheet.lines }), what: text },
    ];
  });
