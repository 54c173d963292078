import { dropHeld, type Held, heldKey } from "./held";
import { useKept } from "./kept";
import { signedIn } from "./opened";

/** What is held in this browser, where anything is: how much, and what the server would not have. */
export function HeldHere() {
  const [held] = useKept<readonly Held[]>(heldKey, []);
  if (held.length === 0) return null;
  const own = held.filter((h) => h.refused === undefined && h.who === signedIn).length;
  const others = new Set(held.flatMap((h) => (h.who === signedIn ? [] : [h.who ?? "the machine itself"])));
  return (
    <div className="gone" role="status">
      {own > 0 && <p>{`Held in this browser until Fettle answers: ${own} ${own === 1 ? "entry" : "entries"}.`}</p>}
      {others.size > 0 && <p>{`Held for ${[...others].join(", ")}: sent when they sign in here.`}</p>}
      {held.map(
        (h) =>
          h.refused !== undefined && (
            <p key={h.headers["x-request"]}>
              {`Not recorded, ${decodeURIComponent(h.path.split("/")[2])}: ${h.body.slice(0, 200)}. ${h.refused} `}
              <button type="button" className="plain" onClick={() => dropHeld(h)}>
                Drop it
              </button>
            </p>
          ),
      )}
    </div>
  );
}
