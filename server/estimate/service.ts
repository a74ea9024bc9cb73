import { cite } from '../electrical/citations.ts';
import { LEAST_EVSE_VA_2023 } from '../electrical/evse-load.ts';
import { CONTINUOUS_FACTOR as CONTINUOUS } from '../electrical/overcurrent.ts';
import { SERVICE_V } from '../electrical/service-load.ts';
import type { Finding, ServiceCheck } from './answer.ts';
import { is120V } from './plan/charger-load.ts';
import { type AtServiceWithBook, remedyChanges } from './remedies.ts';
import {
  type AtService,
  addedTo,
  loadRule,
  type ServiceReadings,
  serviceRatingA,
  serviceReadings,
} from './service-readings.ts';

type Fits = ServiceCheck['fits'];

/**
 * Can the service carry the option? Yes where the strictest lawful reading fits (the charger in full, at 125 %), no
 * where the mildest does not (in the tier where the method has one, at 100 %), depends between. NEC 220.57, 220.82,
 * 220.83, 220.87. Amperes at 240 V.
 * @param at  an option as planned, its chargers settled, with the book that says which services are sold
 */
export function checkService(at: AtServiceWithBook): { check: ServiceCheck; findings: Finding[] } {
  const check = serviceCheck(at);
  return { check, findings: [findingOf(at, check), ...readingNote(at)] };
}

function serviceCheck(at: AtServiceWithBook): ServiceCheck {
  const { method } = at.description.site.load;
  const found = serviceReadings(at);
  if (!found) {
    const { chargerVA, otherVA } = addedTo(at);
    return {
      method,
      addedA: round((chargerVA * CONTINUOUS + otherVA) / SERVICE_V),
      fits: 'unknown',
      readings: [],
      remedies: remediesOf(at),
    };
  }
  const { ratingA, demandA, strictA, readings } = found;
  const fits = verdict(found);
  return {
    method,
    demandA: round(demandA),
    addedA: round(strictA),
    withA: round(demandA + strictA),
    ...(ratingA !== null && { spareA: round(ratingA - demandA - strictA) }),
    fits,
    readings,
    remedies: remediesOf(at),
  };
}

const remediesOf = (at: AtServiceWithBook) => remedyChanges(at).map(({ remedy }) => remedy);

function verdict({ readings, ratingA }: ServiceReadings): Fits {
  if (ratingA === null) return 'unknown';
  if (readings.every(({ fits }) => fits)) return 'yes';
  return readings.some(({ fits }) => fits) ? 'depends' : 'no';
}

/** Why no lower setting is offered, where it is the code's least that stands in the way and not the house itself. */
function floorInWords({ description, option }: AtService, { remedies, spareA, addedA }: ServiceCheck): string {
  const counts = description.site.code.edition === '2023' && option.chargers.some((charger) => !is120V(charger));
  const roomWithout = spareA !== undefined && addedA !== undefined && spareA + addedA > 0;
  if (!counts || !roomWithout || option.loadManagement || remedies.some(({ kind }) => kind === 'lower-amps')) return '';
  return ` No lower setting fits by every reading: a charger counts ${LEAST_EVSE_VA_2023 / SERVICE_V} A at least, whatever it is set to.`;
}

/** In 2026 no reading of the code counts the charger among the loads of the tier. NEC 120.57, 120.82, 120.83. */
function readingNote({ description }: AtService): Finding[] {
  const { edition, chargerReading } = description.site.code;
  if (edition !== '2026' || chargerReading !== 'in-tier') return [];
  return [
    {
      rule: 'charger-reading',
      severity: 'note',
      message:
        'chargerReading asks for the charger in the tier; the edition of 2026 counts it in full beside the tier, and so does this.',
      citation: cite('evse-load', edition),
      numbers: { chargerReading },
    },
  ];
}

const SEVERITY_OF = { yes: 'ok', depends: 'caution', no: 'stop', unknown: 'caution' } as const;

function findingOf(at: AtService, check: ServiceCheck): Finding {
  const { edition } = at.description.site.code;
  const ratingA = serviceRatingA(at);
  const later = at.option.roughInOnly && check.fits === 'no';
  return {
    rule: 'service-capacity',
    severity: later ? 'caution' : SEVERITY_OF[check.fits],
    message: later ? `Before what is roughed in is finished: ${messageOf(at, check)}` : messageOf(at, check),
    citation: cite(loadRule(at.description), edition),
    numbers: {
      ...(ratingA !== null && { ratingA }),
      ...(check.demandA !== undefined && { demandA: check.demandA }),
      ...(check.addedA !== undefined && { addedA: check.addedA }),
      ...(check.withA !== undefined && { withA: check.withA }),
    },
  };
}

function messageOf(at: AtService, check: ServiceCheck): string {
  const { fits, withA, addedA, remedies } = check;
  const ratingA = serviceRatingA(at);
  if (fits === 'yes') return `The service carries it: ${withA} A of ${ratingA} A with the charger.`;
  if (fits === 'no')
    return `The service does not carry it: ${withA} A of ${ratingA} A by the strictest reading, and too much by the mildest.${floorInWords(at, check)} ${remedies[0]?.detail ?? ''}`;
  if (fits === 'depends')
    return `Whether the service carries it depends on how the charger is counted: ${withA} A of ${ratingA} A by the strictest reading. The AHJ decides which reading holds.${floorInWords(at, check)}`;
  return `Whether the service carries another ${addedA} A is not known. ${remedies[0]?.detail ?? ''}`;
}

/** Amperes to a hundredth: finer than any meter, and the same on every machine. */
function round(amperes: number): number {
  return Math.round(amperes * 100) / 100;
}
