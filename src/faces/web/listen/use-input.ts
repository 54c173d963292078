import { useCallback, useEffect, useMemo, useRef, useState } from "preact/compat";
import type { LiveFor, LiveNow } from "../../../readings/sound/live";
import { useKept } from "../kept";
import type { FromEar, ToEar } from "./messages";
import { inputs, NoInput, type OpenInput, openInput } from "./open-input";

type Told = Extract<FromEar, { is: "told" }>;
/** A live input as a page has it: how it stands, and the ways to it. */
export interface Input {
  readonly state: "off" | "opening" | "on";
  /** why it is off, or what is wrong with it; empty where nothing is */
  readonly trouble: string;
  readonly open: OpenInput | undefined;
  readonly devices: readonly (readonly [id: string, says: string])[];
  /** the channel that is listened to, from 0; the louder one where none was chosen */
  readonly channel: number | undefined;
  /** `0` left, `1` right, empty for the louder one */
  readonly setSide: (side: string) => void;
  readonly start: (deviceId: string) => Promise<void>;
  readonly stop: () => void;
  /** what is listened for from now on; nothing of what was heard before is kept */
  readonly begin: (what: LiveFor, clock: number) => void;
  readonly afresh: () => void;
  /** all that was heard so far */
  readonly tell: (withSound: boolean) => Promise<Told>;
  /** told of everything that is heard, as it is; gives the way to end that */
  readonly follow: (take: (news: LiveNow) => void) => () => void;
}
const silentMs = 2000;
const none = "No sound has come from the input for two seconds.";
const twoDigits = (n: number): string => String(n).padStart(2, "0");
/** `2026-11-20 19:04:11`, this place's own time. */
export function placeTime(d: Date): string {
  const [day, time] = [
    [d.getMonth() + 1, d.getDate()],
    [d.getHours(), d.getMinutes(), d.getSeconds()],
  ].map((x) => x.map(twoDigits));
  return `${[d.getFullYear(), ...day].join("-")} ${time.join(":")}`;
}

/** The inputs that there are, as they come and go. */
function useDevices(opened: boolean): Input["devices"] {
  const [devices, setDevices] = useState<Input["devices"]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: names are known once an input was opened
  useEffect(() => {
    const look = () => void inputs().then(setDevices, () => setDevices([]));
    look();
    if (!("mediaDevices" in navigator)) return undefined;
    navigator.mediaDevices.addEventListener("devicechange", look);
    return () => navigator.mediaDevices.removeEventListener("devicechange", look);
  }, [opened]);
  return devices;
}

/** Who waits for what the worker says. */
function useHeard() {
  const followers = useRef(new Set<(news: LiveNow) => void>());
  const waiting = useRef(new Map<number, (told: Told) => void>());
  const heardAt = useRef(0);
  const heard = useCallback((m: FromEar) => {
    heardAt.current = performance.now();
    if (m.is === "news") for (const take of followers.current) take(m.news);
    // whoever wants the sound must not get what another asked for without it
    else if (m.is === "told") {
      waiting.current.get(m.asked)?.(m);
      waiting.current.delete(m.asked);
    }
  }, []);
  return { followers, waiting, lastAsked: useRef(0), heardAt, heard };
}
/** The ways to an input: they stay the same ones while it is opened and closed. */
function useWays(
  current: { readonly current: OpenInput | undefined },
  { followers, waiting, lastAsked }: ReturnType<typeof useHeard>,
  channel: number | undefined,
) {
  return useMemo(() => {
    const send = (m: ToEar) => current.current?.tell(m);
    return {
      begin: (what: LiveFor, clock: number) => {
        const { sampleRateHz } = current.current ?? { sampleRateHz: 48_000 };
        send({ is: "begin", ask: { sampleRateHz, for: what, clock, channel, begun: placeTime(new Date()) } });
      },
      afresh: () => send({ is: "afresh" }),
      tell: (withSound: boolean) =>
        new Promise<Told>((done) => {
          const asked = ++lastAsked.current;
          waiting.current.set(asked, done);
          send({ is: "tell", asked, withSound });
        }),
      follow: (take: (news: LiveNow) => void) => {
        followers.current.add(take);
        return () => void followers.current.delete(take);
      },
    };
  }, [current, followers, waiting, lastAsked, channel]);
}

export function useInput(): Input {
  const [open, setOpen] = useState<OpenInput>();
  const [opening, setOpening] = useState(false);
  const [trouble, setTrouble] = useState("");
  const current = useRef<OpenInput>(undefined);
  const ear = useHeard();
  const { heardAt, heard } = ear;
  const stop = useCallback(() => {
    current.current?.close();
    current.current = undefined;
    setOpen(undefined);
  }, []);
  useEffect(() => stop, [stop]);
  const start = useCallback(
    async (deviceId: string) => {
      stop();
      setTrouble("");
      setOpening(true);
      try {
        const opened = await openInput(deviceId, { heard, gone: setTrouble });
        current.current = opened;
        heardAt.current = performance.now();
        setOpen(opened);
      } catch (e) {
        if (!(e instanceof NoInput)) throw e;
        setTrouble(e.message);
      } finally {
        setOpening(false);
      }
    },
    [stop, heard, heardAt],
  );
  useSilence(open, heardAt, setTrouble);
  const devices = useDevices(open !== undefined);
  const [side, setSide] = useKept("listen:channel", "");
  const channel = side === "" ? undefined : Number(side);
  const ways = useWays(current, ear, channel);
  return { channel, setSide, state: open ? "on" : opening ? "opening" : "off", trouble, open, devices, start, stop, ...ways };
}
/** Says so where an open input falls silent, and takes it back once sound comes again. */
function useSilence(open: OpenInput | undefined, heardAt: { readonly current: number }, say: (set: (t: string) => string) => void): void {
  useEffect(() => {
    if (!open) return undefined;
    const timer = setInterval(() => {
      const silent = performance.now() - heardAt.current > silentMs;
      say((t) => (silent ? t || none : t === none ? "" : t));
    }, 500);
    return () => clearInterval(timer);
  }, [open, heardAt, say]);
}

/** Words and bars move so often at most: a page that is drawn for each value keeps the value itself waiting. */
const wordsEveryMs = 50;
/** What is heard, for words and bars; a value that a hand follows is taken by `useAtOnce`. */
export function useNews(input: Input): LiveNow | undefined {
  const [news, setNews] = useState<LiveNow>();
  const { follow, open } = input;
  useEffect(() => {
    setNews(undefined);
    if (!open) return undefined;
    let latest: LiveNow | undefined;
    let rests: ReturnType<typeof setTimeout> | undefined;
    const show = (n: LiveNow): void => {
      setNews(n);
      latest = undefined;
      // what comes meanwhile is shown after, the last of it too
      rests = setTimeout(() => {
        rests = undefined;
        if (latest) show(latest);
      }, wordsEveryMs);
    };
    const end = follow((n) => {
      if (rests === undefined) show(n);
      else latest = n;
    });
    return () => {
      end();
      clearTimeout(rests);
    };
  }, [follow, open]);
  return news;
}
/** What a small part of the page shows, drawn as it arrives, and only where it is another one. `of` stays the same function. */
export function useAtOnce<T>(input: Input, of: (news: LiveNow) => T, same: (a: T, b: T) => boolean): T | undefined {
  const [shown, show] = useState<T>();
  const { follow, open } = input;
  useEffect(() => {
    show(undefined);
    if (!open) return undefined;
    return follow((n) => {
      const next = of(n);
      show((was) => (was !== undefined && same(was, next) ? was : next));
    });
  }, [follow, open, of, same]);
  return shown;
}
