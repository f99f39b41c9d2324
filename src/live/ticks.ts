/**
 * Ticks that stay after a reload. Kept in the browser's store under the plan's digest, so that a new plan starts clean;
 * where a browser keeps nothing for a page opened from disk, they go into the address after `#`, which a reload keeps.
 */
interface Store {
  readonly load: () => ReadonlySet<string>;
  readonly save: (ticked: ReadonlySet<string>) => void;
  readonly note: string;
}

export function keepTicks(digest: string): { readonly show: () => void } {
  const store = inBrowser(`bench ${digest}`) ?? inAddress(digest);
  const ticked = new Set(store.load());
  const show = (): void => {
    for (const box of document.querySelectorAll<HTMLInputElement>('input[data-tick]')) {
      box.checked = ticked.has(box.dataset['tick']!);
    }
    const note = document.getElementById('tick-note');
    if (note) note.textContent = store.note;
  };
  show();
  document.addEventListener('change', (event) => {
    const box = event.target;
    if (!(box instanceof HTMLInputElement) || box.dataset['tick'] === undefined) return;
    if (box.checked) ticked.add(box.dataset['tick']);
    else ticked.delete(box.dataset['tick']);
    store.save(ticked);
  });
  return { show };
}

function inBrowser(key: string): Store | undefined {
  try {
    const probe = `${key} probe`;
    localStorage.setItem(probe, '1');
    localStorage.removeItem(probe);
  } catch {
    return undefined;
  }
  return {
    load: () => parse(localStorage.getItem(key)),
    save: (ticked) => {
      try {
        localStorage.setItem(key, JSON.stringify([...ticked]));
      } catch {
        // A full store: the tick stays on the screen; nothing else can be done here.
      }
    },
    note: 'Ticks are kept on this device, for this plan.',
  };
}

/** `#ticks=<digest>:<name>,<name>`; other fragments (links inside the page) are left alone until the next tick. */
function inAddress(digest: string): Store {
  const mark = `#ticks=${digest.slice(0, 12)}:`;
  return {
    load: () =>
      new Set(
        location.hash.startsWith(mark) ? location.hash.slice(mark.length).split(',').map(decodeURIComponent) : [],
      ),
    save: (ticked) => history.replaceState(null, '', mark + [...ticked].map(encodeURIComponent).join(',')),
    note: 'This browser keeps nothing for pages opened from disk: your ticks stand in the address line and stay when you reload.',
  };
}

function parse(text: string | null): ReadonlySet<string> {
  try {
    const value: unknown = JSON.parse(text ?? '[]');
    return new Set(Array.isArray(value) ? value.filter((v) => typeof v === 'string') : []);
  } catch {
    return new Set();
  }
}
