import { type ReactNode, useEffect, useRef } from "preact/compat";
import { api, download } from "./api";
import { useKept } from "./kept";
import { jobLink } from "./links";
import { here, signedIn } from "./opened";
import { TaskLine, useTask } from "./task";

/** Writes the report, says that it is at it, and can be stopped. */
function ReportButton({ name }: { readonly name: string }) {
  const task = useTask();
  const write = () =>
    task.run("Writing the report", async (signal) => {
      await download(api.reportUrl(name), `${name}.pdf`, signal);
      return "The report is in your downloads.";
    });
  return (
    <span className="report">
      {task.word === "" && (
        <button type="button" className="plain" onClick={() => void write()}>
          Report (PDF)
        </button>
      )}
      <TaskLine of={task} stop="Stop writing" />
    </span>
  );
}

/** How the page is set: dark room, large digits. */
export function useLook(): readonly [dark: boolean, setDark: (on: boolean) => void, large: boolean, setLarge: (on: boolean) => void] {
  const [theme, setTheme] = useKept("theme", "day");
  const [large, setLarge] = useKept("large", false);
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
    document.documentElement.dataset.large = large ? "yes" : "no";
  }, [theme, large]);
  return [theme === "dark", (on) => setTheme(on ? "dark" : "day"), large, setLarge];
}
const Look = () => {
  const [dark, setDark, large, setLarge] = useLook();
  return (
    <>
      <button type="button" className="plain" aria-pressed={dark} onClick={() => setDark(!dark)}>
        Dark room
      </button>
      <button type="button" className="plain" aria-pressed={large} onClick={() => setLarge(!large)}>
        Large digits
      </button>
    </>
  );
};

/** What isn't needed at every turn, behind one button; it closes behind whoever followed one of its links. */
function More({ children, at }: { readonly children: ReactNode; readonly at: string }) {
  const box = useRef<HTMLDetailsElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: closed whenever the page is at another place
  useEffect(() => {
    if (box.current) box.current.open = false;
  }, [at]);
  return (
    <details
      className="more"
      ref={box}
      onKeyDown={(e) => {
        if (e.key === "Escape" && box.current?.open) {
          box.current.open = false;
          box.current.querySelector("summary")?.focus();
        }
      }}
    >
      <summary>More</summary>
      <div className="morelist">{children}</div>
    </details>
  );
}

type Tab = (label: ReactNode, ...to: readonly string[]) => ReactNode;
/** The ways to the job's pages: those of every hour in sight, the rest behind one button. */
const JobNav = ({ name, page, tab }: { readonly name: string; readonly page: string; readonly tab: Tab }) => (
  <nav className="jobnav noprint" aria-label="This job">
    {tab(
      <>
        <span className="long">The </span>set
      </>,
    )}
    {tab(
      <>
        Find<span className="long"> a question</span>
      </>,
      "find",
    )}
    {tab("Faults", "faults")}
    {tab(
      <>
        Read<span className="long">ings</span>
      </>,
      "readings",
    )}
    {tab(
      <>
        <span className="long">The </span>dial
      </>,
      "dial",
    )}
    {tab("Cards", "records")}
    <More at={page}>
      {tab("Listen to the set", "listen")}
      {tab("Large number and keypad", "big")}
      {!signedIn && tab("A phone at the chassis", "join")}
      {tab("What is worth doing now", "worth")}
      {tab("Sit down, get up", "sitting")}
      {tab("Sweep by generator and meter", "sweep")}
      {tab("Mend: a part out, another in", "mend")}
      {tab("Record work done", "work")}
      {tab("Found and left", "found-and-left")}
      {tab("Parts", "parts")}
      {tab("Performance record", "proof")}
      {tab("Describe the set", "set")}
      {tab("What others did to it", "past")}
      {tab("Before you open it", "before-opening")}
      <ReportButton name={name} />
      <a href={api.exportUrl(name)}>Export (zip)</a>
      <Look />
    </More>
  </nav>
);

/** The ways to what a device at the chassis has. */
const ChassisNav = ({ page, tab }: { readonly page: string; readonly tab: Tab }) => (
  <nav className="jobnav noprint" aria-label="This job">
    {tab("Keypad", "big")}
    {tab("Cards", "records")}
    {tab("Set")}
    {tab("Find", "find")}
    <More at={page}>
      {tab("Readings", "readings")}
      {tab("What is worth doing now", "worth")}
      {tab("Before you open it", "before-opening")}
      <Look />
    </More>
  </nav>
);

/** The head of every page: whose set it is, the ways to its pages. */
export function Head({ name, page }: { readonly name: string | undefined; readonly page: string }) {
  const tab: Tab = (label, ...to) => (
    <a href={jobLink(name ?? "", ...to)} aria-current={(to[0] ?? "") === page ? "page" : undefined}>
      {label}
    </a>
  );
  return (
    <header className="top">
      <button type="button" className="skip noprint" onClick={() => document.querySelector<HTMLElement>("main h1")?.focus()}>
        Skip to the page
      </button>
      {here && (
        <a href="#/" className="home noprint">
          Fettle
        </a>
      )}
      {signedIn && (
        <a href="account" className="home noprint">
          {signedIn}
        </a>
      )}
      {name === undefined ? (
        <>
          <span className="spacer" />
          {here && (
            <a className="home noprint" href="#/listen">
              Listen
            </a>
          )}
          <Look />
        </>
      ) : (
        <>
          <a className="jobname" href={jobLink(name)}>
            {name}
          </a>
          {here ? <JobNav name={name} page={page} tab={tab} /> : <ChassisNav page={page} tab={tab} />}
        </>
      )}
    </header>
  );
}
