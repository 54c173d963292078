import type { Finding } from "../../ask/findings";
import type { CrackleEvent, CrackleTold } from "../../readings/sound/crackle";

/** Recordings of one set at one gain of the sound device. */
export interface CrackleHeard {
  readonly normal: CrackleTold;
  /** the antenna off and its terminals shorted, or a dummy load in its place; nothing else moved */
  readonly without?: CrackleTold | undefined;
  /** volume at zero */
  readonly atZero?: CrackleTold | undefined;
}
const restsOn: Finding["restsOn"] = [];
const note = (id: string, says: string): Finding => ({ id, severity: "note", says, restsOn, hazards: ["none"] });
const next = (id: string, says: string, what: string): Finding => ({ ...note(id, says), severity: "check", do: what, state: "panel" });

/**
 * Events a minute.
 *
 * @source definition
 */
export const perMinute = ({ events, secondsCount }: CrackleTold, kind?: CrackleEvent["kind"]): number =>
  (60 * events.filter((e) => kind === undefined || e.kind === kind).length) / Math.max(1e-9, secondsCount);

/** How one count stands to another: counts of chance events scatter by their square root. */
type Against = "gone" | "same" | "fewer" | "too few";
const fewest = 5;
/** Rates that differ by more than two deviations differ. Source: Poisson's law; limits by common practice, no source. */
function against(normal: CrackleTold, other: CrackleTold): Against {
  const n = normal.events.length;
  const expected = (n * other.secondsCount) / Math.max(1e-9, normal.secondsCount);
  if (n < fewest || expected < fewest) return "too few";
  const got = other.events.length;
  if (got < 0.1 * expected) return "gone";
  return got > expected - 2 * Math.sqrt(expected + (expected * expected) / n) ? "same" : "fewer";
}

/**
 * What a pattern of crackle says, what it can't, and what to do next.
 *
 * @param heard recordings of the set
 * @returns findings, the plainest first; none is more than the sound bears
 * @source causes by where they get in and by their band: common practice of service literature
 */
export function crackleSays(heard: CrackleHeard): readonly Finding[] {
  const { normal } = heard;
  if (normal.events.length === 0)
    return [
      note(
        "crackle-none",
        "Nothing crackles in this recording. A crackle that comes and goes may need a longer recording, a warmer set, or a tap with an insulated stick.",
      ),
    ];
  return [...fromWhere(heard), ...byKind(normal), ...byBand(normal)];
}
function fromWhere({ normal, without, atZero }: CrackleHeard): readonly Finding[] {
  const out: Finding[] = [];
  const [a, z] = [without && against(normal, without), atZero && against(normal, atZero)];
  if (a === undefined)
    out.push(
      next(
        "crackle-without-next",
        "Whether it comes down the antenna can't be told from one recording.",
        "Record again with the antenna off and its terminals shorted, nothing else moved, and give both.",
      ),
    );
  if (a === "too few" || z === "too few")
    out.push(note("crackle-few", "There are too few events to compare: each recording needs at least five. Record for longer."));
  if (a === "gone")
    out.push(
      note(
        "crackle-antenna",
        "Without the antenna it is gone: it comes from outside, atmospherics or something electrical nearby, or from the antenna and its lead themselves.",
      ),
    );
  if (a === "same")
    out.push(note("crackle-set", "It is the same without the antenna: it arises in the set, or comes in by the line cord."));
  if (a === "fewer") out.push(note("crackle-both", "Without the antenna there is less of it: some comes from outside, some from the set."));
  if (z === "gone") out.push(note("crackle-before-volume", "With the volume at zero it is gone: it gets in ahead of the volume control."));
  if (z === "same")
    out.push(
      note(
        "crackle-after-volume",
        "With the volume at zero it stays: it gets in after the volume control, in the audio stages, the output transformer or the supply.",
      ),
    );
  return out;
}
function byKind({ events, evenlyHz }: CrackleTold): readonly Finding[] {
  const jumps = events.filter((e) => e.kind === "jump").length;
  const out: Finding[] = [];
  if (evenlyHz !== undefined)
    out.push(
      note(
        "crackle-even",
        `The bursts come evenly, ${evenlyHz.toFixed(1)} a second: something that turns, switches or builds up and lets go; not a contact, which keeps no time.`,
      ),
    );
  if (jumps > 0)
    out.push(
      next(
        "crackle-jumps",
        "The level jumps and stays: a contact that opens and closes, in a socket, a switch or a joint; a capacitor or a tube that opens; or, on a station, the station.",
        "On a steady generator, with the lid closed, work the band switch and the controls one by one, and tap the cabinet: what answers is where to look.",
      ),
    );
  return out;
}
function byBand({ events }: CrackleTold): readonly Finding[] {
  const bursts = events.filter((e) => e.kind === "burst");
  if (bursts.length < fewest) return [];
  const share = (is: (e: CrackleEvent) => boolean): number => bursts.filter(is).length / bursts.length;
  const cannot = "The sound does not tell which stage or part it is.";
  if (share((e) => e.bands.length === 1 && e.bands[0] === "low") > 0.7)
    return [
      note(
        "crackle-low",
        `Most are low thumps: a supply or a bias that shifts, a leaking coupling capacitor, a flashover in a filter capacitor. ${cannot}`,
      ),
    ];
  if (share((e) => !e.bands.includes("low")) > 0.7)
    return [
      note(
        "crackle-high",
        `Most have no lows: they pass a small coupling capacitor or come through the IF, so look ahead of the audio first. ${cannot}`,
      ),
    ];
  if (share((e) => e.bands.length === 3) > 0.7)
    return [note("crackle-all", `Most are clicks over the whole band: a contact, a resistor or an arc that breaks at once. ${cannot}`)];
  return [note("crackle-mixed", `They are of several kinds: more than one cause, or one that arrives by two paths. ${cannot}`)];
}
