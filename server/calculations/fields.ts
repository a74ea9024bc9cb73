import { z } from 'zod';
import { EDITIONS } from '../electrical/citations.ts';
import { INSULATIONS } from '../electrical/insulations.ts';
import { CONDUCTOR_SIZES, METALS } from '../electrical/sizes.ts';
import { oneOf, quantity } from '../estimate/description/fields.ts';

/** Fields that several calculations share: one bound and one message for each. */
export const metal = () => oneOf(METALS);
export const size = () => oneOf(CONDUCTOR_SIZES);
export const insulation = () => oneOf(INSULATIONS);
export const edition = () => oneOf(EDITIONS).default('2023');
export const amperes = () => quantity({ unit: 'amperes', more: 0, most: 5000 });
export const feet = () => quantity({ unit: 'feet', more: 0, most: 100_000 });
export const inches = () => quantity({ unit: 'inches', more: 0, most: 10_000 });
export const percent = (most: number) => quantity({ unit: 'percent', least: 0, most });
export const voltAmperes = () => quantity({ unit: 'volt-amperes', least: 0, most: 10_000_000 });
export const volts = () => quantity({ unit: 'volts', more: 0, most: 1000 });
export const ambientC = () => quantity({ unit: 'degrees Celsius', least: -40, most: 85 }).default(30);
/** Conductors in one raceway or cable that carry current; Table 310.15(C)(1) goes on above 41, and so do we. */
export const currentCarrying = (standard: number) =>
  quantity({ unit: 'conductors', whole: true, least: 1, most: 200 }).default(standard);
/** One of the temperature ratings of terminals, in degrees Celsius. */
export const terminalsC = () => z.literal([60, 75, 90], { error: 'must be 60, 75 or 90 (degrees Celsius)' });
