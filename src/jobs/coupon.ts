import { laserFacts } from '../drawing/laser.ts';
import type { Finding } from '../model/finding.ts';
import type { SheetMaterial, SheetProfile } from '../model/sheet.ts';
import { nest } from '../nest/nest.ts';
import { sayAll } from '../say/say.ts';
import { wrapSayings } from '../say/wrap.ts';
import { type Coupon, type CouponReading, couponPart, readCoupon } from '../wrap/coupon.ts';
import { toDxf } from '../write/dxf.ts';
import { toSvg } from '../write/svg.ts';
import type { DxfFlavour } from './flat.ts';
import type { MadeFile } from './made.ts';

export interface CouponSet {
  readonly coupon: Coupon;
  readonly files: readonly MadeFile[];
  readonly findings: readonly Finding[];
}

/** The kerf and fit test piece, cut on its drawn lines. */
export function makeCoupon(sheet: SheetProfile, material: SheetMaterial, flavour?: DxfFlavour): CouponSet {
  const coupon = couponPart(sheet, material);
  const forbidden = laserFacts(material.name, 'coupon');
  if (forbidden.length > 0) return { coupon, files: [], findings: sayAll(forbidden, wrapSayings) };
  const { value: sheets, facts } = nest([coupon.part], sheet, {
    kerf: 0,
    title: `coupon ${material.name}`,
    digest: '',
  });
  const { lines } = sheet;
  const files = sheets.flatMap((s): MadeFile[] => [
    { name: 'coupon.dxf', data: toDxf(s.drawing, { flavour, lines }), what: 'kerf and fit test piece' },
    { name: 'coupon.svg', data: toSvg(s.drawing, { lines }), what: 'the same as SVG' },
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
