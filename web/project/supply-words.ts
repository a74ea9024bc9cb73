import { choices } from '../parts/words.ts';

/** What becomes of an older supply of the building where the car parks. */
export const SUPPLY_CHOICES = choices(['none', 'removed', 'kept'], {
  none: 'does not exist',
  removed: 'will be removed',
  kept: 'is kept',
});
