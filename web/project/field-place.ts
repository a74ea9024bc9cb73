/** What must be open on the screen so that a field can be seen; what is left out may stay as it is. */
export interface FieldPlace {
  /** From 0. */
  option?: number;
  /** From 0. */
  leg?: number;
  whoseRoute?: 'all' | 'own';
}

/** Which option, route and leg a field belongs to. */
export function placeOfField(path: string): FieldPlace {
  const [, option] = /^options\.(\d+)/.exec(path) ?? [];
  const [, owner, leg] = /^(?:options\.\d+\.)?(route)(?:\.(\d+))?/.exec(path) ?? [];
  const place: FieldPlace = leg === undefined ? {} : { leg: Number(leg) };
  if (option !== undefined) return { ...place, option: Number(option), ...(owner && { whoseRoute: 'own' }) };
  return owner ? { ...place, whoseRoute: 'all' } : place;
}

/** Brings the field of a path into view and into focus, or the nearest one above it. */
export function focusField(path: string): void {
  const steps = path.split('.');
  for (let length = steps.length; length > 0; length -= 1) {
    const nearest = steps.slice(0, length).join('.');
    const field =
      document.querySelector<HTMLElement>(`[data-path="${CSS.escape(nearest)}"]`) ??
      document.querySelector<HTMLElement>(`[data-path^="${CSS.escape(nearest)}."]`);
    if (!field) continue;
    for (let around = field.closest('details'); around; around = around.parentElement?.closest('details') ?? null) {
      around.setAttribute('open', '');
    }
    const focusable = field.matches('fieldset') ? (field.querySelector<HTMLElement>('input') ?? field) : field;
    focusable.focus();
    return;
  }
}
