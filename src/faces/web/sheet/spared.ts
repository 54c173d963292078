/** An answer as it is sent after another: what is as it was is not sent again, and is the same object there as before. */
export type Spared =
  | { readonly same: true }
  | { readonly value: unknown }
  | { readonly parts: Readonly<Record<string, Spared>> }
  /** of a list as long as it was, what stands at these places */
  | { readonly places: readonly (readonly [number, Spared])[] };

type Parts = Readonly<Record<string, unknown>>;
const isParts = (x: unknown): x is Parts => typeof x === "object" && x !== null && Object.getPrototypeOf(x) === Object.prototype;
const isList = (x: unknown): x is ArrayLike<unknown> => Array.isArray(x) || x instanceof Float64Array;
/** Whether two say the same, down to the last number. */
function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (isList(a) && isList(b)) {
    if (a.length !== b.length || Array.isArray(a) !== Array.isArray(b)) return false;
    for (let i = 0; i < a.length; i++) if (!isSame(a[i], b[i])) return false;
    return true;
  }
  if (!isParts(a) || !isParts(b)) return false;
  const names = Object.keys(a);
  return names.length === Object.keys(b).length && names.every((n) => Object.hasOwn(b, n) && isSame(a[n], b[n]));
}

/** What has to be sent of something, to whoever has what was sent before. */
export function spared(now: unknown, was: unknown): Spared {
  if (isSame(now, was)) return { same: true };
  if (Array.isArray(now) && Array.isArray(was) && now.length === was.length) {
    const places = now.map((v, i) => [i, spared(v, was[i])] as const).filter(([, v]) => !("same" in v));
    return { places };
  }
  if (!isParts(now) || !isParts(was)) return { value: now };
  return { parts: Object.fromEntries(Object.entries(now).map(([n, v]) => [n, spared(v, was[n])])) };
}

/** The whole again, of what was sent and what came before it. */
export function whole(sent: Spared, was: unknown): unknown {
  if ("same" in sent) return was;
  if ("value" in sent) return sent.value;
  if ("places" in sent) {
    const list = Array.isArray(was) ? [...was] : [];
    for (const [i, part] of sent.places) list[i] = whole(part, list[i]);
    return list;
  }
  const before: Parts = isParts(was) ? was : {};
  return Object.fromEntries(Object.entries(sent.parts).map(([n, part]) => [n, whole(part, before[n])]));
}
