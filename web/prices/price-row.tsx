import { type KeyboardEvent, useState } from 'react';
import { unitPrice } from '../../server/drawing/wording.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import type { FieldProblem } from '../api.ts';
import { dayOf, today } from '../parts/dates.ts';
import { read, type Scale, written } from '../parts/field.ts';
import { inUnits } from '../parts/in-units.ts';
import { TextButton } from '../parts/word-fields.tsx';
import { ItemOrigin } from './item-origin.tsx';
import { OFFER_FIELD, POINTS, type Point } from './points.ts';
import { PriceHistory } from './price-history.tsx';

/** What a price row does with a changed item. */
export interface PriceRowProps {
  item: PriceItem;
  /** What is said of the whole row, and of its fields by path. */
  problem: string | undefined;
  problems: readonly FieldProblem[];
  isOpen: boolean;
  onToggle: () => void;
  onChange: (item: PriceItem) => void;
  onRemove: () => void;
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

/** A price that somebody changes is of today and their own, until they say whose. */
function asOwnPrice(item: PriceItem): PriceItem {
  return { ...item, date: today(), source: 'own price' };
}

/** An item of the price book, its three points to be changed where they stand, and the packages that it is sold in. */
export function PriceRow({ item, problem, problems, isOpen, onToggle, onChange, onRemove }: PriceRowProps) {
  const scale = scaleOf(item);
  return (
    <>
      <tr className="item">
        <th scope="row">
          <button type="button" aria-expanded={isOpen} onClick={onToggle}>
            {item.description}
          </button>{' '}
          <small>{item.key}</small>
          <small className="narrow-only"> {unitOf(item)}</small>
          {!item.available && <small className="lacking"> not to be had</small>}
          {problem !== undefined && <span className="word-problem block">{problem}</span>}
        </th>
        <td className="wide-only">{item.category}</td>
        <td className="wide-only">{unitOf(item)}</td>
        {item.offers.length > 0 ? (
          <PricesOfPackages item={item} />
        ) : (
          POINTS.map((point) => (
            <PointCell
              key={point}
              label={`${point} of ${item.description}`}
              value={item[point]}
              scale={scale}
              problem={problems.find(({ path }) => path === point)?.message}
              onCommit={(value) => onChange(asOwnPrice({ ...item, [point]: value }))}
            />
          ))
        )}
      </tr>
      {item.offers.map((offer, at) => (
        <OfferRow
          key={`${offer.package} ${offer.quantity}`}
          item={item}
          at={at}
          problems={problems}
          onChange={onChange}
        />
      ))}
      {isOpen && (
        <tr className="item-more">
          <td colSpan={6}>
            <p className="commands">
              {item.region}, {dayOf(item.date)}. <ItemOrigin item={item} problems={problems} onChange={onChange} />{' '}
              <TextButton onPress={() => onChange({ ...item, available: !item.available })}>
                {item.available ? 'mark as not to be had' : 'mark as to be had again'}
              </TextButton>{' '}
              <TextButton label={`Remove ${item.description}`} onPress={onRemove}>
                remove it from the book
              </TextButton>
            </p>
            <PriceHistory item={item} />
          </td>
        </tr>
      )}
    </>
  );
}

/** What a unit costs: it follows from the packages below, and they are changed. */
function PricesOfPackages({ item }: { item: PriceItem }) {
  return POINTS.map((point) => (
    <td key={point} className="figure follows" title="follows from the packages below">
      {unitPrice(item[point])}
    </td>
  ));
}

/** One package of an item, with its own three points. */
function OfferRow({
  item,
  at,
  problems,
  onChange,
}: Pick<PriceRowProps, 'item' | 'problems' | 'onChange'> & { at: number }) {
  const offer = item.offers[at];
  if (!offer) return null;
  const withPoint = (point: Point, value: number) =>
    item.offers.map((each, other) => (other === at ? { ...each, [OFFER_FIELD[point]]: value } : each));
  return (
    <tr className="offer">
      <th scope="row">{offer.package}</th>
      <td className="wide-only" />
      <td className="wide-only">
        $ for {offer.quantity} {item.unit}
      </td>
      {POINTS.map((point) => (
        <PointCell
          key={point}
          label={`${point} of ${item.description}, ${offer.package}`}
          value={offer[OFFER_FIELD[point]]}
          scale="dollars"
          problem={problems.find(({ path }) => path === `offers.${at}.${OFFER_FIELD[point]}`)?.message}
          onCommit={(value) => onChange(asOwnPrice({ ...item, offers: withPoint(point, value) }))}
        />
      ))}
    </tr>
  );
}

interface PointCellProps {
  label: string;
  value: number;
  scale: Scale;
  problem: string | undefined;
  onCommit: (value: number) => void;
}

function PointCell({ label, value, scale, problem, onCommit }: PointCellProps) {
  const [typed, setTyped] = useState<string>();
  const [known, setKnown] = useState(value);
  if (value !== known) {
    setKnown(value);
    setTyped(undefined);
  }
  const commit = () => {
    if (typed === undefined) return;
    const meant = read(typed, { scale, emptied: 'missing' });
    if (meant === value) setTyped(undefined);
    else onCommit(meant as number); // what is no number goes as it was typed: the server refuses it at its path
  };
  const steer = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Escape') setTyped(undefined);
    if (event.key === 'Enter') commit();
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      sameColumn(event.currentTarget, event.key === 'ArrowDown' ? 1 : -1)?.focus();
    }
  };
  return (
    <td className="figure">
      <input
        className="point"
        aria-label={label}
        aria-invalid={problem !== undefined}
        inputMode="decimal"
        autoComplete="off"
        value={typed ?? priceText(value, scale)}
        onChange={(event) => setTyped(event.currentTarget.value)}
        onFocus={(event) => event.currentTarget.select()}
        onBlur={commit}
        onKeyDown={steer}
      />
      {problem !== undefined && <span className="word-problem">{inUnits(problem, scale)}</span>}
    </td>
  );
}

/** Dollars stand with their cents below each other; a unit price may hold parts of a cent. */
function priceText(value: number, scale: Scale): string {
  return scale === 'dollars' && Number.isInteger(value) ? (value / 100).toFixed(2) : written(value, scale);
}

/** The field above or below in the same column. */
function sameColumn(field: HTMLInputElement, step: 1 | -1): HTMLInputElement | undefined {
  const cell = field.closest('td');
  const rows = [...(field.closest('table')?.querySelectorAll<HTMLTableRowElement>('tr.item, tr.offer') ?? [])];
  const at = rows.findIndex((row) => row.contains(field));
  const ahead = step > 0 ? rows.slice(at + 1) : rows.slice(0, at).reverse();
  for (const row of ahead) {
    const next = row.cells[cell?.cellIndex ?? 0]?.querySelector('input');
    if (next) return next; // a row whose prices follow from its packages has none to go to
  }
  return undefined;
}
