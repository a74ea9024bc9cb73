import type { Section } from '../plan-types.ts';
import { CONDUCTOR_SIZES, type ConductorSize, TRADE_SIZES, type TradeSize } from '../vocabulary.ts';

const ordinal = (size: ConductorSize) => CONDUCTOR_SIZES.indexOf(size);

/** Is the conductor no larger than a size? */
export function isUpTo(size: ConductorSize, most: ConductorSize): boolean {
  return ordinal(size) <= ordinal(most);
}

/** How the price book groups the work on single conductors: `12-10`, `8-6`, `4-2`, `1-2_0`, `3_0-250` and larger. */
export function workClass(size: ConductorSize): '12-10' | '8-6' | '4-2' | '1-2_0' | '3_0-250' {
  if (isUpTo(size, '10')) return '12-10';
  if (isUpTo(size, '6')) return '8-6';
  if (isUpTo(size, '2')) return '4-2';
  return isUpTo(size, '2/0') ? '1-2_0' : '3_0-250';
}

/** How the price book groups the running of cable: by its size; service-entrance cable is never among the small. */
export function cableTask({ cable, size }: Section): string {
  if (isUpTo(size, '10') && cable?.form !== 'ser') return 'cable-open-small';
  if (isUpTo(size, '6')) return 'cable-open-8-6';
  return isUpTo(size, '2/0') ? 'cable-open-large' : 'cable-open-4_0';
}

/** Is it a thick cable, that asks for a hole above 1 in? Common practice, no source. */
export function isThick({ cable, size }: Section): boolean {
  return cable?.form === 'ser' || cable?.form === 'mhf' || !isUpTo(size, '6');
}

/** How the price book groups the laying of raceway. */
export function racewayClass(tradeSize: TradeSize): 'small' | 'medium' | 'large' {
  const at = TRADE_SIZES.indexOf(tradeSize);
  if (at <= TRADE_SIZES.indexOf('1')) return 'small';
  return at <= TRADE_SIZES.indexOf('2') ? 'medium' : 'large';
}

/** Inches of a trade size. */
export function tradeSizeIn(tradeSize: TradeSize): number {
  const [whole = '0', fraction] = tradeSize.split('-');
  const parts = (text: string) => {
    const [over = '0', under = '1'] = text.split('/');
    return Number(over) / Number(under);
  };
  return parts(whole) + (fraction ? parts(fraction) : 0);
}

/** The larger of two trade sizes. */
export function largerTradeSize(a: TradeSize, b: TradeSize): TradeSize {
  return TRADE_SIZES.indexOf(a) >= TRADE_SIZES.indexOf(b) ? a : b;
}
