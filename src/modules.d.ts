declare module "*.md" {
  const text: string;
  export default text;
}
declare module "@stdlib/stats-base-dists-normal-quantile" {
  export default function quantile(p: number, mu: number, sigma: number): number;
}
declare module "@stdlib/stats-base-dists-normal-cdf" {
  export default function cdf(x: number, mu: number, sigma: number): number;
}
declare module "fft.js" {
  export default class FFT {
    constructor(size: number);
    realTransform(out: Float64Array, input: Float64Array): void;
  }
}
