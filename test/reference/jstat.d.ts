/** The one function of jStat that is used here; the package brings no types. */
declare module 'jstat' {
  const jStat: { jStat: { beta: { inv(chance: number, alpha: number, beta: number): number } } };
  export default jStat;
}
