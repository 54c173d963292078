import { useEffect, useState } from "preact/compat";
import type { Issue } from "../../../units/issue";
import { Issues, Panel, Select } from "../parts";
import { issuesOf } from "../task";
import { type DoorState, door } from "./api";
import { Qr } from "./qr";

const everyMs = 2000;
/** How the door stands, asked again and again while the page is open. */
function useDoor(): {
  readonly state: DoorState | undefined;
  readonly issues: readonly Issue[];
  readonly act: (of: Promise<DoorState>) => void;
} {
  const [state, setState] = useState<DoorState>();
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  useEffect(() => {
    const stop = new AbortController();
    const ask = () => void door.state(stop.signal).then(setState, () => undefined);
    ask();
    const timer = setInterval(ask, everyMs);
    return () => {
      clearInterval(timer);
      stop.abort();
    };
  }, []);
  const act = (of: Promise<DoorState>) =>
    void of.then(
      (s) => {
        setState(s);
        setIssues([]);
      },
      (e) => setIssues(issuesOf(e)),
    );
  return { state, issues, act };
}
const spaced = (code: string): string => `${code.slice(0, 4)} ${code.slice(4)}`;

/** The code as it stands: to be typed, or taken as a picture. */
const CodeShown = ({ of }: { readonly of: NonNullable<DoorState["code"]> }) => (
  <div className="codeshown" role="status">
    <Qr of={`${of.url}#/join/${of.code}`} />
    <div>
      <p>Take a picture of it with the phone's camera. Or open this address on the phone, and type the code:</p>
      <p className="address">{of.url}</p>
      <p className="big code">{spaced(of.code)}</p>
      <p>
        It lets one device in, and is good for {Math.max(1, Math.round(of.forSeconds / 60))} more min. If the phone finds nothing at that
        address: is it on the same network, and does this machine's firewall let it in?
      </p>
    </div>
  </div>
);

/** Lets a phone or tablet join at the chassis: by a code, for this job; says who is joined, and sends one away. */
export function JoinPage({ name }: { readonly name: string }) {
  const { state, issues, act } = useDoor();
  const [address, setAddress] = useState("");
  const addresses = state?.addresses ?? [];
  return (
    <main className="joinpage">
      <h1>A phone or tablet at the chassis</h1>
      <p>
        It shows this set with one large number and a keypad for thumbs. It sees this job, types readings and reads files in; it can't mend,
        erase, export or change settings. It all ends when Fettle stops.
      </p>
      {state && addresses.length === 0 && (
        <p className="warn">This machine is on no house network now, so nothing can join. Connect it by wire or wireless first.</p>
      )}
      {state?.code && state.code.job === name && <CodeShown of={state.code} />}
      {addresses.length > 1 && (
        <Select
          label="The network that the phone is on"
          value={address || addresses[0]}
          onChange={setAddress}
          options={addresses.map((a) => [a, a] as const)}
        />
      )}
      {addresses.length > 0 && (
        <button type="button" className={state?.code ? "plain" : ""} onClick={() => act(door.code(name, address))}>
          {state?.code ? "Make another code" : "Make a code"}
        </button>
      )}
      <Issues of={issues} />
      <Panel title="Who is joined" id="joined">
        {state?.joined.length === 0 && <p>Nobody.</p>}
        <ul className="bare">
          {state?.joined.map((d) => (
            <li key={d.id} className="device">
              <strong>{d.device}</strong> sees {d.job}, since{" "}
              {new Date(d.since).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" })}
              <button type="button" className="plain" onClick={() => act(door.sendAway(d.id))}>
                Send {d.device} away
              </button>
            </li>
          ))}
        </ul>
      </Panel>
      <p className="quiet">
        What passes between them is not encrypted: use your own network, not a guest's or a public one. Nothing leaves the house.
      </p>
    </main>
  );
}
