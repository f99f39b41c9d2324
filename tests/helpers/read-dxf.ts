import parser, { type IDxf } from 'dxf-parser';

/** The reader's declarations put its class one step deeper than its module does. */
const DxfParser = parser as unknown as typeof parser.default;

/** A DXF as an independent reader sees it. Throws when that reader finds none. */
export function readDxf(text: string): IDxf {
  const parsed = new DxfParser().parseSync(text);
  if (parsed === null) throw new Error('no DXF');
  return parsed;
}
