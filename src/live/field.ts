import type { JigIssue } from '../jig/complaint.ts';

/** A complaint about one key in the words of the command line, without the place. */
export const complaint = (issue: JigIssue): string => `${issue.found}. Allowed: ${issue.allowed}. Try: ${issue.try}.`;

/** Puts words beside a field, or takes them away. */
export function complain(input: HTMLInputElement, text: string): void {
  const place = document.getElementById(`${input.id}-wrong`);
  if (place && place.textContent !== text) place.textContent = text;
  if (text === '') input.removeAttribute('aria-invalid');
  else input.setAttribute('aria-invalid', 'true');
}

/** The number one up or down, half a unit for lengths with a unit and one for counts; fractions are left alone. */
export function step(value: string, by: number): string | undefined {
  const m = /^\s*(-?\d+(?:\.\d+)?)(\s*(?:mm|cm|in|deg)?)\s*$/.exec(value);
  if (!m) return undefined;
  const unit = m[2]!;
  const size = unit.trim() === 'mm' ? 0.5 : unit.trim() === 'in' ? 0.0625 : 1;
  return `${Math.round((Number(m[1]) + by * size) * 1e4) / 1e4}${unit}`;
}

export function download(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
