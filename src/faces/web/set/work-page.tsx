import { useMemo, useState } from "preact/compat";
import { cardCautions } from "../../../job/card-care";
import type { Due } from "../../../job/document";
import { ofKind } from "../../../job/place-in";
import { workKindById } from "../../../job/ripple";
import { routeOf } from "../../../job/rollups/route";
import type { JobView } from "../../../job/view";
import { api } from "../api";
import { Pinned } from "../bench-bar";
import { useKept } from "../kept";
import { goTo, jobLink } from "../links";
import { Route } from "./route";
import { WorkForm } from "./work-form";

/** Record work: the form beside the set, on which what it disturbs lights up before it is recorded and after. */
export function WorkPage({
  view,
  name,
  reload,
  work,
  subject,
}: {
  readonly view: JobView;
  readonly name: string;
  readonly reload: () => void;
  /** kind of work to begin with; empty for the last one */
  readonly work: string;
  readonly subject: string;
}) {
  const [lit, setLit] = useState<readonly Due[]>([]);
  const [, setLitBy] = useKept(`lit:${name}`, "");
  const [, setOpen] = useKept(`place:${name}`, "");
  const places = useMemo(() => routeOf(view), [view]);
  const begin = useMemo(() => ({ ...(work ? { work } : {}), ...(subject ? { subject } : {}) }), [work, subject]);
  const state = workKindById(work)?.state ?? "open-dead";
  const done = async () => {
    const { document } = await api.load(name);
    setLitBy(ofKind(document.entries, "work").at(-1)?.id ?? "");
    reload();
    goTo(jobLink(name));
  };
  return (
    <main className="workpage">
      <h1>Record work done</h1>
      <WorkForm view={view} name={name} begin={begin} shown={setLit} done={() => void done()} />
      <Route
        places={places}
        open=""
        lit={lit}
        choose={(path) => {
          setOpen(path);
          goTo(jobLink(name));
        }}
      />
      <Pinned state={state} cautions={cardCautions(view, { state })} />
    </main>
  );
}
