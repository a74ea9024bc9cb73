/** The functions of jStat that are used here; the package brings no types. */
declare module 'jstat' {
  const jStat: {
    jStat: {
      beta: {
        inv(chance: number, alpha: number, beta: number): number;
        pdf(x: number, alpha: number, beta: number): number;
        cdf(x: number, alpha: number, beta: number): number;
      };
      studentt: { inv(chance: number, freedom: number): number };
      normal: { cdf(x: number, mean: number, sd: number): number };
      corrcoeff(one: number[], other: number[]): number;
      mean(values: number[]): number;
      variance(values: number[], sample?: boolean): number;
      stdev(values: number[], sample?: boolean): number;
    };
  };
  export default jStat;
}
