import type { Finding } from '../model/finding.ts';
import type { SheetMaterial, SheetProfile } from '../model/sheet.ts';
import { nest } from '../nest/nest.ts';
import { sayAll } from '../say/say.ts';
import { wrapSayings } from '../say/wrap.ts';
import { type Coupon, type CouponReading, couponPart, readCoupon } from '../wrap/coupon.ts';
import { toDxf } from '../write/dxf.ts';
import { toSvg } from '../write/svg.ts';
import type { MadeFile } from './made.ts';

export interface CouponSet {
  readonly coupon: Coupon;
  readonly files: readonly MadeFile[];
  readonly findings: readonly Finding[];
}

/** The kerf and fit test piece, cut on its drawn lines. */
export function makeCoupon(sheet: SheetProfile, material: SheetMaterial): CouponSet {
  const coupon = couponPart(sheet, material);
  const { value: sheets, facts } = nest([coupon.part], sheet, {
    kerf: 0,
    title: `coupon ${material.name}`,
    digest: 'kerf',
  });
  const files = sheets.flatMap((s): MadeFile[] => [
    { name: 'coupon.dxf', data: toDxf(s.drawing), what: 'kerf and fit test piece' },
    { name: 'coupon.svg', data: toSvg(s.drawing), what: 'the same as SVG' },
  ]);
  return { coupon, files, findings: sayAll(facts, wrapSayings) };
}

export interface CouponResult {
  readonly kerf?: number;
  readonly fit?: number;
  readonly findings: readonly Finding[];
}

/** What a coupon's caliper readings say of kerf and fit. */
export function couponResult(sheet: SheetProfile, material: SheetMaterial, reading: CouponReading): CouponResult {
  const { value, facts } = readCoupon(couponPart(sheet, material), reading, material);
  return { ...value, findings: sayAll(facts, wrapSayings) };
}
