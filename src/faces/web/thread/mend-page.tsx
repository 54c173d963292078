import { useState } from "preact/compat";
import { cardCautions } from "../../../job/card-care";
import { faultsOf, isOpenFault } from "../../../job/faults/faults";
import { faultInShort } from "../../../job/faults/in-short";
import { type PartKind, partKindById, partKinds, partPlaceOf, workOf } from "../../../job/mending/kinds";
import { ofKind } from "../../../job/place-in";
import { placeLabel, placesOf } from "../../../job/places";
import type { JobView } from "../../../job/view";
import { api, heldSays, isGone, type Planned } from "../api";
import { Pinned } from "../bench-bar";
import { CantWait } from "../cant-wait";
import { useKept } from "../kept";
import { goTo, jobLink } from "../links";
import { Panel, Select } from "../parts";
import { shrunk } from "../readings/photographs";
import { plannedHere, saidNow } from "../set/planned-here";
import { Preview } from "../set/work-form";
import { TaskLine, useTask } from "../task";

const empty = {
  place: "",
  part: "",
  label: "",
  out: "",
  outMeasured: "",
  outRated: "",
  came: "",
  cameMeasured: "",
  cameRated: "",
  dress: "",
  fault: "",
  note: "",
};
type Draft = typeof empty;
interface Mending {
  readonly view: JobView;
  readonly name: string;
  readonly reload: () => void;
  readonly place: string;
  readonly fault: string;
}
/** One act: what it would make due is seen first, then all of it is recorded at once. */
function useMending({ view, name, reload, place, fault }: Mending) {
  const [kept, setDraft] = useKept<Draft>(`mend:${name}`, empty);
  const [touched, setTouched] = useState(false);
  const draft = touched ? kept : { ...kept, ...(place ? { place } : {}), ...(fault ? { fault } : {}) };
  const [now, setNow] = useKept<Record<string, string>>(`mend-now:${name}`, {});
  const [plan, setPlan] = useState<Planned>();
  const [, setLitBy] = useKept(`lit:${name}`, "");
  const [photo, setPhoto] = useState<File>();
  const task = useTask();
  const ask = (record: boolean) =>
    task.run(record ? "Recording it" : "Working out what follows", async (signal) => {
      const kept = record && photo ? { photoHash: (await api.attach(name, draft.note, await shrunk(photo), signal)).hash } : {};
      const r = await api.mend(name, { ...draft, ...kept, now: record ? saidNow(plan, now) : {}, record }, signal).catch((e) => {
        const kind = partKindById(draft.part);
        if (record || !isGone(e) || !kind) throw e;
        return plannedHere(view, workOf(kind, view.set, draft.place), draft.place);
      });
      if (!record) {
        if (!("held" in r)) setPlan(r);
        return undefined;
      }
      setPlan(undefined);
      setPhoto(undefined);
      setDraft({ ...empty, place: draft.place });
      setNow({});
      if ("held" in r) return heldSays(r);
      const { document } = await api.load(name);
      setLitBy(ofKind(document.entries, "work").at(-1)?.id ?? "");
      reload();
      goTo(jobLink(name));
      return "Recorded.";
    });
  const change = (k: keyof Draft) => (value: string) => {
    setTouched(true);
    setDraft({ ...draft, [k]: value });
    setPlan(undefined);
  };
  return { draft, change, now, setNow, plan, setPlan, photo, setPhoto, ask, task };
}

/** A part as it was or is now: its value, what it measured out of the set, the volts that it bears. */
function PartFields({
  head,
  kind,
  draft,
  change,
  of,
}: {
  readonly head: string;
  readonly kind: PartKind | undefined;
  readonly draft: Draft;
  readonly change: (k: keyof Draft) => (value: string) => void;
  readonly of: "out" | "came";
}) {
  const text = (k: keyof Draft, label: string, placeholder: string) => (
    <label className="field">
      {label}
      <input value={draft[k]} placeholder={placeholder} onChange={(e) => change(k)(e.currentTarget.value)} />
    </label>
  );
  const example = kind?.value === "capacitance" ? ".05 mfd" : kind?.value === "resistance" ? "68 ohm ±5%" : "";
  return (
    <fieldset className="partfields">
      <legend>{head}</legend>
      <div className="row">
        {text(of, kind?.value ? "Value as marked" : "Type", example)}
        {kind?.value && text(of === "out" ? "outMeasured" : "cameMeasured", "As measured, out of the set", "")}
        {kind?.rated && text(of === "out" ? "outRated" : "cameRated", "Its voltage rating", "630 V")}
      </div>
    </fieldset>
  );
}

