/**
 * A zip archive of stored (uncompressed) entries, after PKWARE's APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16. Dates
 * are the format's first day, so that the same input gives the same bytes.
 */
export function zipStored(entries: readonly { readonly name: string; readonly data: Uint8Array }[]): Uint8Array {
  const parts: Uint8Array[] = [];
  const directory: Uint8Array[] = [];
  let offset = 0;
  for (const { name, data } of entries) {
    const label = new TextEncoder().encode(name);
    const common = fields([
      [2, 20],
      [2, UTF8],
      [2, STORED],
      [2, 0],
      [2, FIRST_DAY],
      [4, crc32(data)],
      [4, data.length],
      [4, data.length],
      [2, label.length],
      [2, 0],
    ]);
    const local = joinBytes([fields([[4, 0x04034b50]]), common, label, data]);
    const tail = fields([
      [2, 0],
      [2, 0],
      [2, 0],
      [4, 0],
      [4, offset],
    ]);
    directory.push(
      joinBytes([
        fields([
          [4, 0x02014b50],
          [2, 20],
        ]),
        common,
        tail,
        label,
      ]),
    );
    parts.push(local);
    offset += local.length;
  }
  const index = joinBytes(directory);
  const end = fields([
    [4, 0x06054b50],
    [2, 0],
    [2, 0],
    [2, entries.length],
    [2, entries.length],
    [4, index.length],
    [4, offset],
    [2, 0],
  ]);
  return joinBytes([...parts, index, end]);
}

const UTF8 = 0x0800;
const STORED = 0;
/** 1 January 1980 in the format's packed date. */
const FIRST_DAY = 0x0021;

/** Little-endian fields, each of so many bytes. */
function fields(list: readonly (readonly [bytes: number, value: number])[]): Uint8Array {
  const out = new Uint8Array(list.reduce((sum, [bytes]) => sum + bytes, 0));
  let at = 0;
  for (const [bytes, value] of list) for (let i = 0; i < bytes; i++) out[at++] = (value >>> (8 * i)) & 0xff;
  return out;
}

function joinBytes(list: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(list.reduce((sum, b) => sum + b.length, 0));
  let at = 0;
  for (const b of list) {
    out.set(b, at);
    at += b.length;
  }
  return out;
}

let table: Uint32Array | undefined;

/** CRC-32 of ISO 3309 (polynomial 0xEDB88320 reflected), unsigned. */
export function crc32(data: Uint8Array): number {
  table ??= Uint32Array.from({ length: 256 }, (_, n) => {
    let c = n;
    for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
    return c;
  });
  let crc = 0xffffffff;
  for (const byte of data) crc = (table[(crc ^ byte) & 0xff] as number) ^ (crc >>> 8);
  return (crc ^ 0xffffffff) >>> 0;
}
