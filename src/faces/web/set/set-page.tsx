import { useMemo } from "preact/compat";
import { workKindById } from "../../../job/ripple";
import { type FaultAct, foremost, inSentence } from "../../../job/rollups/foremost";
import { routeOf } from "../../../job/rollups/route";
import type { JobView } from "../../../job/view";
import { Pinned } from "../bench-bar";
import { useKept } from "../kept";
import { jobLink } from "../links";
import { here } from "../opened";
import { Where } from "../thread/where";
import { Changed } from "./changed";
import { Leads } from "./leads";
import { Next } from "./next-list";
import { PlaceOpen } from "./place";
import { Route } from "./route";

/** What is done about a fault, by one tap; a device at the chassis mends nothing. */
function FaultLinks({ place, act, name }: { readonly place: string; readonly act: FaultAct | undefined; readonly name: string }) {
  const mends = act?.does === "mend" && here;
  return (
    <p className={act ? "leads" : "after"}>
      {mends && (
        <a className="button" href={jobLink(name, "mend", place, act.fault.unrecorded ? "" : act.fault.id)}>
          Mend it
        </a>
      )}
      <a className={act && !mends ? "button" : ""} href={jobLink(name, "faults", place)}>
        {act?.does === "read again"
          ? "What to read again"
          : act?.does === "close"
            ? "Close it"
            : "What explains the fault, and how to tell"}
      </a>
    </p>
  );
}

/** The set as the stage: what is wrong and what to do now, then the set whole, each place opening where it hangs. */
export function SetPage({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const places = useMemo(() => routeOf(view), [view]);
  const { wrong, now, items, faulty, act, wants, cautions } = useMemo(() => foremost(view, new Date().toISOString()), [view]);
  const [open, setOpen] = useKept(`place:${name}`, "");
  const [litBy, setLitBy] = useKept(`lit:${name}`, "");
  const work = view.works.find((w) => w.id === litBy);
  const place = places.find((p) => p.path === open);
  const first = act ? undefined : items.at(0);
  const after = first ? items.slice(1) : items;
  return (
    <main className="setpage">
      <h1 className="foremost">
        {wrong} <span className="now">{now}</span>
      </h1>
      {first && <Leads item={first} name={name} most={2} />}
      {faulty !== undefined && <FaultLinks place={faulty} act={act} name={name} />}
      {after.length > 0 && (
        <p className="after quiet">
          After that:{" "}
          {after
            .slice(0, 3)
            .map((i) => inSentence(i.task))
            .join(" · ")}
          .{" "}
          <button type="button" className="asword" onClick={() => document.getElementById("next")?.scrollIntoView()}>
            All {items.length}
          </button>
        </p>
      )}
      <Where view={view} name={name} />
      {work && (
        <p className="litnote" role="status">
          <strong>{workKindById(work.work)?.title ?? work.work}</strong> disturbs what is lit below.
          <button type="button" className="plain" onClick={() => setLitBy("")}>
            Seen
          </button>
        </p>
      )}
      <Route places={places} open={place ? open : ""} choose={setOpen} lit={work?.makes ?? []} litBy={work?.subject ?? ""}>
        {place && <PlaceOpen view={view} place={place} name={name} />}
      </Route>
      <div className="two">
        <Next view={view} name={name} reload={reload} items={items} />
        <aside>
          <Changed view={view} name={name} reload={reload} />
        </aside>
      </div>
      <Pinned state={wants} cautions={cautions} />
    </main>
  );
}
