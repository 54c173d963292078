import { type Desk, openJob } from "./actions";
import { fault } from "./commands/fault";
import { mend } from "./commands/mend";
import { sitting } from "./commands/sitting";
import { wait } from "./commands/wait";
import { type At, checked } from "./declare";
import { record } from "./record";

/** The demo's intake card, as typed: invented. */
const intake: Readonly<Record<string, string>> = {
  Date: "3 May (invented)",
  Owner: "the harbour radio club (invented)",
  "What it is said to be": "the club's general-coverage set, made over for 230 V",
  "Serial or marks": "club number 4 (invented)",
  Condition: "clean, one knob not its own, cabinet oiled",
  "Past work found in it": "rectifier tube's base empty, silicon diodes under the chassis",
  Symptoms: "weak on all bands, S meter hardly moves, hum on strong stations",
  "The owner's wish": "to be used on 80 m and, by a converter, on 10 m; a Q multiplier to be hung on",
  "How original it must stay": "panel and cabinet untouched; parts under the chassis may change",
};
/** As left at the first IF tube, its screen bypass changed: rows of the chart that were wrong. */
const asLeft: Readonly<Record<string, string>> = {
  "row 4: Measured V": "234",
  "row 5: Measured V": "104",
  "row 6: Measured V": "1.09",
};
const ifTube = "stages.if1";

/**
 * The demo's faults, invented: the first IF tube's screen bypass leaks and is changed, read again and closed; silicon stands where the set was made for
 * a tube, its resistor is waited for.
 *
 * @param desk store and stamp
 * @param name the demo's job
 */
export async function demoThread(desk: Desk, name: string): Promise<void> {
  const at: At = { desk: (work) => work(desk), errands: desk.errands };
  const card = async (form: string, fields: Readonly<Record<string, string>>): Promise<void> => {
    const { newId, at: when, who } = desk.stamp;
    await record(desk, await openJob(desk, name), [{ id: newId(), at: when, who, kind: "form", form, fields }]);
  };
  const life = (typed: object) => fault.act(checked(fault.takes, { job: name, ...typed }), at);
  await card("intake", intake);
  await sitting.act(
    checked(sitting.takes, { job: name, initials: "HB", meter: "digital, 10 MΩ (invented)", thermal: "warm", line: "236 V" }),
    at,
  );
  const { id } = await life({ does: "notice", fault: ifTube });
  await life({ does: "trace", fault: id, words: "screen resistor, cold, one lead lifted: 33.4 kΩ, sound; C12 lifted: 20 kΩ (invented)" });
  await life({ does: "cause", fault: id, cause: "screen bypass C12 leaks, 20 kΩ" });
  const mended = await mend.act(
    checked(mend.takes, {
      job: name,
      part: "bypass-capacitor",
      place: ifTube,
      label: "C12",
      out: "0.05 uF",
      outRated: "400 V",
      came: "47 nF",
      cameRated: "630 V",
      dress: "to the same lug of the socket's ground, leads as short as the old ones",
      fault: id,
      record: true,
    }),
    at,
  );
  if (mended.refused) throw mended.refused;
  await card("voltage-chart", asLeft);
  await life({ does: "prove", fault: id, words: "screen and cathode as they should be, on the same meter at the same line" });
  await life({ does: "close", fault: id });
  const supply = await life({ does: "notice", fault: "supplies" });
  await life({ does: "cause", fault: supply.id, cause: "silicon diodes in the rectifier's place, without a resistor in series" });
  await wait.act(
    checked(wait.takes, { job: name, for: "series resistor for the silicon rectifier (invented)", about: supply.id, over: false }),
    at,
  );
}
