import type { Finding } from './answer.ts';
import type { MaterialDemand } from './plan-types.ts';
import type { Book, Spec } from './price-book.ts';
import { counted } from './takeoff/demand.ts';
import { TRADE_SIZES } from './vocabulary.ts';

type SpecOf<Is extends Spec['is']> = Extract<Spec, { is: Is }>;
/** What lies beyond what is sold: in words that follow "The price book sells no", and the ends of what it does sell. */
interface Beyond {
  rule: string;
  asked: string;
  sold: string;
  remedy: string;
}

/**
 * Decides which things of a take-off are larger, or smaller, than any of their kind in the price book: each is a `stop`,
 * since nobody sells it. A size in between that the book lacks is no stop but a line without a price; so is a kind of
 * which the book has nothing at all. Conductors are not judged here: the planner chooses them among the sold ones.
 */
export function beyondSoldFindings(demands: readonly MaterialDemand[], book: Book): Finding[] {
  const findings = demands.flatMap(({ spec, legs: [leg] }) => {
    const beyond = book.bySpec(spec) ? undefined : beyondSold(spec, book);
    return beyond ? [stopOf(beyond, leg)] : [];
  });
  return findings.filter(({ message }, at) => findings.findIndex((other) => other.message === message) === at);
}

function stopOf({ rule, asked, sold, remedy }: Beyond, leg: number | undefined): Finding {
  return {
    rule,
    severity: 'stop',
    message: `The price book sells no ${asked}: ${sold}. ${remedy}, or add it to the price book.`,
    numbers: { asked },
    ...(leg !== undefined && { leg }),
  };
}

function beyondSold(spec: Spec, book: Book): Beyond | undefined {
  switch (spec.is) {
    case 'breaker':
      return breakerBeyond(spec, book);
    case 'panel':
      return panelBeyond(spec, book);
    case 'raceway':
    case 'fitting':
      return racewayBeyond(spec, book);
    default:
      return undefined;
  }
}

/** Specs of the available items of one kind. */
function soldOf<Is extends Spec['is']>(is: Is, { items }: Book): SpecOf<Is>[] {
  return items.flatMap(({ spec, available }) => (available && spec?.is === is ? [spec as SpecOf<Is>] : []));
}

function breakerBeyond({ ratingA, poles, gfci }: SpecOf<'breaker'>, book: Book): Beyond | undefined {
  const ratings = soldOf('breaker', book)
    .filter((sold) => sold.poles === poles && sold.gfci === gfci)
    .map((sold) => sold.ratingA);
  const [least, most] = [Math.min(...ratings), Math.max(...ratings)];
  if (ratings.length === 0 || (least <= ratingA && ratingA <= most)) return undefined;
  return {
    rule: 'breaker-not-sold',
    asked: `breaker of ${ratingA} A with ${counted(poles, 'pole')}${gfci ? ' and ground-fault protection' : ''}`,
    sold: `its kind goes from ${least} to ${most} A`,
    remedy: 'Choose other amperes',
  };
}

function panelBeyond(asked: SpecOf<'panel'>, book: Book): Beyond | undefined {
  const panels = soldOf('panel', book).filter(
    ({ enclosure, mainBreaker }) => enclosure === asked.enclosure && (mainBreaker || !asked.mainBreaker),
  );
  const fits = panels.some(({ ratingA, spaces }) => ratingA >= asked.ratingA && spaces >= asked.spaces);
  if (panels.length === 0 || fits) return undefined;
  const mostA = Math.max(...panels.map(({ ratingA }) => ratingA));
  const mostSpaces = Math.max(...panels.map(({ spaces }) => spaces));
  const place = asked.enclosure === 'outdoor' ? 'rainproof' : 'indoor';
  return {
    rule: 'panel-not-sold',
    asked: `${place} panel of ${asked.ratingA} A with ${counted(asked.spaces, 'space')}${asked.mainBreaker ? ' and a main breaker' : ''}`,
    sold: `its kind has at most ${mostA} A and ${counted(mostSpaces, 'space')}`,
    remedy: 'Choose a smaller panel',
  };
}

function racewayBeyond(spec: SpecOf<'raceway'> | SpecOf<'fitting'>, book: Book): Beyond | undefined {
  const sizes = soldOf(spec.is, book)
    .filter((sold) => sold.type === spec.type && (spec.is === 'raceway' || pieceOf(sold) === spec.piece))
    .map(({ tradeSize }) => TRADE_SIZES.indexOf(tradeSize));
  const most = Math.max(...sizes);
  if (sizes.length === 0 || TRADE_SIZES.indexOf(spec.tradeSize) <= most) return undefined;
  return {
    rule: 'conduit-not-sold',
    asked: `${spec.type} ${spec.is === 'fitting' ? `${spec.piece} ` : ''}of ${spec.tradeSize} in`,
    sold: `its kind ends at ${TRADE_SIZES[most]} in`,
    remedy: 'Choose a smaller trade size or another method',
  };
}

const pieceOf = (spec: SpecOf<'raceway'> | SpecOf<'fitting'>) => (spec.is === 'fitting' ? spec.piece : undefined);
