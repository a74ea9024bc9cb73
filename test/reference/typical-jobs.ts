/*
 * Jobs that published studies call typical, as this program describes them. Invented households. All as a small
 * contractor bills them: an hour at the billed rate, which holds truck, office and profit, and 25 % on material, 10 % on
 * rentals (common practice, no source).
 */

type Stated = Record<string, unknown>;

const TERMS = {
  laborRate: 'rate-electrician-billed',
  laborRateIs: 'billed',
  markup: { materialBp: 2500, equipmentBp: 1000 },
};

/** A house with nothing unusual: 200 A, room in the panel, a year of readings, no hazards. */
function house(building: 'attached' | 'detached' | 'outdoor', more: Stated = {}): Stated {
  return {
    building,
    yearBuilt: 1995,
    hazards: [],
    service: { ratingA: 200, freeSpaces: 6, panel: { kind: 'service-equipment', state: 'current' } },
    load: { method: 'measured', peakA: 60, days: 365 },
    ...more,
  };
}

const SMALL_SERVICE = { ratingA: 100, freeSpaces: 2, panel: { kind: 'service-equipment', state: 'current' } };

/** A charger of about 30 A on a circuit of 40 A, as most were in the years of those studies. From memory. */
const CHARGER = { amps: 32, connection: 'hardwired', equipment: 'owned', distanceFt: 4 };

function job({
  site,
  route,
  option = {},
  terms = {},
}: Record<'site' | 'route', unknown> & { option?: Stated; terms?: Stated }) {
  return {
    title: 'A typical job',
    asOf: '2025-08-01',
    site,
    route,
    options: [{ id: 'a', label: 'a circuit', feed: 'dedicated-circuit', chargers: [CHARGER], ...option }],
    terms: { ...TERMS, ...terms },
  };
}

/** Garage in the house, panel on the far side of an open basement: joists, then along the garage wall. */
export const GARAGE_30_FT = job({
  site: house('attached'),
  route: '25 joists, 5 interior-surface',
});

/** The panel hangs in the garage itself, the charger 10 ft farther on the same wall. */
export const GARAGE_10_FT = job({ site: house('attached'), route: '10 interior-surface' });

/** The same, and the charger is bought with it. */
export const GARAGE_10_FT_WITH_CHARGER = job({
  site: house('attached'),
  route: '10 interior-surface',
  option: { chargers: [{ ...CHARGER, equipment: 'buy' }] },
});

/** A garage of its own behind the house, across 40 ft of lawn; it has its light and receptacles. */
export const DETACHED_GARAGE = job({
  site: house('detached', { garage: { bays: 2, existing: ['receptacles', 'light'] } }),
  route: '20 joists, 40 lawn-trench',
});

/** A house under construction, walls open: one circuit and its outlet more for the electrician who is there anyway. */
export const NEW_HOUSE = job({
  site: house('attached', { work: 'new-construction', permit: { feeCents: 0, inspections: 0, byOwner: true } }),
  route: '20 finished-wall',
  option: { chargers: [{ ...CHARGER, connection: 'receptacle-14-50', equipment: 'none' }] },
  terms: { travel: { minutesEachWay: 0, milesEachWay: 0 } },
});

/** An older service of 100 A that becomes one of 200 A, for a charger of 48 A beside the panel. */
export function newService(supply: 'overhead' | 'underground') {
  return job({
    site: house('attached', { service: SMALL_SERVICE }),
    route: '10 interior-surface',
    option: { chargers: [{ ...CHARGER, amps: 48 }], serviceUpgrade: { toA: 200, supply, meter: 'replace' } },
  });
}

/** A circuit to a parking place outdoors, all of its way in one ditch. */
export const ditch = (legs: string) => job({ site: house('outdoor'), route: legs });
