import type { EstimateOption } from '../estimate/answer.ts';
import type { Leg } from '../estimate/description/leg.ts';
import type { EmptyRaceway } from './empty-raceways.ts';
import type { Parking } from './parking.ts';

/** What a section is drawn of: the option as estimated, and the route that it follows. */
export interface SectionInput {
  title: string;
  option: EstimateOption;
  route: readonly Leg[];
  building: Parking['building'];
  mount?: Parking['mount'];
  /** Empty raceways that are laid beside the runs over the whole route: for a later feeder, or for data. */
  emptyRaceways?: readonly EmptyRaceway[];
  /** Is the drawing for those who build, not for those who pay? Then it shows no money. */
  isWithoutMoney?: boolean;
  /** Breadth of the sheet in points; a narrower one than 440 becomes 440. */
  widthPt: number;
}
