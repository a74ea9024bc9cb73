/** A day such as 2026-03-02, or a moment, as people read it: `Mar 2, 2026`. What is no date stays as it is. */
export function dayOf(iso: string): string {
  const day = new Date(iso.length > 10 ? iso : `${iso}T00:00:00`);
  return Number.isNaN(day.getTime()) ? iso : day.toLocaleDateString('en-US', { dateStyle: 'medium' });
}

/** The day that it is here, as YYYY-MM-DD. */
export function today(now = new Date()): string {
  const twoDigits = (part: number) => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${twoDigits(now.getMonth() + 1)}-${twoDigits(now.getDate())}`;
}

/** A moment as people here read it: `Mar 2, 2026, 2:32 PM`. What is no moment stays as it is. */
export function momentOf(iso: string): string {
  const moment = new Date(iso);
  if (Number.isNaN(moment.getTime())) return iso;
  return moment.toLocaleString('en-US', { dateStyle: 'medium', timeStyle: 'short' });
}
