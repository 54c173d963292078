import { useState } from "preact/compat";
import { placesOfHash } from "../links";
import { TaskLine, useTask } from "../task";
import { door } from "./api";

/** What a phone or tablet sees that has not joined yet: one field for the code, filled already where a picture was taken of it. */
export function AtDoor() {
  const [code, setCode] = useState(() => (placesOfHash()[0] === "join" ? (placesOfHash()[1] ?? "") : ""));
  const [device, setDevice] = useState("phone");
  const task = useTask();
  const join = () =>
    task.run("Joining", async () => {
      const { at, job } = await door.join(code, device);
      location.replace(`${location.origin}/${at}/#/job/${encodeURIComponent(job)}/big`);
      return "Joined.";
    });
  return (
    <main className="door">
      <h1 tabIndex={-1}>Join at the chassis</h1>
      <p>On this device you will see the set and type its readings. Nothing else can be changed from here.</p>
      <form
        onSubmit={(e) => {
          e.preventDefault();
          void join();
        }}
      >
        <label className="field">
          The code on Fettle's own page
          <input
            className="code"
            value={code}
            autoComplete="off"
            autoCapitalize="characters"
            spellcheck={false}
            onChange={(e) => setCode(e.currentTarget.value)}
          />
        </label>
        <label className="field">
          What this device is called in the history
          <input value={device} maxLength={30} onChange={(e) => setDevice(e.currentTarget.value)} />
        </label>
        <button type="submit" className="tall">
          Join
        </button>
      </form>
      <TaskLine of={task} />
    </main>
  );
}
