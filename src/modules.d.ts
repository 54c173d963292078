declare module "*.md" {
  const text: string;
  export default text;
}
declare module "fft.js" {
  export default class FFT {
    constructor(size: number);
    realTransform(out: Float64Array, input: Float64Array): void;
  }
}
