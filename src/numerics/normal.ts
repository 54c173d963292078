/**
 * The standard normal law by two published algorithms. They stand here and not in a library since the one that does them as well and as fast comes in 148
 * packages; each is held to published values and to that library's.
 */
const polynomial = (c: readonly number[], x: number): number => {
  let sum = 0;
  for (let i = c.length - 1; i >= 0; i--) sum = sum * x + c[i];
  return sum;
};
const middle = {
  over: [
    3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125, 45921.953931549871457, 67265.770927008700853,
    33430.575583588128105, 2509.0809287301226727,
  ],
  under: [
    1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867, 39307.89580009271061,
    28729.085735721942674, 5226.495278852854561,
  ],
};
const near = {
  over: [
    1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504, 1.27045825245236838258,
    0.24178072517745061177, 0.0227238449892691845833, 7.7454501427834140764e-4,
  ],
  under: [
    1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459, 0.0151986665636164571966,
    5.475938084995344946e-4, 1.05075007164441684324e-9,
  ],
};
const far = {
  over: [
    6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123, 0.026532189526576123093,
    0.0012426609473880784386, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
  ],
  under: [
    1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525, 7.868691311456132591e-4, 1.8463183175100546818e-5,
    1.4215117583164458887e-7, 2.04426310338993978564e-15,
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
    // Mills's ratio from its far end
    const x = Math.abs(z);
    let ratio = x;
    for (let k = 160; k >= 1; k--) ratio = x + k / ratio;
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
