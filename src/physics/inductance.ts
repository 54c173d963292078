import { needPositive } from "./domain";

const mu0 = 4e-7 * Math.PI;
const inch = 0.0254;

/** Complete elliptic integrals K and E by the arithmetic-geometric mean. Source: Abramowitz and Stegun 17.6. */
function elliptic(k: number): { readonly K: number; readonly E: number } {
  let [a, b, c] = [1, Math.sqrt(1 - k * k), k];
  let sum = (c * c) / 2;
  for (let n = 1, power = 1; n < 40 && Math.abs(c) > 1e-16; n++, power *= 2) {
    const next = (a + b) / 2;
    c = (a - b) / 2;
    b = Math.sqrt(a * b);
    a = next;
    sum += power * c * c;
  }
  const K = Math.PI / (2 * a);
  return { K, E: K * (1 - sum) };
}

/**
 * Nagaoka's factor: what a current sheet of finite length has of the long solenoid's inductance.
 *
 * @param shape diameter over length
 * @returns 0 to 1
 * @source Nagaoka 1909, in complete elliptic integrals
 */
export function nagaoka(shape: number): number {
  if (shape < 1e-6) return 1;
  const k2 = shape ** 2 / (1 + shape ** 2);
  const k = Math.sqrt(k2);
  const kp2 = 1 - k2;
  const { K, E } = elliptic(k);
  return (4 / (3 * Math.PI * Math.sqrt(kp2))) * ((kp2 / k2) * (K - E) + E - k);
}

/**
 * Inductance of a single-layer coil as a current sheet.
 *
 * @param turns number of turns
 * @param diameter mean diameter of the winding, m
 * @param length of the winding, m
 * @returns H; round wire spaced apart has a little less (Rosa's correction is not in it)
 * @source mu0 pi a^2 N^2 KN / l, Nagaoka 1909
 */
export const singleLayerH = (turns: number, diameter: number, length: number): number =>
  ((mu0 * Math.PI * (diameter / 2) ** 2 * turns ** 2) / length) * nagaoka(diameter / length);

/**
 * Wheeler's formula for a single layer; within 1 % where the length is over 0.8 of the radius.
 *
 * @param turns number of turns
 * @param diameter mean diameter, m
 * @param length m
 * @returns H
 * @source Wheeler, Proc. IRE 16 (1928) 1398: a^2 N^2/(9a + 10b) in inches and uH
 */
export const wheelerH = (turns: number, diameter: number, length: number): number => {
  const [a, b] = [diameter / 2 / inch, length / inch];
  return (1e-6 * a ** 2 * turns ** 2) / (9 * a + 10 * b);
};

/**
 * Inductance of a winding of several layers.
 *
 * @param turns number of turns
 * @param diameter mean diameter, m
 * @param length of the winding, m
 * @param depth radial, m
 * @returns H; within some 1.5 % where the three terms below the line are of a size
 * @source Wheeler 1928: 0.8 a^2 N^2/(6a + 9b + 10c) in inches and uH
 */
export const multilayerH = (turns: number, diameter: number, length: number, depth: number): number => {
  const [a, b, c] = [diameter / 2 / inch, length / inch, depth / inch];
  return (0.8e-6 * a ** 2 * turns ** 2) / (6 * a + 9 * b + 10 * c);
};

/** Inductance between two rings on one axis, H. Source: Maxwell, Treatise (1873) 701, in complete elliptic integrals. */
function ringsH(radius: number, other: number, apart: number): number {
  const k = Math.sqrt((4 * radius * other) / ((radius + other) ** 2 + apart ** 2));
  const { K, E } = elliptic(k);
  return mu0 * Math.sqrt(radius * other) * ((2 / k - k) * K - (2 / k) * E);
}
/** Mean distance of a rectangle's points from each other, as a share of its two sides together. Source: Maxwell, Treatise (1873) 692. */
const meanDistance = 0.2235;
/**
 * Inductance of a winding of several layers of any shape, as rings that share its cross section: no formula of one shape's own.
 *
 * @param turns number of turns
 * @param diameter mean diameter, m
 * @param length of the winding, m, above 0
 * @param depth radial, m, above 0 and under the mean diameter: more would reach past the axis
 * @returns H; within 0.3 % of the uniform winding up to a hundred times as long as deep, or as deep as long
 * @throws {PhysicsDomainError} when a size is not above 0, or the depth not under the diameter
 * @source mutual inductance of rings summed over the cross section; Brooks's coil and Nagaoka's in inductance.published.test.ts
 */
export function thickCoilH(turns: number, diameter: number, length: number, depth: number): number {
  needPositive("a coil of several layers", { turns, diameter, length, depth, insideDiameter: diameter - depth });
  const [along, across] = [Math.sqrt(length / depth), Math.sqrt(depth / length)].map((k) => Math.min(160, Math.max(1, Math.round(24 * k))));
  const radius = (i: number): number => diameter / 2 - depth / 2 + ((i + 0.5) * depth) / across;
  const own = meanDistance * (length / along + depth / across);
  let sum = 0;
  for (let i = 0; i < across; i++)
    for (let j = 0; j < across; j++)
      for (let n = 0; n < along; n++) {
        // so many pairs of rings are this far apart along the axis
        const pairs = n === 0 ? along : 2 * (along - n);
        sum += pairs * ringsH(radius(i), radius(j), n === 0 && i === j ? own : Math.max(1e-12, (n * length) / along));
      }
  return (turns ** 2 * sum) / (along * across) ** 2;
}
