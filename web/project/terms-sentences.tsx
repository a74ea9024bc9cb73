import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { ChecksWord, ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import { type Choice, CLASS_CHOICES, choices, eitherOr, orUnstated, SCOPE_CHOICES } from '../parts/words.ts';
import { More, Part, Sentence } from './sentence.tsx';
import { useRates } from './use-rates.ts';

interface TermsProps {
  form: Form;
  /** Where the terms stand in what is edited: `terms` of a description, or `defaultTerms` of the settings. */
  at?: string;
}

const WHO = choices(['contractor', 'owner'], { contractor: 'a contractor', owner: 'the owner' });

/** Who does the work, and what is added to its cost. */
export function TermsSentences({ form, at = 'terms' }: TermsProps) {
  const { field } = form;
  const path = (last: string) => `${at}.${last}`;
  const percent = (last: string, label: string) => (
    <NumberWord field={field(path(last))} label={`${label}, in percent`} scale="percent" emptied="unstated" />
  );
  return (
    <Part title="Terms" aside={<span className="aside">work, markup, tax</span>}>
      <Sentence>
        The work is done by{' '}
        <ChoiceWord field={field(path('who'))} label="Who does the work" choices={WHO} standard="contractor" />. Markup
        is {percent('markup.materialBp', 'Markup on material')} % on material,{' '}
        {percent('markup.laborBp', 'Markup on labor')} % on labor,{' '}
        {percent('markup.equipmentBp', 'Markup on equipment')} % on equipment and{' '}
        {percent('markup.feeBp', 'Markup on fees')} % on fees.
      </Sentence>
      <Sentence>
        Overhead {percent('overheadBp', 'Overhead')} %, contingency {percent('contingencyBp', 'Contingency')} %, profit{' '}
        {percent('profitBp', 'Profit')} % of the{' '}
        <ChoiceWord
          field={field(path('profitOn'))}
          label="What profit is a share of"
          choices={choices(['cost', 'price'])}
        />
        , less{' '}
        <NumberWord
          field={field(path('discountCents'))}
          label="Discount, in dollars"
          scale="dollars"
          emptied="unstated"
        />{' '}
        dollars of discount.
      </Sentence>
      <Sentence>
        Tax is {percent('taxBp', 'Tax')} % of the{' '}
        <ChoiceWord
          field={field(path('taxBase'))}
          label="What tax is a share of"
          choices={choices(['cost', 'price'])}
        />{' '}
        of <ChecksWord field={field(path('taxOn'))} label="Classes that are taxed" choices={CLASS_CHOICES} />
      </Sentence>
      <More title="Labor, crew, travel, waste">
        <LaborSentences form={form} at={at} />
      </More>
      <More title="What the owner does">
        <ChecksWord field={field(path('ownerDoes'))} label="What the owner does" choices={SCOPE_CHOICES} />
      </More>
      <More title="Incentives">
        <Incentives form={form} at={at} />
      </More>
    </Part>
  );
}

function LaborSentences({ form, at }: Required<TermsProps>) {
  const { field } = form;
  const rates = useRates();
  const number = (last: string, label: string) => (
    <NumberWord field={field(`${at}.${last}`)} label={label} emptied="unstated" />
  );
  const cents = (last: string, label: string) => (
    <NumberWord field={field(`${at}.${last}`)} label={label} scale="dollars" emptied="unstated" />
  );
  return (
    <>
      <Sentence>
        Labor is paid by the rate{' '}
        <ChoiceWord
          field={field(`${at}.laborRate`)}
          label="Labor rate of the price book"
          choices={orUnstated(rates, 'of an electrician')}
        />
        , which is what an hour{' '}
        <ChoiceWord
          field={field(`${at}.laborRateIs`)}
          label="What the labor rate is"
          choices={choices(['cost', 'billed'], { cost: 'costs', billed: 'is billed at' })}
        />
        . A crew of {number('crewSize', 'People in the crew')} works {number('hoursPerDay', 'Hours a day')} hours a day,
        and travels {number('travel.minutesEachWay', 'Travel each way, in minutes')} minutes and{' '}
        {number('travel.milesEachWay', 'Travel each way, in miles')} miles each way. The least charge is{' '}
        {cents('minimumCents', 'Least charge, in dollars')} dollars; an owner&rsquo;s hour weighs{' '}
        {cents('ownerHourCents', "Owner's hour, in dollars")} dollars.
      </Sentence>
      <Crew form={form} at={at} rates={rates} />
      <Sentence>
        Makeup is {number('makeup.panelFt', 'Makeup at a panel, in feet')} ft at a panel,{' '}
        {number('makeup.boxFt', 'Makeup at a box, in feet')} ft at a box and{' '}
        {number('makeup.outletFt', 'Makeup at an outlet, in feet')} ft at an outlet; waste is{' '}
        {number('makeup.wastePercent.cable', 'Waste of cable, in percent')} % of cable,{' '}
        {number('makeup.wastePercent.conductor', 'Waste of wire, in percent')} % of wire and{' '}
        {number('makeup.wastePercent.conduit', 'Waste of conduit, in percent')} % of conduit. What is left over is{' '}
        <ChoiceWord
          field={field(`${at}.offcuts`)}
          label="What is left over"
          choices={choices(['charged', 'stock'], { charged: 'charged', stock: 'taken into stock' })}
        />
        .
      </Sentence>
    </>
  );
}

/** Who is in the crew, each at a rate of the price book; without it, heads of one rate count. */
function Crew({ form, at: terms, rates }: Required<TermsProps> & { rates: readonly Choice[] }) {
  return (
    <ListWords
      form={form}
      path={`${terms}.crew`}
      what="rate to the crew"
      blank={() => ({ rate: rates[0]?.value ?? 'rate-electrician', count: 1 })}
    >
      {({ at, number }) => (
        <>
          <NumberWord field={form.field(`${at}.count`)} label={`People at rate ${number} of the crew`} /> in the crew at
          the rate <ChoiceWord field={form.field(`${at}.rate`)} label={`Rate ${number} of the crew`} choices={rates} />
        </>
      )}
    </ListWords>
  );
}

const INCENTIVE_KIND = choices(['fixed', 'percent'], { fixed: 'dollars', percent: 'percent' });

function Incentives({ form, at: terms }: Required<TermsProps>) {
  return (
    <ListWords
      form={form}
      path={`${terms}.incentives`}
      what="incentive"
      blank={() => ({ kind: 'fixed', of: ['material'] })}
    >
      {({ at, number }) => <IncentiveSentence form={form} at={at} number={number} />}
    </ListWords>
  );
}

function IncentiveSentence({ form, at, number }: { form: Form; at: string; number: number }) {
  const each = (last: string) => form.field(`${at}.${last}`);
  const isFixed = form.value(`${at}.kind`) === 'fixed';
  const name = (what: string) => `${what} of incentive ${number}`;
  return (
    <>
      <TextWord field={each('name')} label={name('Name')} /> gives{' '}
      <NumberWord
        field={each(isFixed ? 'cents' : 'bp')}
        label={name('Amount')}
        scale={isFixed ? 'dollars' : 'percent'}
      />{' '}
      <ChoiceWord field={each('kind')} label={name('Kind')} choices={INCENTIVE_KIND} /> of{' '}
      <ChecksWord field={each('of')} label={name('Classes')} choices={CLASS_CHOICES} />, at most{' '}
      <NumberWord field={each('capCents')} label={`${name('Most')}, in dollars`} scale="dollars" emptied="unstated" />{' '}
      dollars, until{' '}
      <TextWord field={each('until')} label={`${name('Last day')}, such as 2026-12-31`} emptied="unstated" />; it is{' '}
      <ChoiceWord field={each('certain')} label={name('Certainty')} choices={eitherOr('certain', 'not certain')} />
    </>
  );
}
