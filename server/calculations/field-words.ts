import { CONDUCTOR_SIZES, sizeInWords } from '../electrical/sizes.ts';

/** How a field is called where people read it: a name, the unit that its JSON name ends in, and its answers. */
export interface FieldWords {
  title: string;
  unit?: string;
  /** What null says, where a field may be null. */
  none?: string;
  /** A place in a list, where JSON counts from 0 and people from 1. */
  countsFrom0?: true;
  /** Words for answers that do not speak for themselves. */
  values?: Readonly<Record<string, string>>;
}

const SIZE_WORDS = Object.fromEntries(CONDUCTOR_SIZES.map((size) => [size, sizeInWords(size)]));
const size = (title: string): FieldWords => ({ title, values: SIZE_WORDS });

/**
 * Words for every field of every calculation, input and result: one name is one quantity everywhere. Units are
 * written as a page or paper writes them; `cents` and `bp` stand for dollars and percent in hundredths.
 */
export const FIELD_WORDS: Readonly<Record<string, FieldWords>> = {
  // What flows
  loadA: { title: 'Load', unit: 'A' },
  currentA: { title: 'Current', unit: 'A' },
  amps: { title: 'Charging', unit: 'A' },
  continuous: { title: 'Lasts three hours or more' },
  voltageV: { title: 'Voltage', unit: 'V' },
  phases: { title: 'Phases', values: { 1: 'one phase', 3: 'three phases' } },
  powerFactor: { title: 'Power factor' },
  kW: { title: 'Power', unit: 'kW' },
  kWh: { title: 'Energy', unit: 'kWh' },
  // Devices and conductors
  ocpdA: { title: 'Breaker', unit: 'A' },
  metal: { title: 'Metal' },
  size: size('Conductor'),
  insulation: {
    title: 'Cable or insulation',
    values: {
      'nm-b': 'NM-B cable',
      'uf-b': 'UF-B cable',
      ser: 'SER cable',
      'thwn-2': 'THWN-2',
      'xhhw-2': 'XHHW-2',
      'use-2': 'USE-2',
      bare: 'bare',
    },
  },
  insulationC: { title: 'Insulation', unit: '°C' },
  terminalsC: { title: 'Terminals', unit: '°C' },
  ambientC: { title: 'Temperature around it', unit: '°C' },
  currentCarrying: { title: 'Current-carrying conductors' },
  supplies: {
    title: 'It supplies',
    values: { branch: 'a branch circuit', feeder: 'a feeder', 'entire-dwelling': 'the entire dwelling' },
  },
  edition: { title: 'Edition of the code' },
  ampacityA: { title: 'Usable ampacity', unit: 'A' },
  tableA: { title: 'Ampacity in the table', unit: 'A' },
  columnC: { title: 'Column that it ends at', unit: '°C' },
  groundSize: size('Equipment ground, copper'),
  factors: { title: 'Factors' },
  ambient: { title: 'Factor for the temperature' },
  adjustment: { title: 'Factor for the company' },
  wires: { title: 'Wires, ground included' },
  gfci: { title: 'Ground-fault protection is there' },
  connection: {
    title: 'Connection',
    values: {
      'receptacle-14-50': 'receptacle 14-50',
      'receptacle-6-50': 'receptacle 6-50',
      'receptacle-5-15': 'receptacle 5-15',
      'receptacle-5-20': 'receptacle 5-20',
      hardwired: 'wired, no plug',
    },
  },
  carMaxA: { title: 'The car takes at most', unit: 'A' },
  serviceSpareA: { title: 'The service has left', unit: 'A' },
  feederSpareA: { title: 'The feeder has left', unit: 'A' },
  largestSettingA: { title: 'Largest setting', unit: 'A' },
  limitedBy: { title: 'Limited by' },
  lawful: { title: 'Lawful' },
  // Voltage drop
  lengthFt: { title: 'Length', unit: 'ft', none: 'by the foot' },
  kFactor: { title: 'K factor', unit: 'Ω·cmil/ft' },
  conduit: { title: 'Raceway around it', values: { pvc: 'PVC', aluminum: 'aluminum', steel: 'steel' } },
  parallel: { title: 'Conductors in parallel' },
  maxPercent: { title: 'Largest drop', unit: '%' },
  dropV: { title: 'Drop', unit: 'V' },
  percent: { title: 'Drop', unit: '%' },
  endV: { title: 'Left at the end', unit: 'V' },
  // Raceways
  type: {
    title: 'Raceway',
    values: { 'pvc-40': 'PVC, schedule 40', 'pvc-80': 'PVC, schedule 80', emt: 'EMT', rmc: 'RMC' },
  },
  conductors: { title: 'Conductors' },
  count: { title: 'Count' },
  tradeSize: { title: 'Trade size', unit: 'in' },
  areaIn2: { title: 'Area of the conductors', unit: 'in²' },
  limitIn2: { title: 'Area that may be filled', unit: 'in²' },
  fillPercent: { title: 'Filled', unit: '%' },
  fits: { title: 'It fits' },
  // Grounds and cover
  enlarged: { title: 'Enlarged, for voltage drop say' },
  fromSize: size('Size that would do'),
  toSize: size('Size that is laid'),
  conductorSize: size('Largest supply conductor'),
  conductorMetal: { title: 'Metal of the supply' },
  electrode: {
    title: 'Electrode',
    values: { rod: 'rod', plate: 'plate', 'concrete-encased': 'encased in concrete', 'water-pipe': 'water pipe' },
  },
  wiring: {
    title: 'Buried wiring',
    values: {
      cable: 'cable or conductors, buried directly',
      rmc: 'RMC or IMC',
      pvc: 'PVC or another raceway',
      'gfci-20a-120v': '120 V, 20 A at most, ground-fault protected ahead',
      'low-voltage': '30 V at most',
    },
  },
  location: {
    title: 'Where',
    values: {
      'under-2in-concrete': 'under 2 in of concrete in the trench',
      'under-building': 'under a building',
      'under-4in-slab': 'under an exterior slab of 4 in without cars',
      street: 'under a street, road or parking lot',
      'dwelling-driveway': "under a dwelling's driveway",
      elsewhere: 'anywhere else',
    },
  },
  depthIn: { title: 'Depth', unit: 'in' },
  // Loads
  method: {
    title: 'Method',
    values: {
      standard: 'standard, Article 220 Part III',
      'new-dwelling': 'optional, new dwelling, 220.82',
      'existing-dwelling': 'optional, existing dwelling, 220.83',
      measured: 'measured, 220.87',
      'dc-resistance': 'DC resistance, Table 8',
      'k-factor': 'K factor',
      impedance: 'impedance, Table 9',
    },
  },
  floorAreaFt2: { title: 'Floor area', unit: 'ft²' },
  smallApplianceCircuits: { title: 'Small-appliance circuits' },
  laundryCircuits: { title: 'Laundry circuits' },
  appliances: { title: 'Appliances' },
  name: { title: 'Name' },
  va: { title: 'Load', unit: 'VA' },
  kind: {
    title: 'Kind',
    values: {
      fastened: 'fastened in place',
      'central-electric': 'central electric',
      'separate-units': 'separate units',
      'heat-pump': 'heat pump',
      'thermal-storage': 'thermal storage',
    },
  },
  heating: { title: 'Heating' },
  supplementalVA: { title: 'Supplemental heat', unit: 'VA' },
  units: { title: 'Units' },
  cooling: { title: 'Cooling' },
  addingHeatOrCooling: { title: 'Heating or cooling is being added' },
  peakA: { title: 'Measured peak', unit: 'A' },
  days: { title: 'Days measured' },
  serviceA: { title: 'Service', unit: 'A' },
  addedVA: { title: 'Other load added', unit: 'VA' },
  chargerVA: { title: 'Chargers', unit: 'VA' },
  chargerReading: {
    title: "Charger's share counts",
    values: { full: 'in full', 'in-tier': 'inside the tier' },
  },
  demandVA: { title: 'Demand', unit: 'VA' },
  demandA: { title: 'Demand at 240 V', unit: 'A' },
  spareA: { title: 'Left', unit: 'A' },
  steps: { title: 'Step by step' },
  otherReading: { title: 'Read the other way' },
  readings: { title: 'Meter readings' },
  start: { title: 'Start of the interval' },
  intervalMinutes: { title: 'Interval', unit: 'min' },
  solar: { title: 'Solar, storage or peak shaving is there' },
  usable: { title: 'May stand for the load' },
  findings: { title: 'Findings' },
  // Charging
  milesPerKwh: { title: 'The car drives', unit: 'mi/kWh' },
  efficiency: { title: 'Share that reaches the battery' },
  milesPerDay: { title: 'Driven in a day', unit: 'mi' },
  parkedHours: { title: 'Parked', unit: 'h' },
  milesPerHour: { title: 'Range gained an hour', unit: 'mi' },
  hoursForDailyMiles: { title: "Hours for the day's miles", unit: 'h' },
  coversDailyMiles: { title: 'Parked long enough' },
  // Earthwork
  widthIn: { title: 'Width', unit: 'in' },
  thicknessIn: { title: 'Thickness', unit: 'in' },
  swellPercent: { title: 'Swell', unit: '%' },
  wastePercent: { title: 'Waste', unit: '%' },
  closedEnds: { title: 'Closed ends' },
  volumeFt3: { title: 'Volume in place', unit: 'ft³' },
  volumeYd3: { title: 'Volume in place', unit: 'yd³' },
  looseYd3: { title: 'Volume when loose', unit: 'yd³' },
  bags80lb: { title: 'Bags of 80 lb' },
  bags60lb: { title: 'Bags of 60 lb' },
  sawCutFt: { title: 'Saw cut', unit: 'ft' },
  // Buying and money
  pieces: { title: 'Pieces', unit: 'ft' },
  offers: { title: 'Offers' },
  priceCents: { title: 'Price', unit: 'cents' },
  buy: { title: 'To buy' },
  offer: { title: 'Offer', countsFrom0: true },
  costCents: { title: 'Cost', unit: 'cents' },
  leftOverFt: { title: 'Left over', unit: 'ft' },
  low: { title: 'Low' },
  likely: { title: 'Likely' },
  high: { title: 'High' },
  weight: { title: 'Weight of the likely value' },
  mean: { title: 'Mean' },
  sd: { title: 'Standard deviation' },
  p10: { title: 'One in ten is below' },
  p50: { title: 'Half are below' },
  p90: { title: 'Nine in ten are below' },
  principalCents: { title: 'Loan', unit: 'cents' },
  annualRateBp: { title: 'Rate a year', unit: 'bp' },
  years: { title: 'Years' },
  monthlyCents: { title: 'A month', unit: 'cents' },
  totalInterestCents: { title: 'Interest in all', unit: 'cents' },
  markupBp: { title: 'Markup on cost', unit: 'bp' },
  marginBp: { title: 'Margin on price', unit: 'bp' },
};

