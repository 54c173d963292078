/** Leads of transformers by colour. Source: RMA/EIA, read. */
export const leadColours: readonly (readonly [where: string, colours: string])[] = [
  ["power: primary", "black and black; tapped: common black, tap black/yellow, end black/red"],
  ["power: high voltage", "red and red, centre tap red/yellow; older sets brown, or brown and black"],
  ["power: rectifier filament", "yellow and yellow, centre tap yellow/blue"],
  ["power: heaters", "green, tap green/yellow; second brown, tap brown/yellow; third slate, tap slate/yellow"],
  ["IF", "plate blue, B+ red, grid or diode green, return (AVC, ground) black"],
  ["output", "plate blue, B+ red, other plate brown or blue; secondary green and black"],
  ["interstage", "plate blue, B+ red, grid green, other grid yellow or green, return black"],
];
