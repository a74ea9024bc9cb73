import type { EstimateOption } from '../../estimate/answer.ts';
import type { Description } from '../../estimate/description.ts';
import { serviceVerdict } from '../site-facts.ts';
import { capital, moreOrLess, number } from '../wording.ts';
import type { Passage } from './passage.ts';

const REMEDIES = {
  'lower-amps': 'Charge with less',
  'load-management': 'Manage the load',
  'free-spaces': 'Make room in the panel',
  'service-upgrade': 'A larger service',
  measure: 'Measure it',
} as const;

const METHODS: Record<string, string> = {
  measured: 'by what it drew at most (220.87)',
  listed: 'by its list of loads',
};

/** Can the service carry it: the verdict, every reading of the code, and what may be done where it does not. */
export function serviceCheck(option: EstimateOption, description: Description): Passage[] {
  const { service } = option;
  return [
    {
      title: 'The service',
      sentences: [`The service ${serviceVerdict(option, description)}. ${loadsInWords(service)}`],
      ...(service.readings.length > 0 && {
        columns: [
          { head: 'Method', widthPt: 110 },
          { head: 'Reading', share: 1 },
          { head: 'With it', widthPt: 60, align: 'right' as const },
          { head: 'Fits', widthPt: 50 },
        ],
        rows: service.readings.map(({ method, reading, withA, fits }) => ({
          cells: [`NEC ${method}`.replace(/^NEC NEC/, 'NEC'), reading, `${number(withA, 1)} A`, fits ? 'yes' : 'no'],
        })),
      }),
    },
    ...remedies(option),
  ];
}

function loadsInWords({ method, demandA, addedA, spareA }: EstimateOption['service']): string {
  const amps = (value: number) => `${number(value, 1)} A`;
  const added = addedA === undefined ? 'what this adds is not known' : `this adds ${amps(addedA)}`;
  if (demandA === undefined) return `What it draws already is not known; ${added}.`;
  return `Before, it draws ${amps(demandA)}, ${METHODS[method] ?? method}; ${added}; ${spareInWords(spareA)}.`;
}

function spareInWords(spareA: number | undefined): string {
  if (spareA === undefined) return 'what is left is not known';
  return spareA < 0 ? `${number(-spareA, 1)} A are missing` : `${number(spareA, 1)} A are left`;
}

function remedies({ service }: EstimateOption): Passage[] {
  if (service.remedies.length === 0) return [];
  return [
    {
      title: 'What would make it fit',
      columns: [
        { head: 'Way', widthPt: 110 },
        { head: 'What it means', share: 1 },
        { head: 'Changes the total by', widthPt: 76, align: 'right' },
      ],
      rows: service.remedies.map(({ kind, amps, detail, differenceCents }) => ({
        cells: [
          `${REMEDIES[kind]}${amps === undefined ? '' : `, ${number(amps)} A`}`,
          capital(detail),
          differenceCents === undefined ? 'not priced' : moreOrLess(differenceCents),
        ],
      })),
    },
  ];
}
