import type { Scale } from './field.ts';

const UNITS: Readonly<Record<string, string>> = { cents: 'dollars', 'basis points': 'percent' };
const QUOTED = /("(?:[^"\\]|\\.)*")/;

/**
 * Says a refusal in the units that its field is typed in: the server counts cents and basis points, the page dollars
 * and percent. What stands in quotes is what was typed, and stays.
 */
export function inUnits(message: string, scale: Scale): string {
  if (scale === 'plain') return message;
  const decimals = scale === 'dollars' ? 2 : 0;
  const hundredth = (digits: string) => {
    const value = Number(digits.replaceAll(',', '')) / 100;
    const whole = Number.isInteger(value) ? 0 : decimals;
    return value.toLocaleString('en-US', { minimumFractionDigits: whole, maximumFractionDigits: 6 });
  };
  const said = (words: string) =>
    words
      .replace(/\b(low|likely|high)Cents\b/g, '$1')
      .replace(/(?<![\w.])\d+(?:,\d{3})*(?:\.\d+)?(?!\w)/g, hundredth)
      .replace(/\bbasis points\b|\bcents\b(?:, hours or parts)?/g, (unit) => UNITS[unit] ?? 'dollars');
  return message
    .split(QUOTED)
    .map((part, at) => (at % 2 === 1 ? part : said(part)))
    .join('');
}
