import { describe, expect, it } from "vitest";
import { InputError } from "../../../units/issue";
import { houseAddress, isOfHouse } from "./house";
import { codeLetters, codeLivesMs, type Joining, joining, mostDevices, triesPerCode } from "./joining";

function atBench(): { readonly who: Joining; readonly wait: (ms: number) => void } {
  let now = 1e12;
  let n = 0;
  return {
    who: joining({
      nowMs: () => now,
      dice: (below) => {
        n += 7;
        return n % below;
      },
      secret: () => {
        n++;
        return `secret-${n}`;
      },
    }),
    wait: (ms) => {
      now += ms;
    },
  };
}
function refusedBy(act: () => unknown): string {
  try {
    act();
  } catch (e) {
    if (e instanceof InputError) return e.issues[0].code;
    throw e;
  }
  return "taken";
}
/** A code that differs from another in its last letter only. */
const near = (code: string): string => code.slice(0, -1) + codeLetters[(codeLetters.indexOf(code.at(-1) ?? "") + 1) % codeLetters.length];

describe("a code", () => {
  it("lets one device in, however it is spaced or cased, and no second one", () => {
    const { who } = atBench();
    const { code } = who.open("Set");
    expect(code).toMatch(/^[2-9A-HJKMNP-TV-Z]{8}$/);
    const session = who.join(` ${code.slice(0, 4).toLowerCase()}-${code.slice(4)} `, "phone");
    expect(session).toMatchObject({ device: "phone", job: "Set" });
    expect(refusedBy(() => who.join(code, "another"))).toBe("no-code");
    expect(who.joined().map((s) => s.device)).toEqual(["phone"]);
    expect(who.bySecret(session.secret)?.id).toBe(session.id);
    expect(who.bySecret(`${session.secret}x`)).toBe(undefined);
    expect(who.bySecret("")).toBe(undefined);
  });
  it("is refused once its time is over, to the millisecond", () => {
    const { who, wait } = atBench();
    const first = who.open("Set").code;
    wait(codeLivesMs - 1);
    expect(who.standing()?.code).toBe(first);
    wait(1);
    expect(who.standing()).toBe(undefined);
    expect(refusedBy(() => who.join(first, "phone"))).toBe("no-code");
  });
  it("is gone after so many wrong tries, the right one among what is refused then", () => {
    const { who } = atBench();
    const { code } = who.open("Set");
    const tries = Array.from({ length: triesPerCode }, () => refusedBy(() => who.join(near(code), "phone")));
    expect(tries).toEqual([...Array(triesPerCode - 1).fill("wrong-code"), "no-code"]);
    expect(refusedBy(() => who.join(code, "phone"))).toBe("no-code");
    expect(who.joined()).toEqual([]);
  });
  it("takes the place of an earlier one, whose tries it doesn't inherit", () => {
    const { who } = atBench();
    const first = who.open("Set").code;
    for (let i = 1; i < triesPerCode; i++) refusedBy(() => who.join("nothing", "phone"));
    const second = who.open("Other").code;
    expect(refusedBy(() => who.join(first, "phone"))).toBe("wrong-code");
    expect(who.join(second, "phone").job).toBe("Other");
  });
  it("none is made while as many are joined as may be, until one is sent away", () => {
    const { who } = atBench();
    const all = Array.from({ length: mostDevices }, (_, i) => who.join(who.open("Set").code, `phone ${i}`));
    expect(refusedBy(() => who.open("Set"))).toBe("full");
    expect(who.sendAway(all[1].id)).toBe(true);
    expect(who.sendAway(all[1].id)).toBe(false);
    expect(who.bySecret(all[1].secret)).toBe(undefined);
    expect(who.bySecret(all[2].secret)?.device).toBe("phone 2");
    expect(refusedBy(() => who.open("Set"))).toBe("taken");
  });
});

describe("an address to join at", () => {
  // Source: RFC 1918, section 3: 10/8, 172.16/12, 192.168/16
  it("is of one of the three private blocks, to their edges", () => {
    for (const inside of ["10.0.0.1", "10.255.255.255", "172.16.0.1", "172.31.255.254", "192.168.0.1", "192.168.255.255"])
      expect(isOfHouse(inside), inside).toBe(true);
    for (const outside of [
      "9.255.255.255",
      "11.0.0.1",
      "172.15.0.1",
      "172.32.0.1",
      "192.167.1.1",
      "192.169.1.1",
      "8.8.8.8",
      "192.168.1",
      "::1",
      "",
    ])
      expect(isOfHouse(outside), outside).toBe(false);
  });
  it("that is said and could be reached from outside is refused", () => {
    expect(houseAddress("127.0.0.1")).toBe("127.0.0.1");
    for (const said of ["0.0.0.0", "8.8.8.8", "192.168.1.1.evil.example", "127.evil.example"])
      expect(
        refusedBy(() => houseAddress(said)),
        said,
      ).toBe("not-of-house");
  });
});
