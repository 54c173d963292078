import { describe, expect, it } from "vitest";
import { counter, filledIn, generator, readCommands, voltmeter } from "./commands";
import { headerOf, parameterOf } from "./header";
import { readError, readIdentity, readNumber, readSwitch } from "./replies";

const value = (r: { readonly ok: boolean }) => ("value" in r ? r.value : r);

describe("a number as an instrument sends it", () => {
  it.each([
    // forms NR1, NR2, NR3: a maker's manual's examples (read)
    ["273", 273],
    ["0.273", 0.273],
    ["2.73E+2", 273],
    ["-1.250000E-03\r", -0.00125],
    [" +4.55E5 ", 455000],
    [".5", 0.5],
  ])("%s", (text, number) => expect(value(readNumber(text, "meter"))).toEqual({ kind: "number", value: number }));
  it("may be overload or none at all: marks of SCPI, makers' manuals (read)", () => {
    expect(value(readNumber("9.9E+37", "meter"))).toEqual({ kind: "overload" });
    expect(value(readNumber("-9.90000000E+37", "meter"))).toEqual({ kind: "overload" });
    expect(value(readNumber("9.91E+37", "meter"))).toEqual({ kind: "nothing" });
  });
  it.each(["", "1,2", "1 V", "NAN", "0x10", "1e", "--1", "\u0000"])("is not %j", (text) => {
    const r = readNumber(text, "voltmeter");
    expect(r.ok || r.issues[0]).toMatchObject({ path: "voltmeter", code: "not-a-number" });
  });
});

describe("other replies", () => {
  it("errors, with doubled quotes: SCPI-99 21.8", () => {
    expect(value(readError('-113,"Undefined header"', "g"))).toEqual({ code: -113, says: "Undefined header" });
    expect(value(readError('0,"No error"', "g"))).toEqual({ code: 0, says: "No error" });
    expect(value(readError('+0,"No error"', "g"))).toEqual({ code: 0, says: "No error" });
    expect(value(readError('-222,"Data ""x"" out of range"', "g"))).toEqual({ code: -222, says: 'Data "x" out of range' });
    expect(readError("garbage", "g").ok).toBe(false);
  });
  it("who it is: four fields in one reply", () => {
    expect(value(readIdentity("Maker,Model 1,0001,1.0", "g"))).toBe("Maker Model 1");
    expect(readIdentity("hello", "g").ok).toBe(false);
  });
  it("a switch", () => {
    expect([value(readSwitch("1", "g")), value(readSwitch("OFF", "g")), readSwitch("9.9E37", "g").ok]).toEqual([true, false, false]);
  });
});

describe("a header", () => {
  const frequency = headerOf("[SOURce:]FREQuency[:CW]");
  it.each(["FREQ", "freq", "FREQUENCY", "SOUR:FREQ", ":SOURCE:FREQUENCY:CW", "FREQ:CW"])("%s is met", (t) =>
    expect(frequency(t)).toBe(true),
  );
  it.each(["FREQU", "FRE", "SOURC:FREQ", "FREQ:CWX", "FREQ?", "POW"])("%s is not: short or long form only (a maker's manual, read)", (t) =>
    expect(frequency(t)).toBe(false),
  );
  it("of a common command and a question", () => {
    expect([headerOf("*IDN?")("*idn?"), headerOf("*IDN?")("IDN?"), headerOf("OUTPut[:STATe]?")("OUTP:STAT?")]).toEqual([true, false, true]);
  });
});

describe("a parameter with its suffix: IEEE 488.2 tables 7-1 and 7-2, as quoted (read)", () => {
  it.each([
    ["455 KHZ", "HZ", 455e3],
    ["1.5MHZ", "HZ", 1.5e6],
    ["1 MOHM", "OHM", 1e6],
    ["1 MV", "V", 1e-3],
    ["1 MAV", "V", 1e6],
    ["-73 DBM", "DBM", -73],
    ["2.5E1", "DBM", 25],
  ])("%s is so many %s", (typed, unit, number) => expect(parameterOf(typed, unit)).toBeCloseTo(number, 9));
  it.each([
    ["455 KV", "HZ"],
    ["-73 KDBM", "DBM"],
    ["loud", "DBM"],
    ["1 QHZ", "HZ"],
  ])("%s is no %s", (typed, unit) => expect(parameterOf(typed, unit)).toBeUndefined());
});

describe("an instrument's own commands", () => {
  it("replace those of the standard, one by one", () => {
    const r = readCommands(generator, '{"level": "AMPL {dBm}DBM"}', "mine.json");
    expect(value(r)).toEqual({ ...generator.standard, level: "AMPL {dBm}DBM" });
    expect(filledIn("AMPL {dBm}DBM", { dBm: -73.5 })).toBe("AMPL -73.5DBM");
    expect(filledIn(generator.standard.frequency, { Hz: 455000 })).toBe("FREQ 455000 HZ");
  });
  it.each([
    ["{", "mine.json", "not-json"],
    ["[]", "mine.json", "not-commands"],
    ['{"loudness": "X"}', "mine.json: loudness", "no-command"],
    ['{"level": "AMPL"}', "mine.json: level", "bad-command"],
    ['{"level": "AMPL {dBm} {volts}"}', "mine.json: level", "bad-command"],
    ['{"outputOff": "OUTP OFF\\nOUTP ON"}', "mine.json: outputOff", "bad-command"],
    ['{"isOutputOn": "OUTP"}', "mine.json: isOutputOn", "bad-command"],
    ['{"level": 5}', "mine.json: level", "bad-command"],
  ])("%s is refused by name", (text, path, code) => {
    const r = readCommands(generator, text, "mine.json");
    expect(r.ok || r.issues[0]).toMatchObject({ path, code });
  });
  it("stand for each kind as the standard has them", () => {
    for (const kind of [generator, voltmeter, counter]) expect(kind.schema.safeParse(kind.standard).success).toBe(true);
  });
});
