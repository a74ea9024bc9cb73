/*
 * Volumes of what is dug, cut and poured. Lengths in feet, widths and depths in inches; geometry, no source needed
 * but where one is named.
 */

const IN_PER_FT = 12;
const FT3_PER_YD3 = 27;
/** What a bag makes, in hundredths of a cubic foot: 80 lb give 0.60 ft³, 60 lb give 0.45 ft³. Common practice, no source. */
const BAG_YIELDS = { bags80lb: 60, bags60lb: 45 } as const;

/**
 * The earth that a trench gives, in place and loosened.
 * @param swellPercent  how much more room loose earth takes; 25 by custom (common practice, no source)
 */
export function trench({
  lengthFt,
  widthIn,
  depthIn,
  swellPercent = 25,
}: {
  lengthFt: number;
  widthIn: number;
  depthIn: number;
  swellPercent?: number | undefined;
}): { volumeFt3: number; volumeYd3: number; looseYd3: number } {
  const volumeFt3 = lengthFt * (widthIn / IN_PER_FT) * (depthIn / IN_PER_FT);
  const volumeYd3 = volumeFt3 / FT3_PER_YD3;
  return { volumeFt3, volumeYd3, looseYd3: volumeYd3 * (1 + swellPercent / 100) };
}

/**
 * A strip of slab that is cut out and poured again: its volume in place, bags with waste, and feet of saw cut along
 * both edges and each closed end.
 * @param closedEnds  ends that do not run out at the edge of the slab, 0 to 2
 */
export function concrete({
  lengthFt,
  widthIn,
  thicknessIn,
  wastePercent = 10,
  closedEnds = 2,
}: {
  lengthFt: number;
  widthIn: number;
  thicknessIn: number;
  wastePercent?: number | undefined;
  closedEnds?: number | undefined;
}): { volumeFt3: number; volumeYd3: number; bags80lb: number; bags60lb: number; sawCutFt: number } {
  const widthFt = widthIn / IN_PER_FT;
  const volumeFt3 = lengthFt * widthFt * (thicknessIn / IN_PER_FT);
  const withWasteFt3 = (volumeFt3 * (100 + wastePercent)) / 100;
  return {
    volumeFt3,
    volumeYd3: volumeFt3 / FT3_PER_YD3,
    bags80lb: wholeBags(withWasteFt3, BAG_YIELDS.bags80lb),
    bags60lb: wholeBags(withWasteFt3, BAG_YIELDS.bags60lb),
    sawCutFt: 2 * lengthFt + closedEnds * widthFt,
  };
}

/** Whole bags; a billionth of a bag is the dust of binary fractions, not one more to buy. */
function wholeBags(volumeFt3: number, yieldHundredths: number): number {
  return Math.ceil((volumeFt3 * 100) / yieldHundredths - 1e-9);
}
