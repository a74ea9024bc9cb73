import { expect, it } from 'vitest';
import { estimate } from '../../server/estimate/estimate.ts';
import { optionsSchedules } from '../../server/report/options-schedule.ts';
import { estimateText } from '../../server/terminal/estimate-text.ts';
import { household, SEEDED } from '../estimate/fields/priced.ts';

it('says of a circuit that is there that its voltage drop is not known, not that it is nothing', () => {
  const found = household({
    route: [],
    option: {
      feed: 'existing-receptacle',
      chargers: [{ amps: 12, connection: 'receptacle-5-15', equipment: 'owned' }],
      receptacle: { circuitA: 15, sharedWith: [], gfci: true, grounded: true },
    },
  });
  const answer = estimate(found, SEEDED, { parts: 'core' });
  const [option] = answer.options;
  if (!option) throw new Error('The household has one option.');
  expect(estimateText(answer, option)).toMatch(/^Voltage drop +not known$/m);
  const cells = optionsSchedules(answer).flatMap(({ rows }) => rows.flatMap((row) => row.cells));
  expect(cells).toContain('the outlet that is there; the drop on its circuit is not known');
});
