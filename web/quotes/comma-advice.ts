/** How to write a number whose decimals were typed after a comma, such as `1,5`; undefined for anything else. */
export function commaAdvice(typed: string): string | undefined {
  const found = /^\s*(\d+),(\d{1,2})\s*$/.exec(typed);
  return found ? `write ${found[1]}.${found[2]}` : undefined;
}
