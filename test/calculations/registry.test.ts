import { describe, expect, it } from 'vitest';
import { FIELD_WORDS } from '../../server/calculations/field-words.ts';
import { CALCULATIONS, calculate, calculationSheets } from '../../server/calculations.ts';
import { fieldsOf, type InputSchema } from './schema-inputs.ts';

/*
 * What is promised to those who call: names, fields, defaults and results. Written down here a second time, so that
 * none is renamed unseen. `?` may be left out; a value behind `=` is the default.
 */
const PROMISED: Record<string, { input: string; result: string }> = {
  conductor: {
    input:
      'loadA continuous=false ocpdA? metal insulation terminalsC=75 ambientC=30 currentCarrying=3 supplies=branch edition=2023',
    result: 'ocpdA size ampacityA tableA columnC groundSize',
  },
  ampacity: {
    input: 'metal size insulationC terminalsC? ambientC=30 currentCarrying=3 edition=2023',
    result: 'ampacityA tableA factors factors.ambient factors.adjustment',
  },
  'voltage-drop': {
    input:
      'voltageV phases=1 currentA lengthFt metal size? method kFactor? conduit=pvc powerFactor=0.85 parallel=1 maxPercent? edition=2023',
    result: 'dropV percent endV size',
  },
  'conduit-fill': {
    input: 'type conductors conductors.insulation conductors.size conductors.count tradeSize? edition=2023',
    result: 'tradeSize areaIn2 limitIn2 fillPercent fits',
  },
  'equipment-ground': {
    input: 'ocpdA metal enlarged? enlarged.fromSize enlarged.toSize edition=2023',
    result: 'size',
  },
  'grounding-electrode': { input: 'conductorSize conductorMetal metal electrode edition=2023', result: 'size' },
  'cover-depth': { input: 'wiring location edition=2023', result: 'depthIn' },
  'service-load': {
    input:
      'method floorAreaFt2 smallApplianceCircuits=2 laundryCircuits=1 appliances=[] appliances.name appliances.va appliances.kind=fastened ' +
      'heating={"kind":"none","va":0} heating.kind heating.va heating.supplementalVA? heating.units? cooling={"va":0} cooling.va ' +
      'addingHeatOrCooling=false serviceA addedVA=0 chargerVA=0 chargerReading=full edition=2023 peakA days',
    result:
      'demandVA demandA spareA fits steps steps.name steps.va otherReading? otherReading.demandVA otherReading.demandA otherReading.fits',
  },
  charging: {
    input: 'amps voltageV=240 milesPerKwh=3.5 efficiency=0.9 milesPerDay? parkedHours?',
    result: 'kW milesPerHour hoursForDailyMiles? coversDailyMiles?',
  },
  'largest-setting': {
    input: 'metal size insulation terminalsC=75 ambientC=30 ocpdA? serviceSpareA? feederSpareA? carMaxA? edition=2023',
    result: 'amps limitedBy ocpdA',
  },
  'circuit-check': {
    input: 'ocpdA metal size insulation wires terminalsC=75 lengthFt? amps connection gfci? edition=2023',
    result: 'lawful findings largestSettingA',
  },
  'measured-demand': {
    input: 'readings readings.start readings.kWh intervalMinutes voltageV=240 solar=false edition=2023',
    result: 'peakA days usable findings',
  },
  trench: { input: 'lengthFt widthIn depthIn swellPercent=25', result: 'volumeFt3 volumeYd3 looseYd3' },
  concrete: {
    input: 'lengthFt widthIn thicknessIn wastePercent=10 closedEnds=2',
    result: 'volumeFt3 volumeYd3 bags80lb bags60lb sawCutFt',
  },
  packages: {
    input: 'pieces offers offers.lengthFt offers.priceCents',
    result: 'buy buy.offer buy.count buy.pieces costCents leftOverFt',
  },
  'three-point': { input: 'low likely high weight=4', result: 'mean sd p10 p50 p90' },
  payment: { input: 'principalCents annualRateBp years', result: 'monthlyCents totalInterestCents' },
  'price-from-cost': { input: 'costCents markupBp? marginBp?', result: 'priceCents markupBp marginBp' },
};

