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

/** Slugs of names, made different by a number where two are alike. */
export function uniqueSlugs(names: readonly string[]): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    const base = slugOf(name, 'fitting');
    let slug = base;
    for (let n = 2; taken.has(slug) || slug === 'lug' || slug.startsWith('lug-'); n++)
      slug = slug.startsWith('lug') && !slug.startsWith('fitting-') ? `fitting-${base}` : `${base}-${n}`;
    taken.add(slug);
    return slug;
  });
}
