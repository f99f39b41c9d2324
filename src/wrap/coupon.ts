import { letters } from '../drawing/lettering.ts';
import { polygon, rectangle } from '../drawing/paths.ts';
import { roomOn } from '../drawing/room.ts';
import type { Part, Path, Shape } from '../model/drawing.ts';
import type { Fact } from '../model/finding.ts';
import type { SheetMaterial, SheetProfile } from '../model/sheet.ts';
import type { Staged } from '../model/stage.ts';
import type { Mm } from '../units/scalar.ts';

/** A slip is drawn this size; the beam takes half a kerf from each of its sides. */
const SLIP = { width: 10, height: 20 } as const;
/** Slips measured together: the caliper's error is divided by their number. */
const SLIPS = 10;
/** Slots are drawn the sheet's thickness and this much wider, one after the other. */
const SLOTS: readonly Mm[] = [-0.4, -0.35, -0.3, -0.25, -0.2, -0.15, -0.1, -0.05, 0, 0.05, 0.1, 0.15];
const SLOT = { height: 14, pitch: 9 } as const;
const BORDER: Mm = 5;
/** Least material left between two slips or slots, before the beam takes its part (judgement, no source). */
const WEB: Mm = 3;
/** Thinner sheet bends away from a slot instead of sliding into it (judgement, no source). */
const STIFF: Mm = 1.5;

export interface Coupon {
  readonly part: Part;
  /** Slips that fall out, to be laid side by side and measured in one reading. */
  readonly slips: number;
  readonly slipWidth: Mm;
  /** Widths the slots are drawn at, numbered from 1; empty for sheet too thin to stand in a slot. */
  readonly slots: readonly Mm[];
}

/**
 * The test piece for a sheet and material: slips to measure for the kerf, and numbered slots to try for the fit. It is cut on
 * its drawn lines, without any kerf taken off: nest it with a kerf of 0.
 */
export function couponPart(sheet: SheetProfile, material: SheetMaterial): Coupon {
  const room = roomOn(sheet, 0);
  const across = room.max.x - room.min.x;
  // What the beam is believed to take comes off the web: it must leave a bridge.
  const web = Math.max(WEB, sheet.bridge + (sheet.kerf ?? material.kerf));
  const pitch = Math.max(SLOT.pitch, material.thickness + Math.max(...SLOTS) + web);
  const border = Math.max(BORDER, web);
  const slips = Math.max(1, Math.min(SLIPS, Math.floor((across - 2 * border + web) / (SLIP.width + web))));
  const fitting = material.thickness >= STIFF ? Math.floor((across - 2 * border) / pitch) : 0;
  const slots = SLOTS.slice(0, fitting).map((d) => material.thickness + d);
  const width = 2 * border + Math.max(slips * (SLIP.width + web) - web, slots.length * pitch, 60);
  const low = border + 5;
  const slipsAt = low + (slots.length > 0 ? SLOT.height + 10 : 0);
  const height = slipsAt + SLIP.height + border + 5;
  const inner: Path[] = [];
  const marks: Shape[] = [...letters(`kerf and fit: ${material.name}`, { x: border, y: height - border - 2 }, 3)];
  for (let i = 0; i < slips; i++) {
    const x = border + i * (SLIP.width + web);
    inner.push(
      rectangle('CUT-INNER', `slip ${i + 1}`, { x, y: slipsAt }, { x: x + SLIP.width, y: slipsAt + SLIP.height }),
    );
  }
  for (const [i, slot] of slots.entries()) {
    const x = border + (i + 0.5) * pitch;
    inner.push(
      rectangle('CUT-INNER', `slot ${i + 1}`, { x: x - slot / 2, y: low }, { x: x + slot / 2, y: low + SLOT.height }),
    );
    marks.push(...letters(`${i + 1}`, { x, y: low + SLOT.height + 3 }, 3, { align: 'center' }));
  }
  const text =
    slots.length > 0
      ? `${slips} slips: measure side by side; try one in the slots`
      : `${slips} slips: measure side by side`;
  marks.push(...letters(text, { x: border, y: border - 1 }, 2.5));
  // One corner cut off tells which way up it lay on the bed.
  const outer = polygon('CUT-OUTER', 'coupon', [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height - 4 },
    { x: width - 4, y: height },
    { x: 0, y: height },
  ]);
  const part: Part = {
    id: 'coupon',
    job: 'coupon',
    name: `coupon ${material.name}`,
    outer,
    inner,
    marks,
    quantity: 1,
    turns: true,
  };
  return { part, slips, slipWidth: SLIP.width, slots };
}

export interface CouponReading {
  /** All slips side by side, one caliper reading. */
  readonly slips: Mm;
  /** The narrowest numbered slot a slip slides into by hand. */
  readonly slot?: number;
  /** Measured thickness of the sheet. */
  readonly thickness?: Mm;
}

/** Least and greatest kerf a laser leaves (workshop artwork guides print 0.08-0.45 mm; common practice, no source). */
const LIKELY = [0.05, 0.5] as const;

/**
 * Kerf and fit allowance from a coupon's readings: kerf = slip as drawn - slips together / their number; fit = slot as cut
 * (drawn + kerf) - thickness. Stop fact `coupon-impossible` when the slips are as large as drawn or larger, or the slot has no
 * such number; care `coupon-unlikely` for a kerf no laser leaves.
 */
export function readCoupon(
  coupon: Pick<Coupon, 'slips' | 'slipWidth' | 'slots'>,
  reading: CouponReading,
  material: SheetMaterial,
): Staged<{ readonly kerf: Mm; readonly fit?: Mm } | undefined> {
  const kerf = coupon.slipWidth - reading.slips / coupon.slips;
  const say = (level: Fact['level'], id: string, measured: Mm, limit: Mm): Fact => ({
    level,
    id,
    at: 'coupon',
    measured,
    limit,
    unit: id === 'coupon-no-slot' ? '' : 'mm',
    facts: { slips: coupon.slips, drawn: coupon.slips * coupon.slipWidth, reading: reading.slips, kerf },
  });
  if (!(kerf > 0) || kerf >= coupon.slipWidth / 2) {
    return {
      value: undefined,
      facts: [say('stop', 'coupon-impossible', reading.slips, coupon.slips * coupon.slipWidth)],
    };
  }
  const facts: Fact[] = [];
  if (kerf < LIKELY[0] || kerf > LIKELY[1])
    facts.push(say('care', 'coupon-unlikely', kerf, kerf < LIKELY[0] ? LIKELY[0] : LIKELY[1]));
  if (reading.slot === undefined) return { value: { kerf }, facts };
  const drawn = coupon.slots[reading.slot - 1];
  if (drawn === undefined) {
    return { value: { kerf }, facts: [...facts, say('stop', 'coupon-no-slot', reading.slot, coupon.slots.length)] };
  }
  return { value: { kerf, fit: drawn + kerf - (reading.thickness ?? material.thickness) }, facts };
}
