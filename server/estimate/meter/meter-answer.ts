import { z } from 'zod';
import { measuredDemand } from '../../electrical/measured-demand.ts';
import { Finding } from '../answer.ts';
import { toFourDecimals } from '../money.ts';
import type { Edition } from '../vocabulary.ts';
import { readGreenButton } from './green-button.ts';
import { readMeterCsv } from './meter-csv.ts';
import type { MeterFile } from './meter-file.ts';

/** What a utility's file says of a house's load, and what a description may take of it. */
export const MeterAnswer = z
  .object({
    found: z.object({
      format: z.enum(['csv', 'green-button']),
      unit: z.string(),
      startColumn: z.string().optional(),
      amountColumn: z.string().optional(),
      readings: z.int(),
      /** Rows without a value; they are gaps. */
      unread: z.int(),
      intervalMinutes: z.number(),
      first: z.string(),
      last: z.string(),
      days: z.int(),
      unbrokenDays: z.int(),
      gaps: z.int(),
      overlaps: z.int(),
      peakKw: z.number(),
      peakA: z.number(),
      peakStart: z.string(),
      peakMinutes: z.number(),
    }),
    usable: z.boolean(),
    findings: z.array(Finding),
    because: z.array(z.string()),
    /** For `site.load`, where the code lets the record stand for the load; else null. */
    load: z.object({ method: z.literal('measured'), peakA: z.number(), days: z.int() }).nullable(),
  })
  .meta({ id: 'MeterReadings' });
export type MeterAnswer = z.output<typeof MeterAnswer>;

interface Asked {
  /** The file: CSV, or XML of the Energy Services Provider Interface. */
  text: string;
  voltageV: number;
  /** Does anything generate, or shave peaks, behind the meter? The file may show that too. */
  solar: boolean;
  edition: Edition;
}

/**
 * Reads a utility's interval file and finds the demand that 220.87 speaks of. The peak is written up to a tenth of an
 * ampere, days are whole.
 * @throws {InputError} with row, column and value of what cannot be read
 */
export function meterAnswer({ text, voltageV, solar, edition }: Asked): MeterAnswer {
  const file = /^\s*(?:\uFEFF\s*)?</.test(text) ? readGreenButton(text) : readMeterCsv(text);
  const { readings, intervalMinutes, unread, sendsBack, format, unit, startColumn, amountColumn } = file;
  const demand = measuredDemand({ readings, intervalMinutes, voltageV, solar: solar || sendsBack, edition });
  const { peakA, days, usable, findings, record } = demand;
  const found = {
    format,
    unit,
    ...(startColumn !== undefined && { startColumn }),
    ...(amountColumn !== undefined && { amountColumn }),
    readings: readings.length,
    unread,
    intervalMinutes,
    ...record,
    days,
    peakKw: toFourDecimals((peakA * voltageV) / 1000),
    peakA: toFourDecimals(peakA),
  };
  return {
    found,
    usable,
    findings,
    because: inWords(found, { voltageV, file }),
    load: usable ? { method: 'measured', peakA: upToATenth(peakA), days } : null,
  };
}

const upToATenth = (amps: number) => Math.ceil(amps * 10 - 1e-9) / 10;

function inWords(found: MeterAnswer['found'], { voltageV, file }: { voltageV: number; file: MeterFile }): string[] {
  const { readings, intervalMinutes, first, last, days, gaps, unread, peakKw, peakA, peakStart, peakMinutes } = found;
  const said = (value: number) => String(Math.round(value * 10) / 10);
  const written = (start: string) => start.replace('T', ' ');
  const columns =
    file.format === 'csv'
      ? `CSV: the start of each interval from "${file.startColumn}", ${file.unit} from "${file.amountColumn}"`
      : `ESPI (Green Button), in ${file.unit}`;
  const empty = unread > 0 ? `; ${unread} rows without a value are gaps, not zero` : '';
  return [
    `Read as ${columns}.`,
    `${readings.toLocaleString('en-US')} readings, one every ${said(intervalMinutes)} minutes, from ${written(first)} to ${written(last)}: ${days} days, ${gaps === 1 ? '1 gap' : `${gaps} gaps`}${empty}.`,
    `The highest ${said(peakMinutes)} minutes are those from ${written(peakStart)}: ${said(peakKw)} kW, ${said(peakA)} A at ${voltageV} V.`,
  ];
}
