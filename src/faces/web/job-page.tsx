import { lazy, Suspense, useEffect, useMemo, useRef, useState } from "preact/compat";
import { isSafeToJoin } from "../../ask/chassis";
import type { JobDocument } from "../../job/document";
import { type JobView, subjectsIn, viewOf } from "../../job/view";
import { questionById } from "../../sheets/asked";
import type { Issue } from "../../units/issue";
import { own } from "../../units/own";
import { api } from "./api";
import { BeforeOpening } from "./before-opening";
import { Crossings } from "./crossings";
import { jobLink } from "./links";
import { here } from "./opened";
import { Issues } from "./parts";
import { BackToStep } from "./set/back-to-step";
import { readyForAnswers } from "./sheet/spare-worker";
import { issuesOf } from "./task";

const SetPage = lazy(() => import("./set/set-page").then((m) => ({ default: m.SetPage })));
const answersPart = () => import("./pages/answers");
const pointedPart = () => import("../../job/rollups/pointed");
/** What a question needs on its page; what can't be fetched is told where it is asked for. */
const readyForPage = (): void => {
  for (const part of [answersPart(), pointedPart()]) part.catch(() => undefined);
};
// who answers is started while the page of the question is on its way
const SheetPage = lazy(() => {
  readyForAnswers();
  return answersPart().then((m) => ({ default: m.SheetPage }));
});
// what the thread points at rests on every reading of the job: it is asked, and loaded, only where a question has several places and nobody says which
const SheetWherePointed = lazy(async () => {
  readyForAnswers();
  const [{ SheetPage }, { subjectFirst }] = await Promise.all([answersPart(), pointedPart()]);
  return {
    default: (of: Parameters<typeof SheetPage>[0]) => {
      const [about] = useState(() => subjectFirst(of.view, of.sheet) ?? "");
      return <SheetPage {...of} about={about} />;
    },
  };
});
const DialPage = lazy(() => import("./pages/dial").then((m) => ({ default: m.DialPage })));
const Records = lazy(() => import("./pages/cards").then((m) => ({ default: m.Records })));
const ReadingsPage = lazy(() => import("./pages/files").then((m) => ({ default: m.ReadingsPage })));
const WorkPage = lazy(() => import("./pages/thread").then((m) => ({ default: m.WorkPage })));
// one of its questions is asked next: the worker starts, and their page comes, while the list is drawn
const FindPage = lazy(async () => {
  const { FindPage: list } = await import("./pages/thread");
  readyForAnswers();
  readyForPage();
  return { default: list };
});
const PartsPage = lazy(() => import("./pages/papers").then((m) => ({ default: m.PartsPage })));
const ProofPage = lazy(() => import("./pages/papers").then((m) => ({ default: m.ProofPage })));
const FaultsPage = lazy(() => import("./pages/thread").then((m) => ({ default: m.FaultsPage })));
const MendPage = lazy(() => import("./pages/thread").then((m) => ({ default: m.MendPage })));
const FoundAndLeft = lazy(() => import("./pages/papers").then((m) => ({ default: m.FoundAndLeft })));
const SittingPage = lazy(() => import("./pages/thread").then((m) => ({ default: m.SittingPage })));
const BigPage = lazy(() => import("./pages/keypad").then((m) => ({ default: m.BigPage })));
const ListenPage = lazy(() => import("./pages/sound").then((m) => ({ default: m.ListenPage })));
const JoinPage = lazy(() => import("./pages/papers").then((m) => ({ default: m.JoinPage })));
const PastPage = lazy(() => import("./pages/papers").then((m) => ({ default: m.PastPage })));
const WorthPage = lazy(() => import("./pages/thread").then((m) => ({ default: m.WorthPage })));
const HearPage = lazy(() => import("./pages/sound").then((m) => ({ default: m.HearPage })));
const SweepPage = lazy(() => import("./pages/sound").then((m) => ({ default: m.SweepPage })));
const Describe = lazy(() => import("./pages/papers").then((m) => ({ default: m.Describe })));

interface Loaded {
  readonly view: JobView | undefined;
  readonly unreadable: number;
  readonly issues: readonly Issue[];
}
/** The job as it stands in the store, loaded again whenever the store has changed. */
function useJob(name: string, version: number): Loaded {
  const [document, setDocument] = useState<JobDocument>();
  const shown = useRef({ id: "", revision: -1 });
  const [unreadable, setUnreadable] = useState(0);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  useEffect(() => {
    if (version === 0) return undefined;
    let current = true;
    api.load(name).then(
      (r) => {
        if (!current) return;
        setIssues([]);
        setUnreadable(r.unreadable.length);
        // a job at the revision that is shown already is drawn once only
        if (shown.current.id === r.document.id && shown.current.revision === r.revision) return;
        shown.current = { id: r.document.id, revision: r.revision };
        setDocument(r.document);
      },
      (e) => current && setIssues(issuesOf(e)),
    );
    return () => {
      current = false;
    };
  }, [name, version]);
  const view = useMemo(() => document && viewOf(document), [document]);
  return { view, unreadable, issues };
}

/** How long the list of questions stands before a worker is started, ms: what is seen comes first. */
const restsMs = 100;
/**
 * A question is about to be asked once a pointer, a finger or the keyboard is at its link, or its list is read: its page is fetched and a worker started with
 * the job, before the tap.
 */
