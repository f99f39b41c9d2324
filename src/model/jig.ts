import type { Deg, Mm } from '../units/scalar.ts';
import type { Accuracy, Method } from './accuracy.ts';
import type { Machine, Tool } from './machine.ts';
import type { PaperProfile, SheetMaterial, SheetProfile } from './sheet.ts';
import type { Thread } from './thread.ts';

export type { Method } from './accuracy.ts';

/** What a height is measured from; from the middle, positive is towards the top. */
export type Edge = 'top' | 'bottom' | 'middle';
export type Build = 'ply' | 'stave' | 'steam-bent' | 'segment';
export type Role = 'strainer' | 'butt' | 'vent' | 'badge' | 'bracket' | 'leg' | 'spur' | 'other';

export interface Ring {
  readonly width: Mm;
  readonly thickness: Mm;
  /** Angle of the glue joint where the ring's ends meet. */
  readonly joint?: Deg;
}

export interface OldHole {
  readonly angle: Deg;
  readonly height: Mm;
  readonly diameter: Mm;
}

/** The drum's wall, a round cylinder. Lengths in mm. */
export interface Shell {
  /** Outside radius R of the shell as it will be drilled (covering included). */
  readonly radius: Mm;
  /** Inside radius Ri = R - wall. */
  readonly inside: Mm;
  readonly wall: Mm;
  readonly depth: Mm;
  /** Outside girth, 2 pi R. */
  readonly girth: Mm;
  readonly nominal?: Mm;
  readonly wood?: string;
  readonly build?: Build;
  /** Largest minus smallest of four diameters. */
  readonly round?: Mm;
  /** Largest minus smallest of four depths. */
  readonly square?: Mm;
  readonly edges?: 'cut' | 'uncut';
  readonly skin?: { readonly thickness: Mm; readonly when: 'before' | 'after' };
  readonly rings: { readonly top?: Ring; readonly bottom?: Ring };
  readonly joints: readonly Deg[];
  readonly holes: readonly OldHole[];
}

/** A hole of a pattern, from the pattern's origin, as the fitting sits on the shell, top up, seen from outside. */
export interface PatternPoint {
  /** Straight across the hardware to the right, as a caliper measures. */
  readonly across: Mm;
  /** Along the shell's axis, up. */
  readonly upright: Mm;
}

export interface Screw {
  /** As written, e.g. `M4 x 16`. */
  readonly text: string;
  readonly thread: Thread;
  /** Under the head. */
  readonly length: Mm;
}

export interface Pattern {
  readonly layout: 'single' | 'upright' | 'across' | 'grid' | 'points';
  readonly points: readonly PatternPoint[];
  readonly drill: Mm;
  readonly pilot?: Mm;
  readonly screw?: Screw;
  /** Depth of thread in the casting. */
  readonly tapped?: Mm;
  /** Washer inside the shell, under the screw's head or its nut. */
  readonly washer?: Mm;
  /** A screw put in from outside, through `through` of casting, with a nut of this thickness inside. */
  readonly bolt?: { readonly through?: Mm; readonly nut: Mm };
  readonly axes: 'parallel' | 'radial';
}

/** Outline of a casting's foot from the pattern's origin, seen from outside, top up (already turned for a turned row). */
export interface Foot {
  readonly left: Mm;
  readonly right: Mm;
  readonly up: Mm;
  readonly down: Mm;
  readonly shape: 'rectangle' | 'ellipse';
  /** Corner radius of a rectangle. */
  readonly corner: Mm;
  /** True outline when given, counter-clockwise; `left`… are its box. */
  readonly outline?: readonly PatternPoint[];
  readonly gasket: Mm;
  /** `flat` rocks on the round shell, `curved` follows it. */
  readonly face?: 'flat' | 'curved';
  /** How far the casting stands out from the shell. */
  readonly stands?: Mm;
}

/** What a caliper reaches on a lug. */
export interface LugRod {
  /** Pattern origin to the lug's end face on the rim side. */
  readonly face: Mm;
  /** Depth below the face where the first thread bites. */
  readonly catch: Mm;
  /** Depth below the face where the rod stops. */
  readonly bottom: Mm;
  readonly takes?: Thread;
  /** Foot face to rod centre. */
  readonly standoff?: Mm;
}

export interface LugRow {
  /** Unique name of the row: `top`, `bottom`, `middle`, with a number when there are several. */
  readonly name: string;
  readonly edge: Edge;
  readonly distance: Mm;
  /** Height of the pattern's origin above the bottom edge. */
  readonly height: Mm;
  readonly count: number;
  readonly first: Deg;
  /** Turned by 180 deg on the shell (rows measured from the bottom edge). `points` and `foot` are turned already. */
  readonly turned: boolean;
  readonly holes: Pattern;
  readonly foot?: Foot;
  readonly rod?: LugRod;
}

export interface Fitting {
  readonly name: string;
  readonly role: Role;
  readonly at: readonly Deg[];
  readonly edge: Edge;
  readonly distance: Mm;
  readonly height: Mm;
  readonly holes: Pattern;
  readonly foot?: Foot;
  /** Straight-across offset of the strap's line from the pattern's origin, + to the right (strainer, butt). */
  readonly snareLine?: Mm;
  /** How far the strainer drops when off. */
  readonly drop?: Mm;
  /** Outline swept by the lever when open; `clear`: the gap it leaves over the shell. */
  readonly lever?: Foot & { readonly clear?: Mm };
  /** A leg or spur rod: its diameter, its line's offset across from the pattern's origin, its gap over the shell. */
  readonly rod?: { readonly diameter: Mm; readonly across: Mm; readonly clear?: Mm };
}