/** A schema's fields in the form of the table above; what lies within a finding is left to the findings' own tests. */
function writtenFields(schema: InputSchema): string[] {
  const fields = (schema.oneOf ?? [schema]).flatMap((shape) => fieldsOf(shape));
  const written = fields
    .filter(({ path }) => !/\.0$/.test(path) && !path.startsWith('findings.'))
    .map(({ path, schema: { default: standard }, isRequired }) => {
      const name = path.replaceAll('.0', '');
      if (standard === undefined) return isRequired ? name : `${name}?`;
      return `${name}=${typeof standard === 'object' ? JSON.stringify(standard) : standard}`;
    });
  return [...new Set(written)].toSorted();
}

const SHEETS = calculationSheets();

describe('the registry', () => {
  it('has every name that is promised, and no other', () => {
    expect(SHEETS.map(({ name }) => name).toSorted()).toEqual(Object.keys(PROMISED).toSorted());
  });

  it.each(SHEETS)('gives $name the fields, defaults and results that are promised', ({ name, input, result }) => {
    expect(writtenFields(input as InputSchema)).toEqual(PROMISED[name]?.input.split(' ').toSorted());
    expect(writtenFields(result as InputSchema)).toEqual(PROMISED[name]?.result.split(' ').toSorted());
  });

  it.each(SHEETS)('has a title, a sentence and words for every field of $name', ({ title, decides, input, result }) => {
    expect(title).toMatch(/^[A-Z]/);
    expect(decides).toMatch(/^[A-Z].*\.$/);
    const fields = [input, result].flatMap((schema) => {
      const { oneOf } = schema as InputSchema;
      return (oneOf ?? [schema as InputSchema]).flatMap((shape) => fieldsOf(shape));
    });
    const wordless = fields.filter(({ path }) => !/\.0$/.test(path) && !path.startsWith('findings.'));
    expect(wordless.filter(({ schema }) => schema.title === undefined).map(({ path }) => path)).toEqual([]);
    expect(wordless.filter(({ path }) => FIELD_WORDS[path.split('.').at(-1) ?? ''] === undefined)).toEqual([]);
  });

  it('says sizes in the order of the trade', () => {
    const conductor = SHEETS.find(({ name }) => name === 'ampacity')?.input as InputSchema;
    const sizes = conductor.properties?.size?.enum ?? [];
    expect([sizes.at(0), sizes.at(9), sizes.at(-1)]).toEqual(['14', '1/0', '600']);
  });

  /** The unit that a field's name ends in, and how people write it. */
  const UNITS: [ending: RegExp, unit: string][] = [
    [/VA$|^va$/, 'VA'],
    [/A$/, 'A'],
    [/V$/, 'V'],
    [/Ft$/, 'ft'],
    [/Ft2$/, 'ft²'],
    [/Ft3$/, 'ft³'],
    [/Yd3$/, 'yd³'],
    [/In$/, 'in'],
    [/In2$/, 'in²'],
    [/C$/, '°C'],
    [/Percent$|^percent$/, '%'],
    [/Cents$/, 'cents'],
    [/Bp$/, 'bp'],
  ];

  it('writes the unit that each name ends in', () => {
    for (const [name, { unit }] of Object.entries(FIELD_WORDS)) {
      const expected = UNITS.find(([ending]) => ending.test(name))?.[1];
      if (expected !== undefined) expect([name, unit]).toEqual([name, expected]);
    }
  });

  it('has no words for a field that there is not', () => {
    const all = SHEETS.flatMap(({ input, result }) => [input, result] as InputSchema[]);
    const names = all.flatMap((schema) => (schema.oneOf ?? [schema]).flatMap((shape) => fieldsOf(shape)));
    const known = new Set(names.map(({ path }) => path.split('.').at(-1)));
    expect(Object.keys(FIELD_WORDS).filter((name) => !known.has(name))).toEqual([]);
  });
});

