import { type KeyboardEvent, memo } from 'react';
import { ageWords } from '../../server/drawing/age-words.ts';
import { exactDollars, number, unitPrice } from '../../server/drawing/wording.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import type { FieldProblem } from '../api.ts';
import { dayOf, today } from '../parts/dates.ts';
import type { Scale } from '../parts/field.ts';
import { asOwnPrice, withOwnPackage } from './own-price.ts';
import { PointCell } from './point-cell.tsx';
import { OFFER_FIELD, POINTS, type Point } from './points.ts';
import { isSteering, steer } from './steering.ts';
import type { Edit } from './use-attempts.ts';

/** What the lines of the table do; the same for all of them. */
export interface LineActions {
  edit: (item: PriceItem, edit: Edit) => void;
  /** Opens or shuts what stands below an item. */
  toggle: (key: string) => void;
  /** Marks an item, or no longer. */
  mark: (item: PriceItem, isMarked: boolean) => void;
  /** Marks everything from the item that was marked last to this one. */
  markUpTo: (key: string) => void;
}

interface LineProps {
  item: PriceItem;
  /** What the server refused of the item, by path; nothing of other items. */
  problems: readonly FieldProblem[] | undefined;
  actions: LineActions;
  /** A book of the past is only read. */
  isPast: boolean;
}

/** Cents are written as dollars; hours and factors as they are. */
export function scaleOf({ kind }: Pick<PriceItem, 'kind'>): Scale {
  return kind === 'price' || kind === 'rate' ? 'dollars' : 'plain';
}

/** What one of the points is counted in: `$ per ft`, `h per each`. */
function unitOf({ kind, unit }: PriceItem): string {
  if (kind === 'price') return `$ per ${unit}`;
  if (kind === 'rate') return '$ per hour';
  return kind === 'labor-unit' ? `h per ${unit}` : 'factor';
}

const problemAt = (problems: LineProps['problems'], path: string) =>
  problems?.find((problem) => problem.path === path)?.message;

/** The line of an item, its three points to be changed where they stand. */
export const ItemLine = memo(function ItemLine({
  item,
  problems,
  actions,
  isOpen,
  isMarked,
  isPast,
  message,
}: LineProps & { isOpen: boolean; isMarked: boolean; message: string | undefined }) {
  const scale = scaleOf(item);
  const { age, stale } = ageWords(item, today());
  return (
    <tr className={isMarked ? 'item marked' : 'item'} data-key={item.key}>
      <td className="mark">
        <input
          type="checkbox"
          disabled={isPast}
          tabIndex={-1}
          aria-label={`Mark ${item.description}`}
          checked={isMarked}
          onChange={(event) => actions.mark(item, event.currentTarget.checked)}
          onClick={(event) => event.shiftKey && actions.markUpTo(item.key)}
          onKeyDown={(event) => steerAndMark(event, item, actions)}
        />
      </td>
      <th scope="row">
        {isPast ? (
          item.description
        ) : (
          <button
            type="button"
            tabIndex={-1}
            aria-expanded={isOpen}
            onClick={() => actions.toggle(item.key)}
            onKeyDown={(event) => steerAndMark(event, item, actions)}
          >
            {item.description}
          </button>
        )}{' '}
        <small>{item.key}</small>
        {!item.available && <small className="unavailable"> not to be had</small>}
        {message !== undefined && <span className="word-problem block">{message}</span>}
      </th>
      <td className="wide-only quiet">{item.category}</td>
      <td className="quiet unit">
        {unitOf(item)}
        {stale !== undefined && <span className="narrow-only">, stale</span>}
      </td>
      {item.offers.length > 0 || isPast ? (
        <PricesOfPackages item={item} />
      ) : (
        POINTS.map((point) => (
          <PointCell
            key={point}
            label={`${point} of ${item.description}`}
            value={item[point]}
            scale={scale}
            problem={problemAt(problems, point)}
            onCommit={(value) => actions.edit(item, (now) => asOwnPrice({ ...now, [point]: value }))}
          />
        ))
      )}
      <td className="wide-only quiet age" title={`${dayOf(item.date)}, ${item.source}${stale ? `; ${stale}` : ''}`}>
        {stale === undefined ? age : <span className="stale">stale, {age}</span>}
      </td>
    </tr>
  );
});

/** Moves by the arrows; with Shift the lines that one leaves and comes to are marked. */
function steerAndMark(event: KeyboardEvent<HTMLElement>, item: PriceItem, actions: LineActions): void {
  if (!isSteering(event)) return;
  const isMarking = event.shiftKey && (event.key === 'ArrowDown' || event.key === 'ArrowUp');
  steer(event);
  if (!isMarking) return;
  actions.mark(item, true);
  const reached = document.activeElement?.closest<HTMLElement>('tr')?.dataset.key;
  if (reached !== undefined) actions.markUpTo(reached);
}

/** What a unit costs, only to be read: it follows from the packages below, and they are changed. */
function PricesOfPackages({ item }: { item: PriceItem }) {
  const title = item.offers.length > 0 ? 'follows from the packages below' : undefined;
  return POINTS.map((point) => (
    <td key={point} className={title ? 'figure follows' : 'figure'} title={title}>
      {scaleOf(item) === 'dollars' ? unitPrice(item[point]) : number(item[point], 4)}
    </td>
  ));
}

/** The line of one package, with its own three points. */
export const OfferLine = memo(function OfferLine({ item, at, problems, actions, isPast }: LineProps & { at: number }) {
  const offer = item.offers[at];
  if (!offer) return null;
  const withPoint = (now: PriceItem, point: Point, value: number) => {
    const at = now.offers.findIndex((one) => one.package === offer.package && one.quantity === offer.quantity);
    const changed = { ...offer, ...now.offers[at], [OFFER_FIELD[point]]: value };
    return withOwnPackage(now, now.offers.with(at, changed), changed);
  };
  return (
    <tr className="offer">
      <td className="mark" />
      <th scope="row">
        {offer.package}
        {!offer.available && <small className="unavailable"> not to be had</small>}
      </th>
      <td className="wide-only" />
      <td className="quiet unit">
        $ for {offer.quantity} {item.unit}
      </td>
      {POINTS.map((point) =>
        isPast ? (
          <td key={point} className="figure">
            {exactDollars(offer[OFFER_FIELD[point]])}
          </td>
        ) : (
          <PointCell
            key={point}
            label={`${point} of ${item.description}, ${offer.package}`}
            value={offer[OFFER_FIELD[point]]}
            scale="dollars"
            problem={problemAt(problems, `offers.${at}.${OFFER_FIELD[point]}`)}
            onCommit={(value) => actions.edit(item, (now) => withPoint(now, point, value))}
          />
        ),
      )}
      <td className="wide-only quiet age">
        {offer.date !== undefined && <PackageAge item={{ ...item, date: offer.date }} />}
      </td>
    </tr>
  );
});

/** How old the price of a package is, where it is not as old as its item. */
function PackageAge({ item }: { item: PriceItem }) {
  const { age, stale } = ageWords(item, today());
  return stale === undefined ? age : <span className="stale">stale, {age}</span>;
}
