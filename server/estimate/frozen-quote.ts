import { z } from 'zod';
import { Estimate } from './answer.ts';
import type { QuoteInput } from './quote.ts';

/*
 * What was frozen in a quote stays readable for ever. It is checked here when it is written and whenever it is read.
 * Rules may grow stricter since: only the shape is asked for. Where the shape itself changes, QUOTE_FORMAT counts up
 * and a step of UPGRADES takes the former shape over; the quotes kept in test/http/golden/ say when that is needed.
 */

/** The format that quotes are frozen in now. */
export const QUOTE_FORMAT = 1;

/** What is frozen of a quote, as it lies in the data file. */
export interface FrozenParts {
  format: number;
  stated: unknown;
  issuer: unknown;
  estimate: unknown;
}

/** UPGRADES[n] makes of a quote of format n + 1 one of format n + 2. The first format needed none yet. */
const UPGRADES: readonly ((parts: FrozenParts) => FrozenParts)[] = [];

const texts = z.array(z.string());
const cents = z.int();

/** What was stated when it was issued; what could be left out then may be missing. */
const FrozenStated = z.object({
  optionId: z.string(),
  alternates: texts,
  validDays: z.int(),
  show: z.enum(['items', 'sum']),
  exclusions: texts,
  allowances: z.array(z.object({ text: z.string(), cents })),
  assumptions: texts,
  deposit: z.object({ bp: z.int().optional(), cents: cents.optional() }).optional(),
  progress: z.array(z.object({ when: z.string(), bp: z.int() })),
  warrantyMonths: z.int(),
  notes: z.string().optional(),
  revisionOf: z.string().optional(),
  customer: z.object({
    name: z.string(),
    address: z.string().optional(),
    email: z.string().optional(),
    phone: z.string().optional(),
  }),
  siteAddress: z.string().optional(),
  bookRevision: z.int().optional(),
  startWindow: z.string().optional(),
}) satisfies z.ZodType<QuoteInput>;

const FrozenIssuer = z.object({
  businessName: z.string().optional(),
  address: z.string().optional(),
  licenceNumber: z.string().optional(),
});

const Length = z.union([z.number(), z.object({ low: z.number(), likely: z.number(), high: z.number() })]);
const FrozenLegs = z.array(z.looseObject({ kind: z.string(), lengthFt: Length }));
/** The description, with the defaults of its day filled in: what papers and drawings ask of it. */
const FrozenDescription = z.looseObject({
  title: z.string(),
  site: z.looseObject({ building: z.string(), service: z.looseObject({}) }),
  route: FrozenLegs.optional(),
  options: z
    .array(
      z.looseObject({
        id: z.string(),
        label: z.string(),
        feed: z.string(),
        route: FrozenLegs.optional(),
        chargers: z.array(z.looseObject({ equipment: z.string() })),
      }),
    )
    .min(1),
  extras: z.array(z.looseObject({ description: z.string() })),
  terms: z.looseObject({ who: z.string(), ownerDoes: texts }),
});

const Frozen = z.object({
  format: z.int(),
  stated: FrozenStated,
  issuer: FrozenIssuer,
  estimate: Estimate.extend({ description: FrozenDescription, options: Estimate.shape.options.min(1) }),
});

/** A frozen quote as it is read: the quoted option is the first of its estimate. */
export interface FrozenQuote {
  stated: z.output<typeof FrozenStated>;
  issuer: z.output<typeof FrozenIssuer>;
  estimate: Estimate;
}

/** A quote cannot be read: a newer program wrote it, or it is not as it was written. */
export class UnreadableQuoteError extends Error {
  override name = 'UnreadableQuoteError';
  readonly reason: 'newer' | 'damaged';
  constructor(message: string, { reason, cause }: { reason: UnreadableQuoteError['reason']; cause?: unknown }) {
    super(message, { cause });
    this.reason = reason;
  }
}

/** Reads what was frozen of a quote, whichever format it has. @throws {UnreadableQuoteError} */
export function frozenQuote(parts: FrozenParts): FrozenQuote {
  if (parts.format > QUOTE_FORMAT) {
    throw new UnreadableQuoteError(
      `was written by a newer program, in format ${parts.format}, and this one reads formats up to ${QUOTE_FORMAT}. ` +
        'Nothing was changed: use the newer program.',
      { reason: 'newer' },
    );
  }
  const current = UPGRADES.slice(parts.format - 1).reduce((older, upgrade) => upgrade(older), parts);
  const { data, error } = Frozen.safeParse(current);
  if (data) {
    const { stated, issuer, estimate } = data;
    // The description keeps what was checked when it was estimated; the schema above asks for its shape alone.
    return { stated, issuer, estimate: estimate as unknown as Estimate };
  }
  const [issue] = error.issues;
  throw new UnreadableQuoteError(
    `is not as it was written, at ${issue?.path.join('.')}: ${issue?.message}. Nothing was changed: restore a backup.`,
    { reason: 'damaged', cause: error },
  );
}
