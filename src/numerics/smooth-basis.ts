/** Basis of a smooth function on -1 to 1: a cubic, and sines that stand for a Matern-5/2 process with free length and size. */
export const cubicTerms = 4;
const halfSpan = 1.35;
const sineTerms = 16;
export const smoothTerms = cubicTerms + sineTerms;

/**
 * Values of the basis at a place.
 *
 * @param u place, -1 to 1 (a little beyond is allowed)
 * @param into receives `smoothTerms` values: Legendre polynomials 0 to 3, then sines that vanish at the ends of a wider span
 * @source Solin and Sarkka, Hilbert space methods for reduced-rank Gaussian process regression (2020), eq. 56: eigenfunctions of an interval
 */
export function smoothBasis(u: number, into: Float64Array): void {
  into[0] = 1;
  into[1] = u;
  into[2] = 1.5 * u * u - 0.5;
  into[3] = 2.5 * u ** 3 - 1.5 * u;
  for (let j = 1; j <= sineTerms; j++)
    into[cubicTerms + j - 1] = Math.sin((Math.PI * j * (u + halfSpan)) / (2 * halfSpan)) / Math.sqrt(halfSpan);
}

/**
 * Slopes of the basis at a place, by u.
 *
 * @param u place
 * @param into receives `smoothTerms` slopes
 * @source derivative of smoothBasis
 */
export function smoothSlopes(u: number, into: Float64Array): void {
  into[0] = 0;
  into[1] = 1;
  into[2] = 3 * u;
  into[3] = 7.5 * u * u - 1.5;
  for (let j = 1; j <= sineTerms; j++) {
    const k = (Math.PI * j) / (2 * halfSpan);
    into[cubicTerms + j - 1] = (k * Math.cos(k * (u + halfSpan))) / Math.sqrt(halfSpan);
  }
}

/**
 * A smooth function at a place: the basis times coefficients, without laying the basis out.
 *
 * @param u place, -1 to 1 (a little beyond is allowed)
 * @param coefficients `smoothTerms` of them, or more: the rest is left alone
 * @returns the sum, as smoothBasis gives it to rounding
 * @source sin(j t) by the recurrence of Chebyshev's polynomials of the second kind, textbook
 */
export function smoothValue(u: number, coefficients: Float64Array): number {
  const angle = (Math.PI * (u + halfSpan)) / (2 * halfSpan);
  const twice = 2 * Math.cos(angle);
  let [before, now, sines] = [0, Math.sin(angle), 0];
  for (let j = 0; j < sineTerms; j++) {
    sines += coefficients[cubicTerms + j] * now;
    const next = twice * now - before;
    before = now;
    now = next;
  }
  const cubic = coefficients[0] + u * coefficients[1] + (1.5 * u * u - 0.5) * coefficients[2] + (2.5 * u * u - 1.5) * u * coefficients[3];
  return cubic + sines / Math.sqrt(halfSpan);
}

/**
 * Slope of a smooth function at a place, by u.
 *
 * @param u place
 * @param coefficients as for smoothValue
 * @returns the slope, as smoothSlopes gives it to rounding
 * @source derivative of smoothValue; cos(j t) by the recurrence of Chebyshev's polynomials of the first kind, textbook
 */
export function smoothSlope(u: number, coefficients: Float64Array): number {
  const k = Math.PI / (2 * halfSpan);
  const cosine = Math.cos(k * (u + halfSpan));
  let [before, now, sines] = [1, cosine, 0];
  for (let j = 1; j <= sineTerms; j++) {
    sines += coefficients[cubicTerms + j - 1] * j * now;
    const next = 2 * cosine * now - before;
    before = now;
    now = next;
  }
  return coefficients[1] + 3 * u * coefficients[2] + (7.5 * u * u - 1.5) * coefficients[3] + (sines * k) / Math.sqrt(halfSpan);
}

/**
 * Prior variance of each sine so that together they make a Matern-5/2 process of the wanted size and length.
 *
 * @param length correlation length, in units of u
 * @param size standard deviation of the process
 * @returns variances of the sines, by order
 * @source spectral density of Matern 5/2, S(w) = size^2 (16/3) k^5 / (k^2 + w^2)^3 with k = sqrt(5)/length; integral over w/(2 pi) is size^2
 */
export function maternVariances(length: number, size: number): Float64Array {
  const k = Math.sqrt(5) / length;
  const whole = size * size * (16 / 3) * k ** 5;
  const variances = new Float64Array(sineTerms);
  for (let i = 0; i < sineTerms; i++) {
    const w = (Math.PI * (i + 1)) / (2 * halfSpan);
    const off = k * k + w * w;
    variances[i] = whole / (off * off * off);
  }
  return variances;
}
