/** What the tests use of readers that come without types. */
declare module 'dxf' {
  interface Box {
    min: { x: number; y: number };
    max: { x: number; y: number };
  }
  export class Helper {
    constructor(text: string);
    readonly parsed: { header: { insUnits?: number }; entities: { type: string; layer: string }[] };
    toPolylines(): { bbox: Box; polylines: { vertices: [number, number][]; layer: string }[] };
  }
}

declare module 'svg-path-parser' {
  export function parseSVG(d: string): { code: string; x?: number; y?: number }[];
}

declare module 'gcode-parser' {
  export function parseLine(line: string): {
    line: string;
    words: (readonly [string, number | string])[];
    comments?: string[];
  };
}

declare module 'gcode-interpreter' {
  export default class Interpreter {
    constructor(options: { handlers: Record<string, (words: Record<string, number>) => void> });
    loadFromStringSync(text: string): void;
  }
}