/** Where it stands, what kind of part it is, and which fault it mends. */
function What({
  view,
  draft,
  change,
  kinds,
}: {
  readonly view: JobView;
  readonly draft: Draft;
  readonly change: (k: keyof Draft) => (value: string) => void;
  readonly kinds: readonly PartKind[];
}) {
  const open = faultsOf(view).filter((f) => isOpenFault(f) && !f.unrecorded);
  return (
    <div className="row">
      <Select
        label="Where"
        value={draft.place}
        onChange={change("place")}
        options={[["", "choose a place"], ...placesOf(view.set).map((p) => [p, placeLabel(view.set, p)] as const)]}
      />
      <Select
        label="Part"
        value={draft.part}
        onChange={change("part")}
        options={[["", "choose a part"], ...kinds.map((k) => [k.id, k.title] as const)]}
      />
      <label className="field">
        Its name on the diagram
        <input value={draft.label} placeholder="C14" onChange={(e) => change("label")(e.currentTarget.value)} />
      </label>
      <Select
        label="Mends the fault"
        value={draft.fault}
        onChange={change("fault")}
        options={[["", "none on record"], ...open.map((f) => [f.id, faultInShort(f).split("; ")[0]] as const)]}
      />
    </div>
  );
}

/** How it lies, in words, and a picture of it. */
const Beside = (p: {
  readonly draft: Draft;
  readonly change: (k: keyof Draft) => (value: string) => void;
  readonly photo: File | undefined;
  readonly setPhoto: (photo: File | undefined) => void;
}) => (
  <>
    <label className="field">
      Lead dress
      <input value={p.draft.dress} onChange={(e) => p.change("dress")(e.currentTarget.value)} />
    </label>
    <label className="field">
      In your words
      <input value={p.draft.note} onChange={(e) => p.change("note")(e.currentTarget.value)} />
    </label>
    <label className="field">
      A photograph of it (JPEG or PNG){p.photo ? `: ${p.photo.name} is kept with the part` : ""}
      <input type="file" accept="image/jpeg,image/png" onChange={(e) => p.setPhoto(e.currentTarget.files?.[0])} />
    </label>
    {p.photo && <CantWait act="attach" />}
  </>
);

/** Mending as one act: one part out, another in; record, parts list and what is due again follow by themselves, and all of it is taken back as one. */
export function MendPage(props: Mending) {
  const { view } = props;
  const { draft, change, now, setNow, plan, setPlan, photo, setPhoto, ask, task } = useMending(props);
  const at = partPlaceOf(draft.place);
  const kinds = at ? partKinds.filter((k) => k.where.includes(at)) : partKinds;
  const kind = kinds.find((k) => k.id === draft.part);
  const wants = draft.place === "" ? "Choose where it is." : kind === undefined ? "Choose the part." : "";
  return (
    <main className="mend">
      <h1>A part out, another in</h1>
      <Panel title="The part" id="mend">
        <What view={view} draft={draft} change={change} kinds={kinds} />
        <div className="outin">
          <PartFields head="What came out" kind={kind} draft={draft} change={change} of="out" />
          <PartFields head="What went in; leave empty if nothing did" kind={kind} draft={draft} change={change} of="came" />
        </div>
        <Beside draft={draft} change={change} photo={photo} setPhoto={setPhoto} />
        <button
          type="button"
          className={plan ? "plain" : ""}
          disabled={wants !== ""}
          aria-describedby="mend-wants"
          onClick={() => void ask(false)}
        >
          See what follows
        </button>{" "}
        <span id="mend-wants" className="quiet">
          {wants}
        </span>
        <TaskLine of={task} />
        {plan && <Preview plan={plan} now={now} setNow={setNow} record={() => void ask(true)} later={() => setPlan(undefined)} />}
      </Panel>
      <Pinned state="open-dead" cautions={cardCautions(view, { state: "open-dead" })} />
    </main>
  );
}
