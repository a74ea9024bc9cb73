import type { Scale } from './field.ts';

const UNITS: Readonly<Record<string, string>> = { cents: 'dollars', 'basis points': 'percent', chance: 'percent' };
const QUOTED = /("(?:[^"\\]|\\.)*")/;

/**
 * Says a refusal in the units that its field is typed in: the server counts cents, basis points and chances of 0 to 1,
 * the page dollars and percent, of which a whole cent or basis point is a hundredth. What stands in quotes is what was typed, and stays.
 */
export function inUnits(message: string, scale: Scale): string {
  if (scale === 'plain') return message;
  const decimals = scale === 'dollars' ? 2 : 0;
  const hundredth = (digits: string) => {
    const stated = Number(digits.replaceAll(',', ''));
    const value = scale === 'chance' ? Number((stated * 100).toFixed(6)) : stated / 100;
    const whole = Number.isInteger(value) ? 0 : decimals;
    return value.toLocaleString('en-US', { minimumFractionDigits: whole, maximumFractionDigits: 6 });
  };
  const said = (words: string) =>
    words
      .replace(/\b(low|likely|high)Cents\b/g, '$1')
      .replace(/(?<![\w.])\d+(?:,\d{3})*(?:\.\d+)?(?!\w)/g, hundredth)
      .replace(' (100 are one percent)', '')
      .replace(/\ba whole number of (cents|basis points)\b/g, 'a number of $1 with at most two decimals')
      .replace(/\bbasis points\b|\bchance\b|\bcents\b(?:, hours or parts)?/g, (unit) => UNITS[unit] ?? 'dollars');
  return message
    .split(QUOTED)
    .map((part, at) => (at % 2 === 1 ? part : said(part)))
    .join('');
}
