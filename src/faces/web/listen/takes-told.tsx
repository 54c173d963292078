import type { HeededFinding } from "../../../ask/findings";
import { noiseWords, riseWords } from "../../../desk/noise-words";
import type { ResponseTold } from "../../../desk/response";
import {
  crackleTakes,
  humTakes,
  humUnder,
  noiseTakes,
  responseTake,
  type TakeKind,
  type Takes,
  type TakesHow,
  takeSlots,
} from "../../../desk/takes";
import { hertzWithin } from "../../../desk/tone-words";
import { perMinute } from "../../../infer/crackle/says";
import { crackleBands } from "../../../readings/sound/crackle";
import type { Device } from "../../../readings/sound/device";
import { clock } from "../../../readings/sound/health";
import type { HumTold } from "../../../readings/sound/hum";
import { printInterval } from "../../../units/print";
import { closed, upperFirst } from "../../../units/sentence";
import { FindingBox } from "../parts";
import { Raw } from "../readings/told";

const Findings = ({ of }: { readonly of: readonly HeededFinding[] }) => (
  <>
    {of.map((f) => (
      <FindingBox key={f.id} of={f} />
    ))}
  </>
);
const decibels = (db: number, u: number): string => `${db.toFixed(1)}${u > 0 ? ` ±${Math.max(0.1, 1.96 * u).toFixed(1)}` : ""} dB`;
const labels = (kind: TakeKind, takes: Takes) => takeSlots[kind].filter((s) => takes[s.id]);

/** Heads of a table with a column for each recording that there is. */
const Heads = ({ first, of }: { readonly first: string; readonly of: ReturnType<typeof labels> }) => (
  <thead>
    <tr>
      <th scope="col">{first}</th>
      {of.map((s) => (
        <th key={s.id} scope="col">
          {s.says}
        </th>
      ))}
    </tr>
  </thead>
);