/** The words of an answer to a field, such as `NM-B cable` for `nm-b`; the answer itself where it speaks for itself. */
export function answerInWords(field: string, answer: string | number): string {
  return FIELD_WORDS[field]?.values?.[answer] ?? String(answer);
}

type Schema = Record<string, unknown>;

/**
 * A JSON Schema whose fields carry their words: `title`, and the others where they have them; a title of
 * the schema's own stays. A form can be made from it, and an answer be read by it.
 */
export function withFieldWords(schema: Schema): Schema {
  const entries = Object.entries(schema).map(([keyword, value]) => {
    if (keyword === 'properties') return [keyword, namedFields(value as Record<string, Schema>)];
    if (keyword === 'oneOf' || keyword === 'anyOf') return [keyword, (value as Schema[]).map(withFieldWords)];
    if (keyword === 'items') return [keyword, withFieldWords(value as Schema)];
    return [keyword, value];
  });
  return Object.fromEntries(entries) as Schema;
}

function namedFields(fields: Record<string, Schema>): Record<string, Schema> {
  return Object.fromEntries(
    Object.entries(fields).map(([name, schema]) => {
      const { title, unit, none, countsFrom0, values }: FieldWords = FIELD_WORDS[name] ?? { title: name };
      const allowed = answersOf(schema);
      const words = Object.entries(values ?? {}).filter(([answer]) => allowed.includes(answer));
      const named = {
        title,
        ...(unit !== undefined && { unit }),
        ...(none !== undefined && schema.anyOf !== undefined && { none }),
        ...(countsFrom0 && { countsFrom0 }),
        ...(words.length > 0 && { words: Object.fromEntries(words) }),
      };
      return [name, { ...named, ...withFieldWords(schema) }];
    }),
  );
}

function answersOf({ enum: several, const: one }: Schema): string[] {
  return [...(Array.isArray(several) ? several : []), ...(one === undefined ? [] : [one])].map(String);
}
