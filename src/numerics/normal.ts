/**
 * The standard normal law by two published algorithms. They stand here and not in a library since the one that does them as well and as fast comes in 148
 * packages; each is held to published values and to that library's.
 */
type Eight = readonly [number, number, number, number, number, number, number, number];
/** By Horner's rule, written out: a loop over the coefficients takes twice as long. */
const polynomial = (c: Eight, x: number): number =>
  ((((((c[7] * x + c[6]) * x + c[5]) * x + c[4]) * x + c[3]) * x + c[2]) * x + c[1]) * x + c[0];
type Ratio = { readonly over: Eight; readonly under: Eight };
const middle: Ratio = {
  over: [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087, 33430.57558358813,
    2509.0809287301227,
  ],
  under: [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271, 28729.085735721943,
    5226.495278852854,
  ],
};
const near: Ratio = {
  over: [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684, 0.2417807251774506,
    0.022723844989269184, 0.0007745450142783414,
  ],
  under: [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457, 0.0005475938084995345,
    1.0507500716444169e-9,
  ],
};
const far: Ratio = {
  over: [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124, 0.0012426609473880784,
    2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  under: [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5, 1.421511758316446e-7,
    2.0442631033899397e-15,
  ],
};

/**
 * Quantile of the standard normal law.
 *
 * @param p probability, above 0 and below 1
 * @returns z with P(Z < z) = p, to some 1e-16 of it
 * @source Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988) 477 to 484
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(middle.over, r)) / polynomial(middle.under, r);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const { over, under } = r <= 5 ? near : far;
  const x = r - (r <= 5 ? 1.6 : 5);
  const z = polynomial(over, x) / polynomial(under, x);
  return q < 0 ? -z : z;
}

/**
 * Distribution function of the standard normal law.
 *
 * @param z any number
 * @returns P(Z < z), to some 1e-15; far out in the tails to 1e-13 of itself
 * @source Marsaglia, Evaluating the Normal Distribution, Journal of Statistical Software 11 (2004) 4: the series about 0; in the tails the continued
 * fraction of Mills's ratio (Abramowitz and Stegun 26.2.14)
 */
export function normalCdf(z: number): number {
  if (Number.isNaN(z)) return Number.NaN;
  const density = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  if (Math.abs(z) > 2.5) {
    // Mills's ratio from its far end; the farther out, the fewer terms tell
    const x = Math.abs(z);
    let ratio = x;
    for (let k = Math.ceil(12 + 950 / (x * x)); k >= 1; k--) ratio = x + k / ratio;
    const tail = density / ratio;
    return z < 0 ? tail : 1 - tail;
  }
  let term = z;
  let sum = z;
  for (let k = 3; Math.abs(term) > 1e-17 * Math.abs(sum) && k < 400; k += 2) {
    term *= (z * z) / k;
    sum += term;
  }
  return 0.5 + density * sum;
}
