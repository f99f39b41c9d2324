/**
 * Small pieces of SVG text. Pictures are strings so that the same code draws in Node and in the page; they carry classes
 * and no `style` attributes, for the page's security policy refuses those.
 */
export type Attrs = Readonly<Record<string, string | number | undefined>>;

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it removes
const FORBIDDEN = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F\uFFFE\uFFFF]|\p{Surrogate}/gu;
const BIDI = /[\u200E\u200F\u061C\u202A-\u202E\u2066-\u2069]/g;
const MARKUP: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Any text as text: markup shown as written, characters that XML forbids replaced. Safe inside quoted attributes too. */
export function esc(text: string): string {
  return text.replace(FORBIDDEN, '\uFFFD').replace(/[&<>"']/g, (c) => MARKUP[c]!);
}

/** Text without direction controls, for places that cannot isolate them (titles, SVG labels). */
export const plain = (text: string): string => text.replace(BIDI, '').replace(/\s+/g, ' ');

/** At most `most` characters, never cutting through a joined emoji or a letter and its accent. */
export function clip(text: string, most: number): string {
  if (text.length <= most) return text;
  const chars = [...text.slice(0, most * 4 + 4)];
  if (chars.length <= most && text.length <= most * 4 + 4) return text;
  let end = most - 1;
  while (end > 0 && (isJoined(chars[end]!) || chars[end - 1] === '\u200D')) end--;
  return `${chars.slice(0, Math.max(1, end)).join('')}…`;
}

const isJoined = (char: string): boolean => /^(?:\p{M}|\u200D|\uFE0F|[\u{1F3FB}-\u{1F3FF}])/u.test(char);

/** A coordinate with at most two decimals: a hundredth of a millimetre, finer than any screen here. */
export function n(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return Object.is(rounded, -0) ? '0' : String(rounded);
}

export function el(name: string, attrs: Attrs, ...children: readonly string[]): string {
  let out = `<${name}`;
  for (const key in attrs) {
    const value = attrs[key];
    if (value !== undefined) out += ` ${key}="${typeof value === 'number' ? n(value) : esc(value)}"`;
  }
  return children.length === 0 ? `${out}/>` : `${out}>${children.join('')}</${name}>`;
}

/** A label; user text loses its direction controls. `size` in drawing units. */
export const label = (x: number, y: number, text: string, cls: string, size: number, extra: Attrs = {}): string =>
  el('text', { x, y, class: cls, 'font-size': size, ...extra }, esc(plain(text)));

export const line = (x1: number, y1: number, x2: number, y2: number, cls: string): string =>
  el('path', { class: cls, d: `M${n(x1)} ${n(y1)}L${n(x2)} ${n(y2)}` });

/** Room for the longest of some labels; 0.6 of the height a letter is wide for any common sans serif face. */
export const wordWidth = (texts: readonly string[], size: number): number =>
  Math.max(0, ...texts.map((t) => t.length)) * size * 0.6;

export interface Frame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A whole picture with its spoken title; `box` in drawing units (mm). */
export function picture(box: Frame, title: string, cls: string, body: string): string {
  return el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `${n(box.x)} ${n(box.y)} ${n(box.width)} ${n(box.height)}`,
      class: `picture ${cls}`,
      role: 'img',
      'aria-label': plain(title),
    },
    body,
  );
}

/** Moves labels apart along one axis so that none is closer than `gap` to the next; order is kept. */
export function spread(at: readonly number[], gap: number): readonly number[] {
  const order = at.map((value, index) => ({ value, index })).sort((a, b) => a.value - b.value || a.index - b.index);
  const out = [...at];
  let groups = order.map((o) => ({ sum: o.value, count: 1, center: o.value }));
  for (let changed = true; changed; ) {
    changed = false;
    const next: typeof groups = [];
    for (const group of groups) {
      const last = next[next.length - 1];
      if (last && group.center - last.center < ((last.count + group.count) / 2) * gap - 1e-6 * gap) {
        const sum = last.sum + group.sum;
        const count = last.count + group.count;
        next[next.length - 1] = { sum, count, center: sum / count };
        changed = true;
      } else next.push(group);
    }
    groups = next;
  }
  let i = 0;
  for (const group of groups) {
    for (let k = 0; k < group.count; k++, i++) {
      out[order[i]!.index] = group.center + (k - (group.count - 1) / 2) * gap;
    }
  }
  return out;
}
