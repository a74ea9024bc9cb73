import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ampacity } from '../../../server/electrical/ampacity.ts';
import { charging } from '../../../server/electrical/charging.ts';
import { smallestConductor } from '../../../server/electrical/conductor.ts';
import { conduitFill, smallestConduit } from '../../../server/electrical/conduit-fill.ts';
import { coverDepthIn } from '../../../server/electrical/cover.ts';
import { equipmentGroundSize } from '../../../server/electrical/equipment-ground.ts';
import { RefusedInputError } from '../../../server/electrical/errors.ts';
import { electrodeConductorSize } from '../../../server/electrical/grounding-electrode.ts';
import { serviceLoad } from '../../../server/electrical/service-load.ts';
import { dropOrSize } from '../../../server/electrical/voltage-drop.ts';
import { agrees, at, type PublishedCase } from './agreement.ts';

type Input<Rule extends (input: never) => unknown> = Parameters<Rule>[0];

/** What is put in by hand where a case leaves it out: the defaults that the calculations promise. */
const CONDUCTOR = {
  continuous: false,
  terminalsC: 75,
  ambientC: 30,
  currentCarrying: 3,
  supplies: 'branch',
  edition: '2023',
};

const ASK: Record<string, (input: Record<string, unknown>) => unknown> = {
  conductor: (input) => smallestConductor({ ...CONDUCTOR, ...input } as Input<typeof smallestConductor>),
  ampacity: (input) =>
    ampacity({
      terminalsC: input.insulationC,
      ambientC: 30,
      currentCarrying: 3,
      ...input,
    } as Input<typeof ampacity>),
  'voltage-drop': (input) => dropOrSize(input as unknown as Input<typeof dropOrSize>),
  'conduit-fill': (input) =>
    input.tradeSize === undefined
      ? smallestConduit(input as unknown as Input<typeof smallestConduit>)
      : conduitFill(input as unknown as Input<typeof conduitFill>),
  'service-load': (input) => serviceLoad(input as unknown as Input<typeof serviceLoad>),
  'equipment-ground': (input) => ({ size: equipmentGroundSize(input as Input<typeof equipmentGroundSize>) }),
  'grounding-electrode': (input) => ({ size: electrodeConductorSize(input as Input<typeof electrodeConductorSize>) }),
  'cover-depth': (input) => ({ depthIn: coverDepthIn(input as Input<typeof coverDepthIn>) }),
  charging: (input) => charging(input as Input<typeof charging>),
};

function casesOf(name: string): PublishedCase[] {
  return JSON.parse(readFileSync(new URL(`../cases/${name}.json`, import.meta.url), 'utf8')) as PublishedCase[];
}

describe.each(Object.entries(ASK))('published cases of %s', (name, ask) => {
  const cases = casesOf(name);

  it('has some', () => {
    expect(cases.length).toBeGreaterThan(5);
  });

  it.each(cases.map((one, index) => ({ ...one, index })))(
    'agrees with #$index: $source',
    ({ input, expect: published }) => {
      if (published.refused === true) {
        expect(() => ask(input)).toThrow(RefusedInputError);
        return;
      }
      const result = ask(input);
      const differing = Object.entries(published)
        .filter(([path, value]) => !agrees(value, at(result, path)))
        .map(([path, value]) => ({ path, published: value, got: at(result, path) }));
      expect(differing).toEqual([]);
    },
  );
});

describe('agreement', () => {
  it('knows a value that is off from one that the tolerance admits', () => {
    expect(agrees(4.7136, 4.71364)).toBe(true);
    expect(agrees(4.7136, 4.7138)).toBe(false);
    expect(agrees({ value: 7.9, abs: 0.05 }, 7.902)).toBe(true);
    expect(agrees({ value: 7.9, abs: 0.05 }, 7.96)).toBe(false);
    expect(agrees({ value: 100, rel: 0.01 }, 101.2)).toBe(false);
    expect(agrees('4', '6')).toBe(false);
    expect(agrees({ value: 1 }, undefined)).toBe(false);
  });
});
