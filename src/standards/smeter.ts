/**
 * S units by the IARU law: 6 dB a unit, S9 at -73 dBm below 30 MHz.
 *
 * Period sets follow their own law, often 4 to 5 dB a unit: this is a stated law, not what a set does.
 *
 * @param sUnits reading, 0 to 9
 * @returns dB over S9
 * @source IARU Region 1 HF Managers Handbook V9.0 (June 2018) 4.1.3, read as quoted
 */
export const iaruSMeterDb = (sUnits: number): number => (sUnits - 9) * 6;
/** S9 below 30 MHz, dBm. Same source. */
export const iaruS9Dbm = -73;
