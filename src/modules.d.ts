declare module "*.md" {
  const text: string;
  export default text;
}
/** WebAssembly text, assembled: its bytes. */
declare module "*.wat" {
  const bytes: Uint8Array<ArrayBuffer>;
  export default bytes;
}
declare module "fft.js" {
  export default class FFT {
    constructor(size: number);
    realTransform(out: Float64Array, input: Float64Array): void;
    transform(out: Float64Array, data: ArrayLike<number>): void;
    inverseTransform(out: Float64Array, data: ArrayLike<number>): void;
  }
}
