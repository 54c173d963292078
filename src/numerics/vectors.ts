/** Long sums over columns of numbers, by vectors.wat where WebAssembly with SIMD is to be had. */
import bytes from "./vectors.wat";

/** Columns in one list: places and lengths count numbers. Lengths are multiples of `wide`, and what stands beyond a column's own end is zero. */
export interface Room {
  readonly numbers: Float64Array;
  /** sum of the products of two columns */
  readonly dot: (a: number, b: number, length: number) => number;
  /** takes so much of one column from another, in place */
  readonly subtract: (from: number, of: number, part: number, length: number) => void;
}
export const wide = 8;
const page = 65_536;

type Long = (a: number, b: number, ...rest: number[]) => number;
interface Begun {
  readonly memory: WebAssembly.Memory;
  readonly dot: Long;
  readonly subtract: Long;
}
function begin(): Begun | undefined {
  try {
    const memory = new WebAssembly.Memory({ initial: 1 });
    const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes), { room: { memory } });
    return { memory, dot: exports.dot as Long, subtract: exports.subtract as Long };
  } catch {
    // refused or too old: plain arithmetic says the same, only more slowly
    return undefined;
  }
}
/** Once for all; what is in the memory is of no use to whoever asks next. */
const had: { tried: boolean; begun?: Begun | undefined } = { tried: false };

/**
 * Room for columns, in memory that the next call takes over: whoever asks is done with it before another does.
 *
 * @param length how many numbers
 * @param plain true to go without WebAssembly
 * @returns the room, zero throughout
 * @source textbook definitions of a product of two vectors and of a part taken from one
 */
export function roomFor(length: number, plain = false): Room {
  if (!had.tried) {
    had.begun = begin();
    had.tried = true;
  }
  const { begun } = had;
  if (!begun || plain) return plainRoom(length);
  const { memory, dot, subtract } = begun;
  const more = Math.ceil((8 * length - memory.buffer.byteLength) / page);
  if (more > 0) memory.grow(more);
  return {
    numbers: new Float64Array(memory.buffer, 0, length).fill(0),
    dot: (a, b, n) => dot(8 * a, 8 * b, 8 * n),
    subtract: (from, of, part, n) => void subtract(8 * from, 8 * of, part, 8 * n),
  };
}

function plainRoom(length: number): Room {
  const numbers = new Float64Array(length);
  return {
    numbers,
    dot: (a, b, n) => {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += numbers[a + i] * numbers[b + i];
      return sum;
    },
    subtract: (from, of, part, n) => {
      for (let i = 0; i < n; i++) numbers[from + i] -= part * numbers[of + i];
    },
  };
}
