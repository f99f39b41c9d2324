/** Names that some file systems keep for devices. */
const RESERVED = /^(?:con|prn|aux|nul|com\d|lpt\d)$/;

/**
 * A name safe as folder, file and XML id: small letters a-z, digits and single hyphens, starting with a letter, at most
 * 60 characters. Letters with marks lose them; everything else becomes a hyphen.
 */
export function slugOf(name: string, fallback = 'jig'): string {
  const plain = name
    .slice(0, 400)
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
    .replace(/-+$/, '');
  if (plain === '') return fallback;
  return /^[a-z]/.test(plain) && !RESERVED.test(plain) ? plain : `${fallback}-${plain}`;
}

/** Whether a slug cannot show all of a name: letters of another alphabet, signs and pictures. */
export const losesLetters = (name: string): boolean =>
  /[^\p{ASCII}\p{M}\p{Z}\p{Cf}\p{P}]|\p{Cc}/u.test(name.normalize('NFKD'));

/** Slugs of names, made different by a number where two are alike; never one that reads as a lug's. */
export function uniqueSlugs(names: readonly string[]): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    const plain = slugOf(name, 'fitting');
    const base = plain === 'lug' || plain.startsWith('lug-') ? `fitting-${plain}` : plain;
    let slug = base;
    for (let n = 2; taken.has(slug); n++) slug = `${base}-${n}`;
    taken.add(slug);
    return slug;
  });
}