export interface Rods {
  readonly length: { readonly top?: Mm; readonly bottom?: Mm };
  readonly thread?: Thread;
  /** Threaded length from the tip. */
  readonly threaded?: Mm;
  readonly washer: Mm;
  /** From finger tight to full tension, in mm. */
  readonly travel: Mm;
  readonly stock: readonly Mm[];
}

export interface Hoop {
  readonly ear?: Mm;
  readonly skirt?: Mm;
  readonly ears?: number;
  readonly earCircle?: Mm;
  /** Openings in the hoop for the snare strap. */
  readonly gates: readonly { readonly at: Deg; readonly width: Mm }[];
  /** Hoop's inside diameter, for shell and head fit. */
  readonly inside?: Mm;
}

/** The workshop's own limits where they differ from common practice; each alone may be given. */
export interface Limits {
  /** Turns a rod has bitten when finger tight. */
  readonly firstTurns?: number;
  /** Rod or screw diameters of thread engaged at full tension: below `engage` too short, below `engageWell` look twice. */
  readonly engage?: number;
  readonly engageWell?: number;
  /** Kept free below the tip of a rod at full tension. */
  readonly reserve?: Mm;
  /** Lean of a rod: above `lean` look twice, above `bind` it binds. */
  readonly lean?: Deg;
  readonly bind?: Deg;
  /** Kept free between hoop skirt and lug at full tension. */
  readonly skirtGap?: Mm;
  /** Between two feet, and between two holes: look twice below. */
  readonly footGap?: Mm;
  readonly land?: Mm;
  /** Out of round and out of square that passes without a word. */
  readonly round?: Mm;
  readonly square?: Mm;
  /** Strap lines of strainer and butt off opposite: above `facing` look twice, above `facingBad` the snares lie askew. */
  readonly facing?: Deg;
  readonly facingBad?: Deg;
}

export interface Climate {
  /** deg C. */
  readonly temperature: number;
  /** Relative humidity, %. */
  readonly humidity: number;
}

export type MarkStyle = 'guide' | 'punch' | 'cross';

export interface WrapSpec {
  readonly material: SheetMaterial;
  /** Measured thickness of the sheet. */
  readonly thickness: Mm;
  readonly sheet: SheetProfile;
  readonly paper: PaperProfile;
  readonly seam: 'butt' | 'overlap';
  /** Where the seam is wanted; searched when not given. */
  readonly seamAt?: Deg;
  readonly marks: MarkStyle;
  readonly asked: boolean;
}

export interface Bushing {
  readonly inside: Mm;
  readonly outside: Mm;
  readonly length: Mm;
  /** Pressed into a bore of its size, or bedded in glue in a wider one; by the way of cutting when not said. */
  readonly fit?: 'pressed' | 'bedded';
}

export interface CollarSpec {
  readonly material: SheetMaterial;
  /** Measured thickness of the sheet. */
  readonly thickness: Mm;
  readonly sheet: SheetProfile;
  readonly build: 'rings' | 'sector';
  readonly bushing?: Bushing;
  /** Radial gap between the ring and the largest shell. */
  readonly clearance: Mm;
  readonly cut: 'laser' | 'router';
  /** How the last ring holds and centres the shell; chosen by the batch's girth range when not said. */
  readonly hold?: 'wedges' | 'bolts';
  /** Layers glued into a whole ring; chosen by the sheet's thickness when not said. Jointed rings always have two. */
  readonly layers?: 1 | 2;
  readonly asked: boolean;
}

export interface RotarySpec {
  readonly machine: Machine;
  readonly datum: 'top' | 'bottom';
  /** Thickness of the backing block inside the shell; 0 = none. */
  readonly backing: Mm;
  /** Largest minus smallest skin height while turning. */
  readonly runout: Mm;
  readonly tools: readonly Tool[];
  readonly asked: boolean;
}

/** Something the builder did not write and the program filled in. */
export interface Assumption {
  /** Key path in the jig file, e.g. `rods.travel`. */
  readonly key: string;
  /** Value in words, e.g. `3 turns`. */
  readonly value: string;
  readonly why: string;
}

/**
 * The jig file after reading: every length in mm, every angle in degrees, every default filled in. What the builder
 * left out and has no sound default stays `undefined`: a check that needs it says "not checked: needs …".
 */
export interface Jig {
  readonly name: string;
  /** Safe folder and file name made from `name`. */
  readonly slug: string;
  readonly units: 'mm' | 'in';
  readonly shell: Shell;
  readonly ends: 'one' | 'both';
  readonly rows: readonly LugRow[];
  readonly fittings: readonly Fitting[];
  readonly rods?: Rods;
  readonly hoops: { readonly top?: Hoop; readonly bottom?: Hoop };
  readonly beds?: { readonly width: Mm; readonly depth: Mm };
  readonly snare?: { readonly length: Mm };
  readonly climate?: { readonly workshop: Climate; readonly home: Climate };
  readonly batch?: { readonly girth: readonly [Mm, Mm]; readonly count: number };
  readonly method?: Method;
  readonly limits?: Limits;
  readonly accuracy?: Accuracy;
  readonly wrap: WrapSpec;
  readonly collar: CollarSpec;
  readonly rotary: RotarySpec;
  readonly assumptions: readonly Assumption[];
  /** Line of the jig file for a key path such as `lugs.rows.0` or `fittings.2.holes`, when read from text. */
  readonly lines: Readonly<Record<string, number>>;
}
