import type { PageTemplate } from './data.ts';

/**
 * Content security policy of the page (Content Security Policy Level 3): nothing from anywhere, only the style and the
 * scripts that the build hashed. Data stands in a script element of a data type, which does not run.
 */
export function policy(template: PageTemplate): string {
  const packed = [template.again, ...(template.solid ? [template.solid] : [])];
  const scripts = [template.scriptHash, ...packed.map((p) => p.hash)].map((h) => `'${h}'`);
  return [
    "default-src 'none'",
    `script-src ${scripts.join(' ')}`,
    `style-src '${template.styleHash}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

/** JSON that can stand inside a script element: no `<`, no line separators that old parsers trip on. */
export const dataText = (value: unknown): string =>
  JSON.stringify(value).replace(/[<\u2028\u2029]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`);