describe('every example', () => {
  const named = CALCULATIONS.map((calculation) => ({ name: calculation.name, calculation }));

  it.each(named)('of $name is answered, with defaults filled in and reasons to read', ({ calculation }) => {
    const { input, result, because } = calculate(calculation, calculation.example);
    expect(input).toMatchObject(calculation.example);
    expect(calculation.result.safeParse(result).error?.issues).toBeUndefined();
    expect(because.length).toBeGreaterThan(0);
    for (const sentence of because) expect(sentence).toMatch(/^\S.*\S$/);
  });

  it.each(named)('of $name names no field as a program does', ({ calculation }) => {
    const { because } = calculate(calculation, calculation.example);
    const units = ['kW', 'kWh']; // names that people say too
    const fieldNames = Object.keys(FIELD_WORDS).filter((name) => /[a-z][A-Z]/.test(name) && !units.includes(name));
    for (const sentence of because) {
      expect(fieldNames.filter((name) => new RegExp(`\\b${name}\\b`).test(sentence))).toEqual([]);
    }
  });
});

describe('citations', () => {
  const withEdition = CALCULATIONS.filter(({ name }) => PROMISED[name]?.input.includes('edition=2023'));

  it.each(withEdition.map((calculation) => ({ name: calculation.name, calculation })))(
    'of $name are those of the edition that is asked for',
    ({ calculation }) => {
      for (const edition of ['2020', '2023', '2026']) {
        const { citations } = calculate(calculation, { ...calculation.example, edition });
        expect(citations.length).toBeGreaterThan(0);
        for (const citation of citations) expect(citation).toMatchObject({ code: 'NEC', edition });
        expect(new Set(citations.map(({ article }) => article)).size).toBe(citations.length);
      }
    },
  );

  /** Tables 300.5 and 310.15(B)(1) were renumbered in 2023; Article 220 became 120 in 2026. */
  it('follow what moved between editions', () => {
    const articles = (name: string, edition: string) => {
      const calculation = CALCULATIONS.find((one) => one.name === name);
      if (!calculation) throw new Error(`There is no calculation "${name}".`);
      return calculate(calculation, { ...calculation.example, edition }).citations.map(({ article }) => article);
    };
    expect(articles('cover-depth', '2020')).toEqual(['Table 300.5']);
    expect(articles('cover-depth', '2023')).toEqual(['Table 300.5(A)']);
    expect(articles('ampacity', '2020')).toContain('Table 310.15(B)(1)');
    expect(articles('ampacity', '2023')).toContain('Table 310.15(B)(1)(1)');
    expect(articles('service-load', '2020')).toContain('625.42');
    expect(articles('service-load', '2023')).toContain('220.57');
    expect(articles('service-load', '2026')).toContain('120.57');
  });

  it('name only the rules that had a say', () => {
    const rulesOf = (change: Record<string, unknown>) => {
      const calculation = CALCULATIONS.find(({ name }) => name === 'conductor');
      if (!calculation) throw new Error('There is no calculation "conductor".');
      return calculate(calculation, { ...calculation.example, ...change }).citations.map(({ article }) => article);
    };
    // the cable's own column, the 10 AWG rule, the feeder's articles and 83 % stand only where they decide
    expect(rulesOf({})).toEqual([
      '210.20(A)',
      '240.6(A)',
      '210.19(A)(1)',
      'Table 310.16',
      '110.14(C)(1)',
      '240.4(B)',
      '250.122(A)',
    ]);
    expect(rulesOf({ insulation: 'nm-b' })).toContain('334.80');
    expect(rulesOf({ loadA: 16 })).toContain('240.4(D)');
    expect(rulesOf({ currentCarrying: 6 })).toContain('Table 310.15(C)(1)');
    expect(rulesOf({ supplies: 'feeder' })).toEqual(expect.arrayContaining(['215.3', '215.2(A)(1)']));
    expect(rulesOf({ supplies: 'entire-dwelling', loadA: 120 })).toContain('310.12(A)');
  });

  it('are none where arithmetic decides', () => {
    for (const name of ['trench', 'concrete', 'packages', 'three-point', 'payment', 'price-from-cost', 'charging']) {
      const calculation = CALCULATIONS.find((one) => one.name === name);
      expect(calculation && calculate(calculation, calculation.example).citations).toEqual([]);
    }
  });
});
