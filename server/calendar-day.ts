/** The day as people here write it in their calendars, as YYYY-MM-DD. */
export function dayOf(moment: Date): string {
  const two = (part: number) => String(part).padStart(2, '0');
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}