/** The mains, and each multiple that stands in any of the recordings. */
function HumTable({ takes }: { readonly takes: Takes }) {
  const there = labels("hum", takes);
  const told = (id: string): HumTold | undefined => takes[id]?.told.hum;
  const [first] = there.flatMap((s) => told(s.id) ?? []);
  const [clockU] = there.flatMap((s) => takes[s.id]?.heard.clockU ?? []);
  if (!first) return null;
  const under = humUnder(takes);
  const orders = first.lines.map((l) => l.order).filter((o) => there.some((s) => told(s.id)?.lines[o - 1]?.stands));
  const all = (t: HumTold | undefined) => (t?.allRmsDbfs === undefined ? "none stands" : `${t.allRmsDbfs.toFixed(1)} dB`);
  return (
    <>
      <p className="large note">
        <span className="level" data-hum={first.allRmsDbfs ?? ""}>
          {first.allRmsDbfs === undefined ? "No hum" : first.allRmsDbfs.toFixed(1)}
          {first.allRmsDbfs !== undefined && <span className="unit"> dB re full scale</span>}
        </span>
      </p>
      {under && <p>{under}</p>}
      {first.mains && <p>The mains is at {hertzWithin(first.mains.hz, Math.hypot(first.mains.uHz, first.mains.hz * (clockU ?? 0)))}.</p>}
      <table>
        <Heads first="rms, dB re full scale, 95 %" of={there} />
        <tbody>
          {orders.map((o) => (
            <tr key={o}>
              <th scope="row">{o * first.nominalHz} Hz</th>
              {there.map((s) => {
                const line = told(s.id)?.lines[o - 1];
                return <td key={s.id}>{line ? `${line.stands ? "" : "under "}${decibels(line.rmsDbfs, line.uDb)}` : ""}</td>;
              })}
            </tr>
          ))}
          <tr>
            <th scope="row">all that stands</th>
            {there.map((s) => (
              <td key={s.id}>{all(told(s.id))}</td>
            ))}
          </tr>
        </tbody>
      </table>
    </>
  );
}
function CrackleTable({ takes }: { readonly takes: Takes }) {
  const there = labels("crackle", takes);
  return (
    <>
      <table>
        <Heads first="Events" of={there} />
        <tbody>
          {(["burst", "jump"] as const).map((kind) => (
            <tr key={kind}>
              <th scope="row">{kind}s a minute</th>
              {there.map((s) => {
                const told = takes[s.id]?.told.crackle;
                return (
                  <td key={s.id} data-rate={kind}>
                    {told ? perMinute(told, kind).toFixed(1) : ""}
                  </td>
                );
              })}
            </tr>
          ))}
          {crackleBands.map((b) => (
            <tr key={b.name}>
              <th scope="row">
                bursts, {b.fromHz} to {b.toHz} Hz
              </th>
              {there.map((s) => (
                <td key={s.id}>{takes[s.id]?.told.crackle?.events.filter((e) => e.kind === "burst" && e.bands.includes(b.name)).length}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <ul className="quiet events">
        {takes.normal?.told.crackle?.events.slice(-5).map((e) => (
          <li key={`${e.atS} ${e.kind}`}>
            {clock(e.atS)} {e.kind}, {e.db > 0 ? "+" : "−"}
            {Math.abs(e.db).toFixed(0)} dB, {e.bands.join(", ")}
          </li>
        ))}
      </ul>
    </>
  );
}
function NoiseTold({ takes }: { readonly takes: Takes }) {
  const says = noiseTakes(takes);
  if (!says) return null;
  const rise = riseWords(says);
  const { fromHz, toHz } = says.first.told.band;
  return (
    <>
      {noiseWords(says).map((w) => (
        <p key={w.large}>
          <strong>{w.large}</strong>. {w.small}
        </p>
      ))}
      {rise && (
        <>
          <p>
            <strong>{rise.large}</strong>.
          </p>
          {rise.small.map((s) => (
            <p key={s}>{s}</p>
          ))}
        </>
      )}
      <p className="quiet">
        {fromHz.toFixed(0)} Hz to {toHz.toFixed(0)} Hz, unweighted, rms; intervals are 95 %.
      </p>
    </>
  );
}
export function ResponseBox({ of }: { readonly of: ResponseTold }) {
  const within = (e: NonNullable<ResponseTold["ends"][number]["low"]> | undefined): string =>
    e ? printInterval(e.hz, Math.max(0, e.hz - 1.96 * e.uHz), e.hz + 1.96 * e.uHz, "frequency") : "not reached";
  const trace = { label: "response", x: of.points.map((p) => p.hz), y: of.points.map((p) => p.levelDb) };
  return (
    <>
      {of.says.map((s) => (
        <p key={s}>{s}</p>
      ))}
      <table>
        <thead>
          <tr>
            <th scope="col">Below the highest</th>
            <th scope="col">from</th>
            <th scope="col">to</th>
          </tr>
        </thead>
        <tbody>
          {of.ends.map((e) => (
            <tr key={e.downDb}>
              <th scope="row">{e.downDb} dB</th>
              <td>{within(e.low)}</td>
              <td>{within(e.high)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <Raw of={{ title: "Response", xLabel: "Hz", yLabel: "level, dB", traces: [trace] }} />
      {of.warnings.map((w) => (
        <p key={w} className="quiet">
          {closed(upperFirst(w))}
        </p>
      ))}
    </>
  );
}
const ways = ["loop-back", "audio", "envelope"] as const;
interface TakesSaid {
  readonly kind: TakeKind;
  readonly takes: Takes;
  readonly how: TakesHow;
  /** the sound device's response, output and input, where a loop-back has measured it */
  readonly loop?: Device | undefined;
}

/** What the recordings that there are come to, and what they say together. */
export function TakesTold({ kind, takes, how, loop }: TakesSaid) {
  if (labels(kind, takes).length === 0) return null;
  switch (kind) {
    case "hum":
      return (
        <>
          <HumTable takes={takes} />
          <Findings of={humTakes(takes, how)} />
        </>
      );
    case "crackle":
      return (
        <>
          <CrackleTable takes={takes} />
          <Findings of={crackleTakes(takes)} />
        </>
      );
    case "noise":
      return <NoiseTold takes={takes} />;
    case "response":
      return (
        <>
          {ways.map((by) => {
            const told = responseTake(takes, by, loop);
            return told && told.points.length > 4 ? <ResponseBox key={by} of={told} /> : null;
          })}
        </>
      );
  }
}
