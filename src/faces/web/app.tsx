import { lazy, Suspense, useCallback, useEffect, useState } from "preact/compat";
import { createRoot } from "preact/compat/client";
import { Gone } from "./cant-wait";
import { sendHeld } from "./held";
import { HeldHere } from "./held-here";
import { AtDoor } from "./join/at-door";
import { keepTogether } from "./keep-together";
import { placesOfHash } from "./links";
import { opened } from "./opened";
import { Head, useLook } from "./shell";
import { saysWaits } from "./waits";

const JobPage = lazy(() => import("./job-page").then((m) => ({ default: m.JobPage })));
const Jobs = lazy(() => import("./jobs").then((m) => ({ default: m.Jobs })));
const ListenPage = lazy(() => import("./pages/sound").then((m) => ({ default: m.ListenPage })));
const KnownPage = lazy(() => import("./jobs").then((m) => ({ default: m.KnownPage })));
const FromNothing = lazy(() => import("./from-nothing").then((m) => ({ default: m.FromNothing })));

/** Follows the address; at a new place the page begins at its head, and the keyboard with it. */
function useHash(): readonly string[] {
  const [at, setAt] = useState(placesOfHash);
  useEffect(() => {
    const on = () => {
      setAt(placesOfHash());
      window.scrollTo(0, 0);
      const first = (tries: number) => {
        const head = document.querySelector<HTMLElement>("main h1");
        if (head) {
          head.tabIndex = -1;
          if (document.activeElement === document.body || document.activeElement?.tagName === "A") head.focus({ preventScroll: true });
        } else if (tries > 0) setTimeout(() => first(tries - 1), 50);
      };
      setTimeout(() => first(40), 0);
    };
    addEventListener("hashchange", on);
    return () => removeEventListener("hashchange", on);
  }, []);
  return at;
}

/** What a page shows is asked for once its server's first word of the store is here, or this long has gone by without one, ms. */
const firstWordMs = 2000;
/**
 * Counts up whenever anything is recorded in the store, by this page or by anybody else; says when the server is gone. It is 0 until the server's first
 * word: what was asked for before that word would be asked for twice.
 */
function useStore(): { readonly version: number; readonly gone: boolean; readonly again: () => void } {
  const [version, setVersion] = useState(0);
  const [gone, setGone] = useState(false);
  useEffect(() => {
    const events = new EventSource("api/events");
    const anyway = (): void => setVersion((v) => v || 1);
    const late = setTimeout(anyway, firstWordMs);
    events.addEventListener("change", () => setVersion((v) => v + 1));
    events.onopen = () => {
      setGone(false);
      void sendHeld().then((count) => count > 0 && setVersion((v) => v + 1));
    };
    events.onerror = () => {
      setGone(true);
      anyway();
    };
    return () => {
      clearTimeout(late);
      events.close();
    };
  }, []);
  return { version, gone, again: useCallback(() => setVersion((v) => v + 1), []) };
}

function Page() {
  const [where, name, ...rest] = useHash();
  const { version, gone, again } = useStore();
  useLook();
  const job = where === "job" && name ? name : undefined;
  useEffect(() => {
    document.title = job ? `${job} – Fettle` : "Fettle";
  }, [job]);
  return (
    <Gone.Provider value={gone}>
      <Head name={job} page={rest[0] ?? ""} />
      {gone && (
        <p className="gone" role="alert">
          {opened === "here"
            ? `Fettle isn't answering. Start it again with ./fettle open and go to the address it prints. ${saysWaits}`
            : "Fettle isn't answering this device: it was sent away, or Fettle was stopped. Make a new code on its page and join again."}
        </p>
      )}
      <HeldHere />
      <Suspense fallback={<main />}>
        {job ? (
          <JobPage key={job} name={job} rest={rest} version={version} reload={again} />
        ) : where === "describe" ? (
          <FromNothing />
        ) : where === "known" ? (
          <KnownPage />
        ) : where === "listen" ? (
          <ListenPage what={name ?? ""} />
        ) : (
          <Jobs version={version} />
        )}
      </Suspense>
      <footer className="noprint quiet">
        B+ kills. No value on this page makes anything safe to touch: measure first. Local code and licensed practice prevail.
      </footer>
    </Gone.Provider>
  );
}

keepTogether();
const root = document.getElementById("root");
/** At the door there is nothing of any job, so nothing is followed. */
const Door = () => {
  useLook();
  return <AtDoor />;
};
if (root) createRoot(root).render(opened === "door" ? <Door /> : <Page />);
