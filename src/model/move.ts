import type { MachinePoint } from './frames.ts';

/** What a program does, step by step, after interpretation: absolute positions, mm, degrees, seconds. */
export type Move =
  | {
      readonly kind: 'rapid' | 'feed';
      readonly line: number;
      readonly from: MachinePoint;
      readonly to: MachinePoint;
      /** `per-minute`: mm/min along XYZ, or deg/min when only A moves; `inverse`: 1/min. Undefined for rapids. */
      readonly feed?: number;
      readonly feedMode?: 'per-minute' | 'inverse';
      readonly spindle: number;
      readonly tool: number;
    }
  | {
      readonly kind: 'arc';
      readonly line: number;
      readonly from: MachinePoint;
      readonly to: MachinePoint;
      readonly plane: 'xy' | 'xz' | 'yz';
      readonly center: readonly [number, number];
      /** Signed sweep in degrees, + anticlockwise seen from the + end of the plane's normal. */
      readonly sweep: number;
      readonly feed: number;
      readonly feedMode: 'per-minute' | 'inverse';
      readonly spindle: number;
      readonly tool: number;
    }
  | { readonly kind: 'dwell'; readonly line: number; readonly seconds: number; readonly at: MachinePoint }
  | {
      readonly kind: 'spindle';
      readonly line: number;
      readonly speed: number;
      readonly direction: 'cw' | 'ccw' | 'off';
    }
  | { readonly kind: 'tool'; readonly line: number; readonly tool: number }
  | { readonly kind: 'pause'; readonly line: number; readonly optional: boolean }
  | { readonly kind: 'end'; readonly line: number };
