/**
 * What work takes, in minutes from low to high: common practice, no source. A person's own stand at addresses of topic `minutes`, and take their place.
 */

/** From low to high, min. */
export type Range = readonly [low: number, high: number];
export interface Takes {
  /** as an act: `align the IF` */
  readonly what: string;
  readonly hands: Range;
  /** what it takes besides where one need not keep a hand on it, but stays beside the set */
  readonly itself?: Range;
}
type Row = readonly [id: string, what: string, low: number, high: number, itself?: Range];
const table = (rows: readonly Row[]): ReadonlyMap<string, Takes> =>
  new Map(rows.map(([id, what, low, high, itself]) => [id, { what, hands: [low, high], ...(itself ? { itself } : {}) }]));

/** The steps of the job, by their numbers. */
export const stepTakes = table([
  ["01", "take the set in", 20, 60],
  ["02", "look the set over", 20, 45],
  ["03", "see to isolation, cord and fuse", 30, 90],
  ["04", "measure the ohms at the supply", 10, 25],
  ["05", "go through the capacitors", 60, 240],
  ["06", "measure the resistors", 30, 90],
  ["07", "test the tubes", 30, 90],
  ["11", "take the resistance chart", 30, 90],
  ["08", "bring the set up behind a bulb", 30, 90],
  ["09", "measure the supply", 15, 40],
  ["10", "take the voltage chart", 30, 90],
  ["12", "prove audio and detector", 20, 60],
  ["13", "trace the signal, stage by stage", 30, 90],
  ["14", "measure the oscillator on every band", 15, 40],
  ["15", "measure the AVC line", 15, 40],
  ["29a", "hunt crackle and hum", 20, 90],
  ["34a", "soak the set", 15, 30, [240, 240]],
  ["16", "set the pointer", 10, 30],
  ["17", "warm the set up", 5, 10, [30, 60]],
  ["18", "choose the IF centre", 10, 30],
  ["31a", "wire the accessory's lead", 45, 120],
  ["19", "make the set ready for the IF", 10, 20],
  ["20", "align the IF", 45, 120],
  ["21", "set the crystal filter", 20, 60],
  ["22", "centre the BFO", 10, 20],
  ["28", "fit and trim the marker generator", 30, 90],
  ["30", "log the drift", 20, 40, [60, 120]],
  ["23", "align the oscillator", 60, 180],
  ["24", "track the RF circuits", 45, 150],
  ["25", "look for the images", 10, 30],
  ["26", "calibrate the bandspread", 45, 120],
  ["31b", "set and centre the accessory", 20, 45],
  ["31c", "go through the accessory on its own", 20, 60],
  ["31d", "power the accessory and read what it draws", 20, 45],
  ["31e", "read the set without the accessory and with it", 30, 60],
  ["32", "fit the converter", 45, 120],
  ["27", "set the S meter", 20, 45],
  ["33a", "measure the sensitivity", 20, 45],
  ["33b", "measure the selectivity", 20, 40],
  ["33c", "measure image and IF rejection", 15, 40],
  ["33g", "measure the dial at the marks", 15, 45],
  ["29b", "measure the hum that is left", 10, 30],
  ["35", "make the final safety test", 30, 60],
  ["36", "write the papers and hand over", 45, 120],
]);

/** Follow-up tests at a stage, getting the set into its state apart. */
export const testTakes = table([
  ["screen-ohm", "lift the screen resistor and measure it", 6, 14],
  ["cathode-ohm", "measure cathode to chassis", 2, 5],
  ["plate-ohm", "measure plate to B+", 2, 5],
  ["screen-leak-ohm", "lift the screen bypass and test its leakage", 8, 20],
  ["grid-lifted", "lift the coupling capacitor and read the grid", 8, 16],
  ["grid-new-tube", "change the tube and read the grid", 4, 10],
  ["cathode-new-tube", "change the tube and read the cathode", 4, 10],
  ["return-volts", "read the AVC or bias line", 3, 8],
  ["tester", "test the tube", 5, 15],
  ["screen-lifted", "lift the screen bypass and read the screen", 8, 16],
  ["decoupling-lifted", "lift the decoupling capacitor and read the plate", 8, 16],
  ["cathode-resistor-ohm", "lift one lead of the cathode resistor and measure it", 6, 14],
]);

/** Follow-up tests at the supply, getting the set into its state apart. */
export const supplyTestTakes = table([
  ["first-ohm", "measure the first filter capacitor to the chassis, cold", 4, 10],
  ["look", "see what rectifies: the tube, or diodes that somebody put in", 2, 5],
  ["filter-volts", "read the volts across the first choke or filter resistor", 4, 10],
  ["ripple", "read the ripple on the first filter capacitor", 5, 12],
  ["first-farad", "lift the first filter capacitor and measure it", 10, 25],
  ["new-rectifier", "try another rectifier tube and read B+", 5, 12],
  ["heaters", "read the heater volts", 2, 5],
]);

/** Mending at the supply, and reading it again. */
export const supplyMendTakes = table([
  ["rectifier", "change the rectifier tube", 8, 20],
  ["filterCapacitor", "change the first filter capacitor", 30, 60],
  ["filterChoke", "change the first choke or filter resistor", 30, 120],
  ["bleeder", "change the bleeder", 20, 40],
  ["load", "find which tube or branch draws too much or too little", 30, 150],
  ["restoring", "fit the resistor that brings silicon's B+ down", 20, 45],
  ["tap", "set the transformer's tap, or buck the line", 20, 60],
  ["winding", "find what is open before the filter: fuse, winding, plates", 30, 120],
  ["otherwise", "trace the supply from the beginning", 60, 240],
]);

/** Mending at a stage: taking the old part out and putting the new one in, and reading the stage again. */
export const mendTakes = table([
  ["cathodeResistor", "change the cathode resistor", 20, 40],
  ["screenResistor", "change the screen resistor", 20, 40],
  ["plateFeed", "change the plate resistor, or the can", 25, 120],
  ["screenBypass", "change the screen bypass", 20, 40],
  ["cathodeBypass", "change the cathode bypass", 20, 40],
  ["decoupling", "change the decoupling capacitor", 20, 40],
  ["tube", "change the tube", 8, 20],
  ["coupling", "change the coupling capacitor", 20, 40],
  ["gridReturn", "clear the line that the grid returns to", 30, 120],
  ["oscillation", "find what oscillates", 30, 180],
  ["supply", "mend the supply to this stage", 30, 150],
  ["otherwise", "trace it from the beginning", 90, 300],
]);

/** Getting the set into the state that something wants. */
export const turnTakes = table([
  ["open", "open the set", 10, 20],
  ["dead", "switch off, unplug, discharge, measure", 4, 8],
  ["live", "clip on, stand clear, switch on, let it settle", 4, 8],
  ["warm", "let it warm up", 30, 60],
]);

/** Taking one reading, by the state that it wants. */
export const readingTakes = table([
  ["desk", "look it up, or state it", 2, 6],
  ["panel", "take a reading at the panel", 5, 15],
  ["openDead", "take a reading, open and dead", 4, 10],
  ["openLive", "take a reading, open and live", 4, 10],
]);

/** Half way: what is counted with. */
export const middle = ([low, high]: Range): number => (low + high) / 2;
