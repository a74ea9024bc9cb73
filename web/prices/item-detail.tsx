import { useState } from 'react';
import { ageWords } from '../../server/drawing/age-words.ts';
import type { Offer, PriceItem } from '../../server/estimate/price-book.ts';
import type { FieldProblem } from '../api.ts';
import type { JsonObject } from '../json.ts';
import { dayOf, today } from '../parts/dates.ts';
import type { Form } from '../parts/field.ts';
import { NumberWord, TextButton, TextWord } from '../parts/word-fields.tsx';
import { ItemOrigin } from './item-origin.tsx';
import { withOwnPackage } from './own-price.ts';
import { PriceHistory } from './price-history.tsx';
import type { BookChanges } from './use-book-changes.ts';

interface DetailProps {
  item: PriceItem;
  problems: readonly FieldProblem[];
  changes: BookChanges;
}

/** What stands below an open item: where its price is from, the packages it is sold in, and every price it had. */
export function ItemDetail({ item, problems, changes }: DetailProps) {
  const { age, stale } = ageWords(item, today());
  return (
    <div className="item-detail">
      <p className="sentence">
        {item.region}, {dayOf(item.date)}, {stale ?? age}.{' '}
        <ItemOrigin item={item} problems={problems} onChange={(edit) => changes.edit(item, edit)} />
      </p>
      <p className="commands">
        <TextButton onPress={() => changes.edit(item, (now) => ({ ...now, available: !item.available }))}>
          {item.available ? 'mark as not to be had' : 'mark as to be had again'}
        </TextButton>
        <TextButton label={`Remove ${item.description}`} onPress={() => changes.remove(item)}>
          remove it from the book
        </TextButton>
        {item.kind === 'price' && <AddedPackage item={item} problems={problems} changes={changes} />}
      </p>
      {item.offers.length > 0 && <PackageCommands item={item} changes={changes} />}
      <PriceHistory item={item} changes={changes} />
    </div>
  );
}

const samePackage = (one: Offer, other: Offer) => one.package === other.package && one.quantity === other.quantity;

/** Packages that a shop has no more of, or does not sell any more. */
function PackageCommands({ item, changes }: Pick<DetailProps, 'item' | 'changes'>) {
  const withOffers = (change: (offers: readonly Offer[]) => Offer[]) =>
    changes.edit(item, (now) => ({ ...now, offers: change(now.offers) })); // no price changes, nor its day
  return (
    <ul className="package-commands">
      {item.offers.map((offer) => (
        <li key={`${offer.package} ${offer.quantity}`}>
          {offer.package}:{' '}
          <TextButton
            label={`Mark ${offer.package} of ${item.description} as ${offer.available ? 'not to be had' : 'to be had again'}`}
            onPress={() =>
              withOffers((offers) =>
                offers.map((each) => (samePackage(each, offer) ? { ...each, available: !offer.available } : each)),
              )
            }
          >
            {offer.available ? 'not to be had' : 'to be had again'}
          </TextButton>{' '}
          <TextButton
            label={`Take ${offer.package} of ${item.description} out`}
            onPress={() => withOffers((offers) => offers.filter((each) => !samePackage(each, offer)))}
          >
            take it out
          </TextButton>
        </li>
      ))}
    </ul>
  );
}

/** A package that the item is sold in as well, such as a coil of 125 ft. */
function AddedPackage({ item, problems, changes }: DetailProps) {
  const [offer, setOffer] = useState<JsonObject>();
  if (!offer) return <TextButton onPress={() => setOffer({})}>add a package</TextButton>;
  const place = `offers.${item.offers.length}`;
  const field: Form['field'] = (path) => ({
    path: `${place}.${path}`,
    value: offer[path],
    filled: undefined,
    problem: problems.find((problem) => problem.path === `${place}.${path}`)?.message,
    onChange: (value) => setOffer({ ...offer, [path]: value }),
  });
  const add = async () => {
    // As it was typed: what is missing or no number the server refuses at its path.
    const stated = { available: true, ...offer } as unknown as Offer;
    const isAdded = await changes.edit(item, (now) => withOwnPackage(now, [...now.offers, stated], stated));
    if (isAdded) setOffer(undefined);
  };
  const point = (path: string, name: string) => (
    <NumberWord field={field(path)} label={`${name} price of the package`} scale="dollars" />
  );
  return (
    <form
      className="added-package"
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      Also sold as <TextWord field={field('package')} label="Name of the package" /> of{' '}
      <NumberWord field={field('quantity')} label={`Quantity of the package, in ${item.unit}`} /> {item.unit}: low{' '}
      {point('lowCents', 'low')}, likely {point('likelyCents', 'likely')}, high {point('highCents', 'high')} dollars.{' '}
      <button type="submit" className="paper-button">
        Add the package
      </button>{' '}
      <TextButton onPress={() => setOffer(undefined)}>leave it</TextButton>
    </form>
  );
}