function useReady(job: JobDocument | undefined, page: string): void {
  useEffect(() => {
    if (!job || page === "sheet") return undefined;
    const ready = (): void => {
      readyForAnswers(job);
      readyForPage();
    };
    const near = (e: Event): void => {
      if (e.target instanceof Element && e.target.closest("a[href*='/sheet/']")) ready();
    };
    const signs = ["pointerover", "pointerdown", "focusin"];
    for (const s of signs) document.addEventListener(s, near, { passive: true });
    const read = page === "find" ? setTimeout(ready, restsMs) : undefined;
    return () => {
      clearTimeout(read);
      for (const s of signs) document.removeEventListener(s, near);
    };
  }, [job, page]);
}

interface At {
  readonly view: JobView;
  readonly name: string;
  readonly version: number;
  readonly reload: () => void;
}
/** Pages that a device at the chassis has: what is seen, typed and read in. */
const atChassis = ["", "big", "records", "readings", "sheet", "find", "worth", "before-opening"];
/** Each page of a job by its name in the address, and what follows the name. */
const pages: Readonly<Record<string, (at: At, id: string, about: string) => React.ReactNode>> = {
  "": (at) => <SetPage {...at} />,
  big: (at, id) => <BigPage {...at} card={id} />,
  listen: (at, id) => <ListenPage what={id} to={at} />,
  join: (at) => <JoinPage name={at.name} />,
  find: (at) => <FindPage {...at} />,
  work: (at, id, about) => <WorkPage key={`${id} ${about}`} {...at} work={id} subject={about} />,
  readings: (at) => <ReadingsPage {...at} />,
  dial: (at) => <DialPage {...at} />,
  records: (at, id) => <Records {...at} card={id} />,
  parts: (at) => <PartsPage {...at} />,
  proof: (at) => <ProofPage {...at} />,
  faults: (at, id) => <FaultsPage {...at} place={id} />,
  mend: (at, id, about) => <MendPage key={`${id} ${about}`} {...at} place={id} fault={about} />,
  "found-and-left": (at) => <FoundAndLeft {...at} />,
  sitting: (at) => <SittingPage {...at} />,
  past: (at) => <PastPage {...at} />,
  worth: (at) => <WorthPage {...at} />,
  hear: (at, id) => <HearPage key={id} {...at} sheet={id} />,
  sweep: (at) => <SweepPage {...at} />,
  set: (at) => <Describe {...at} />,
  "before-opening": (at) => <BeforeOpening safetyCard={jobLink(at.name, "records", "safety-in")} />,
};
/** A page of the job by its name in the address; the set itself where it has none. */
function PageOf({ rest: [page = "", id = "", about = ""], ...at }: At & { readonly rest: readonly string[] }) {
  if (!here && !atChassis.includes(page))
    return (
      <main>
        <h1>Not on this device</h1>
        <p>Here you see the set, type readings and read files in. This is done on Fettle's own machine.</p>
      </main>
    );
  const question = page === "sheet" ? questionById(id) : undefined;
  if (question) {
    const subjects = subjectsIn(at.view, question);
    const Sheet = subjects.length < 2 || subjects.includes(about) ? SheetPage : SheetWherePointed;
    return <Sheet key={`${id} ${about}`} {...at} sheet={question} about={about} />;
  }
  return (
    own(pages, page)?.(at, id, about) ?? (
      <>
        <Issues of={[{ path: "page", code: "no-page", read: [page, id].filter(Boolean).join(" "), expected: "a page of this job" }]} />
        <SetPage {...at} />
      </>
    )
  );
}

/** One job: what stands above all of its pages, and the page asked for. */
export function JobPage({
  name,
  rest,
  version,
  reload,
}: {
  readonly name: string;
  readonly rest: readonly string[];
  readonly version: number;
  readonly reload: () => void;
}) {
  const { view, unreadable, issues } = useJob(name, version);
  useReady(view?.document, rest[0] ?? "");
  const opening = (
    <main>
      <h1 tabIndex={-1}>{name}</h1>
      <Issues of={issues} />
      <p role="status">{issues.length === 0 ? "Opening…" : ""}</p>
    </main>
  );
  if (!view) return opening;
  return (
    <>
      {unreadable > 0 && (
        <p role="status">
          {`${unreadable === 1 ? "One entry of this job" : `${unreadable} entries of this job`} can't be read and ${unreadable === 1 ? "is" : "are"} left out; an export keeps ${unreadable === 1 ? "it" : "them"} as stored.`}
        </p>
      )}
      {!isSafeToJoin(view.chassis) && (
        <p className="danger-line" role="alert">
          This chassis {view.chassis === "live" ? "is connected to the line" : "is not proved isolated, so it counts as live"}. Stop here:
          join nothing to it until it is proved. {here && <a href={jobLink(name, "set")}>Prove the chassis</a>}
        </p>
      )}
      <Crossings view={view} name={name} reload={reload} />
      <BackToStep name={name} page={rest[0] ?? ""} />
      <Suspense fallback={opening}>
        <PageOf view={view} name={name} version={version} reload={reload} rest={rest} />
      </Suspense>
      <Issues of={issues} />
    </>
  );
}
